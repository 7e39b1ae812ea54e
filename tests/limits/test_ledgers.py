"""A ledger of releases grows for years, and has a limit of its own."""

from builder.input_limits import LEDGER_BYTES, TEXT_BYTES
from builder.reading.course_folder import read_course
from builder.rules import INPUT_TOO_LARGE

HEAD = "releases:\n"
LINE = '  - {{lesson: {lesson}, card: client, code: "{code}", on: 2026-10-01, why: "{why}"}}\n'


def write_ledger(root, size):
    why = "Words. " * 20
    lines = [HEAD]
    while sum(map(len, lines)) < size:
        code = "".join(
            "0123456789ABCDEFGHJKMNPQRSTVWXYZ"[len(lines) >> 5 * n & 31] for n in range(5)
        )
        lines.append(LINE.format(lesson="short-hold", code=code, why=why))
    path = root / "content" / "releases.yml"
    path.write_text("".join(lines), encoding="utf-8")
    return len(lines) - 1


def test_a_ledger_of_years_is_read(write_course):
    root = write_course()
    count = write_ledger(root, TEXT_BYTES.most * 2)
    reading = read_course(root)
    assert [f for f in reading.findings if f.rule is INPUT_TOO_LARGE] == []
    assert reading.course is not None
    assert len(reading.course.ledger.releases) == count


def test_a_ledger_without_end_is_told(write_course):
    root = write_course()
    with (root / "content" / "releases.yml").open("wb") as file:
        file.truncate(LEDGER_BYTES.most + 1)
    (found,) = (f for f in read_course(root).findings if f.place.path.endswith("releases.yml"))
    assert found.rule is INPUT_TOO_LARGE
