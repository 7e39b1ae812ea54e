"""The table of limits in DEVELOPERS says what the tool holds to, line by line."""

from pathlib import Path

from builder.input_limits import INPUT_LIMITS

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"


def test_the_docs_list_every_limit_with_its_number_and_reason() -> None:
    text = DEVELOPERS.read_text(encoding="utf-8")
    table = text.partition("| what | the most | why |\n")[2].partition("\n\n")[0]
    rows = [f"| {each.input} | {each.most:,} {each.unit} | {each.why} |" for each in INPUT_LIMITS]
    assert table.split("\n")[1:] == rows


def test_each_limit_stands_once_and_bounds_something() -> None:
    assert len({each.input for each in INPUT_LIMITS}) == len(INPUT_LIMITS)
    assert all(each.most > 0 and each.why for each in INPUT_LIMITS)


def test_every_limit_is_asked_for_somewhere() -> None:
    """A limit that nobody asks for would be a promise that isn't kept."""
    builder = DEVELOPERS.parent / "builder"
    table = builder / "input_limits.py"
    names = [
        line.partition(" = ")[0]
        for line in table.read_text(encoding="utf-8").split("\n")
        if " = InputLimit(" in line
    ]
    code = "\n".join(
        path.read_text(encoding="utf-8") for path in builder.rglob("*.py") if path != table
    )
    assert len(names) == len(INPUT_LIMITS)
    assert [name for name in names if f"{name}.most" not in code and f"{name}," not in code] == []
