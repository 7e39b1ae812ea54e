"""Citations: a source names author and year, a rule of our own says that it is ours."""

from builder.sums.citation import Citation, ours


def test_a_published_source_names_author_year_and_place() -> None:
    source = Citation("a", "Doe and Roe", 1999, "a table", "Journal 1:2")
    assert str(source) == "Doe and Roe 1999: a table. Journal 1:2"
    assert not source.is_ours


def test_our_own_rule_says_so() -> None:
    rule = ours("half", "half of it at most")
    assert rule.is_ours
    assert (rule.key, rule.authors, rule.where) == ("half", "", "")
    assert str(rule) == "half of it at most (ours, no published source)"
