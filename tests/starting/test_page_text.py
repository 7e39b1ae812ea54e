import pytest

from builder.starting.page_text import Missing, leave_out

MISSING = Missing(frozenset({"gone", "far-gone"}), frozenset({"lost"}), ("Lost strand",))


@pytest.mark.parametrize(
    ("page", "left"),
    [
        ("One. See [[gone]] now. Three.\n", "One. Three.\n"),
        ("One.\nSee\n[[gone]] now. Three\nfour.\n", "One. Three four.\n"),
        ("Do [[here]] first.\n\nThen [[gone]].\n\nEnd.\n", "Do [[here]] first.\n\nEnd.\n"),
        ("1. a\n2. [[gone]]\n3. c\n4. d\n", "1. a\n2. c\n3. d\n"),
        ("- a\n- b [[gone]]\n  and more\n- c\n", "- a\n- c\n"),
        ("- A [[here]]. B [[gone]].\n", "- A [[here]].\n"),
        (
            "| a | b |\n| - | - |\n| x | [[gone]] |\n| y | z |\n",
            "| a | b |\n| - | - |\n| y | z |\n",
        ),
        ("# T\n\n## A\n\n[[gone]] only.\n\n## B\n\nText.\n", "# T\n\n## B\n\nText.\n"),
        ("# T\n\n## A\n\n[[gone]] only.\n\n### B\n\nText.\n", "# T\n\n## A\n\n### B\n\nText.\n"),
        (
            "# T\n\n## Lost strand: why\n\nText.\n\n### In it\n\nMore.\n\n## B\n\nb\n",
            "# T\n\n## B\n\nb\n",
        ),
        ("See [it](lessons/lost/gone.md). B.\n", "B.\n"),
        ("See [all](lessons/lost/index.md). B.\n", "B.\n"),
        ("---\ntitle: x [[gone]]\n---\nA. [[gone]].\n", "---\ntitle: x [[gone]]\n---\nA.\n"),
    ],
)
def test_nothing_is_left_that_speaks_of_a_missing_lesson(page: str, left: str) -> None:
    assert leave_out(page, MISSING) == left


@pytest.mark.parametrize(
    "page",
    [
        "One.  Two\n\n\n\nthree [[here]]\n\n",
        "1. a\n1. b\n",
        "## Lost strands and other words\n\nText.\n",
        "See [it](lessons/kept/here.md).",
        "```\n## Lost strand\n```\n",
    ],
)
def test_a_page_that_speaks_of_none_stays_as_it_is(page: str) -> None:
    assert leave_out(page, MISSING) == page


def test_code_is_no_text() -> None:
    page = "A [[gone]]. B.\n\n```\n[[gone]]\n\n# no heading\n```\n"
    assert leave_out(page, MISSING) == "B.\n\n```\n[[gone]]\n\n# no heading\n```\n"
