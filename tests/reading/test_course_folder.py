"""A folder is read whole: every problem of every file at once, each with place and cure."""

import shutil
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest

from builder.course.trait import Trait
from builder.errors import BuilderError
from builder.reading.course_folder import read_course

LESSON = "content/lessons/breath/wide-ribs.md"


def edit(root: Path, path: str, old: str, new: str) -> None:
    target = root / path
    text = target.read_text(encoding="utf-8")
    assert old in text
    target.write_text(text.replace(old, new, 1), encoding="utf-8")


def findings_of(root: Path) -> list[str]:
    return [str(finding) for finding in read_course(root).findings]


def test_the_small_course_is_read_without_a_finding(write_course) -> None:
    reading = read_course(write_course())
    assert not reading.findings
    assert [lesson.id for lesson in reading.course.lessons] == [
        "hand-on-belly",
        "wide-ribs",
        "plain-count",
        "long-out",
        "short-hold",
    ]
    assert [page.path for page in reading.pages] == ["glossary.md", "index.md"]
    assert reading.course.glossary["Supine"] == "Lying on your back."


@pytest.mark.parametrize(
    ("old", "new", "finding"),
    [
        ("tempo: natural", "tempo: 4:4:4:4",
         ':7:8: H107 tempo-malformed: tempo "4:4:4:4" has other signs than hyphens '
         "between its phases; write 4-4-4-4."),
        ("tempo: natural", "tempo:",
         ":7:7: H107 tempo-malformed: the tempo is empty, not text; "
         "give four phases such as 4-1-4-1, or natural."),
        ("title: Wide ribs", 'title: ""',
         ':2:8: H113 value-out-of-range: "title" is ""; write at least a word.'),
        ("title: Wide ribs", "title: \u200d",
         ":2:8: H113 value-out-of-range: nothing in this text can be seen; write at least a word."),
        ("title: Wide ribs", f"title: {'a' * 81}",
         f':2:8: H113 value-out-of-range: "title" is "{"a" * 60}…"; use at most 80 characters.'),
        ("summary: Widen", f"summary: {'a' * 2001}",
         f':5:10: H113 value-out-of-range: "summary" is "{"a" * 60}…"; '
         "use at most 2000 characters."),
        ("level: 2", f"level: 0x{'f' * 5000}",
         f':4:8: H106 wrong-type: "level" is "0x{"f" * 58}…", not a whole number; '
         "give a whole number without a unit, such as 30."),
        ("on: 2026-10-01", "on: 0",
         ':17:33: H106 wrong-type: "on" is 0, not a date; give a date such as 2026-10-01.'),
        ("on: 2026-10-01", 'on: "1790812800"',
         ':17:33: H106 wrong-type: "on" is "1790812800", not a date; '
         "give a date such as 2026-10-01."),
        ("on: 2026-10-01", "on: 2026-02-30",
         ':17:33: H106 wrong-type: "on" is "2026-02-30", not a date; '
         "give a date such as 2026-10-01."),
        ("position: supine", "position: Supine",
         ':6:11: H108 id-malformed: "position" is "Supine", which is no id; '
         "use small letters, digits and single hyphens."),
        ("tempo: natural", "tempo: 4",
         ":7:8: H107 tempo-malformed: the tempo is 4, not text; "
         "give four phases such as 4-1-4-1, or natural."),
        ("rest: 20", "rest: 20s",
         ':8:35: H106 wrong-type: "rest" is "20s", not a whole number; '
         "give a whole number without a unit, such as 30."),
        ("rest: 20", "rest: -5",
         ':8:35: H113 value-out-of-range: "rest" is -5; give at least 0.'),
        ("rest: 20", "pause: 20",
         ":8:29: H104 key-unknown: \"pause\" is no key here; "
         "use one of sets, breaths, rest, sides, minutes."),
        ("position: supine", "position: supin",
         ':6:11: H110 name-unknown: "supin" under "position" is unknown; '
         'write "supine" if that is meant.'),
        ("props: {mat: 1}", "props: {mats: 1}",
         ':13:9: H110 name-unknown: "mats" under "props" is unknown; '
         'write "mat" if that is meant.'),
        ("summary: Widen", "sumary: Widen",
         ':5:1: H104 key-unknown: "sumary" is no key here; write "summary" if that is meant.'),
        ("strand: breath", "strand: count",
         ':3:9: H115 file-misplaced: the strand is "count", the folder "breath"; '
         "move the file or change the strand."),
        ("title: Wide ribs", "title: Wide ribs\nid: ../../x",
         ':3:5: H108 id-malformed: "id" is "../../x", which is no id; '
         "use small letters, digits and single hyphens."),
        ("on: 2026-10-01", "on: 2999-10-01",
         ":17:33: H111 date-in-future: 2999-10-01 is still to come; "
         "give the day on which it was reviewed."),
        ("on: 2026-10-01", "on: yesterday",
         ':17:33: H106 wrong-type: "on" is "yesterday", not a date; '
         "give a date such as 2026-10-01."),
        ("## Steps", "## Step",
         ':22:1: H112 body-malformed: "## Step" is no section of a lesson; '
         'write "## Steps" if that is meant.'),
        ("1. Breathe in and", "Breathe in and",
         ":23:1: H112 body-malformed: a step has no number; "
         "begin each step with its number and a full stop."),
        ("1. Breathe in and", f"1. {'x' * 5001}\n2. Breathe in and",
         ":23:1: X101 input-too-large: the passage has 5001 characters, more than 5000; "
         "part it."),
        ("1. Breathe in and", "1. <b>Breathe</b> in and",
         ":23:1: H112 body-malformed: HTML stands here, which a card can't show; "
         "use plain paragraphs and lists."),
    ],
)  # fmt: skip
def test_a_fault_in_a_lesson_is_told_with_place_and_cure(
    write_course, old: str, new: str, finding: str
) -> None:
    root = write_course()
    edit(root, LESSON, old, new)
    assert LESSON + finding in findings_of(root)


def test_every_problem_of_every_file_comes_in_one_run(write_course) -> None:
    root = write_course()
    edit(root, LESSON, "level: 2", "level: two")
    edit(root, LESSON, "effort: resting", "effort: [resting]")
    edit(root, "content/lessons/count/long-out.md", "4-1-6-1", "4-1-6")
    edit(root, "content/notices/slow.md", "action: note", "action: nota")
    places = [finding.partition(": ")[0] for finding in findings_of(root)]
    assert places == [
        "content/lessons/breath/wide-ribs.md:4:8",
        "content/lessons/breath/wide-ribs.md:9:9",
        "content/lessons/count/long-out.md:7:8",
        "content/notices/slow.md:3:9",
    ]


def test_a_lesson_that_cannot_be_read_is_known_by_name(write_course) -> None:
    root = write_course()
    edit(root, LESSON, "level: 2", "level: two")
    course = read_course(root).course
    assert course.unreadable == {"wide-ribs"}
    assert "wide-ribs" not in course.by_id


def test_an_id_stands_in_one_file_only(write_course) -> None:
    root = write_course()
    text = (root / LESSON).read_text(encoding="utf-8").replace("strand: breath", "strand: count")
    (root / "content/lessons/count/wide-ribs.md").write_text(text, encoding="utf-8")
    assert findings_of(root) == [
        "content/lessons/count/wide-ribs.md:1:1: H109 id-doubled: "
        '"wide-ribs" is already the id of content/lessons/breath/wide-ribs.md; '
        "rename one of the files."
    ]


@pytest.mark.parametrize("name", ["Wide_Ribs", "con", "a--b", "ribs ", "é"])
def test_a_file_name_that_is_no_id_is_refused(write_course, name: str) -> None:
    root = write_course()
    (root / LESSON).rename(root / f"content/lessons/breath/{name}.md")
    found = [finding for finding in read_course(root).findings if finding.rule.id == "H108"]
    assert len(found) == 1


def test_a_link_out_of_the_course_is_not_followed(write_course, tmp_path: Path) -> None:
    root = write_course()
    secret = tmp_path / "secret.md"
    secret.write_text("secret", encoding="utf-8")
    (root / "content/lessons/breath/leak.md").symlink_to(secret)
    assert findings_of(root) == [
        "content/lessons/breath/leak.md:1:1: H116 text-unreadable: "
        "this link leads out of the course; put the file itself here."
    ]


def test_text_that_is_not_utf_8_is_told_with_its_line(write_course) -> None:
    root = write_course()
    path = root / LESSON
    path.write_bytes(path.read_bytes().replace(b"lower ribs", b"lower \xff ribs"))
    assert findings_of(root)[0].startswith(f"{LESSON}:20:1: H116 text-unreadable")


def test_windows_line_ends_and_a_byte_order_mark_change_nothing(write_course) -> None:
    root = write_course()
    plain = read_course(root).course.by_id["wide-ribs"]
    path = root / LESSON
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    assert read_course(root).course.by_id["wide-ribs"] == plain


def test_a_limit_may_be_tightened_but_loosened_only_with_a_reason(write_course) -> None:
    root = write_course()
    path = "content/course.yml"
    text = (root / path).read_text(encoding="utf-8")
    (root / path).write_text(text + "limits: {hold_max_seconds: 4}\n", encoding="utf-8")
    reading = read_course(root)
    assert not reading.findings
    assert reading.course.settings.limits.hold_max_seconds == 4
    (root / path).write_text(text + "limits: {hold_max_seconds: 9}\n", encoding="utf-8")
    assert "H117 limit-loosened" in findings_of(root)[0]
    loosened = "limits: {hold_max_seconds: {value: 9, reason: trained divers}}\n"
    (root / path).write_text(text + loosened, encoding="utf-8")
    assert read_course(root).course.settings.limits.hold_max_seconds == 9


@pytest.mark.parametrize(
    ("old", "new", "finding"),
    [
        ("https://small.example/", "javascript:alert(1)",
         ':5:10: H113 value-out-of-range: "javascript:alert(1)" is no web address for a site; '
         "give it whole, such as https://studio.example/, without ? and #."),
        ("https://small.example/", "'https://small.example/\"x'",
         ":5:10: H113 value-out-of-range: \"https://small.example/\"x\" is no web address for a "
         "site; give it whole, such as https://studio.example/, without ? and #."),
        ("https://small.example/", "'https://[::1'",
         ':5:10: H113 value-out-of-range: "https://[::1" is no web address for a site; '
         "give it whole, such as https://studio.example/, without ? and #."),
        ("language: en-GB", "language: ../../x",
         ':3:11: H113 value-out-of-range: "language" is "../../x", which is no language tag; '
         "give one such as en-GB."),
        ("caution:", "colours: {accent: red}\ncaution:",
         ':7:19: H113 value-out-of-range: "accent" is "red", which is no colour here; '
         'give # and six digits or letters a to f in quotes, such as "#1f5e5b".'),
        ("caution:", "colours:\n  accent: #1f5e5b\ncaution:",
         ':8:10: H106 wrong-type: "accent" is empty, not text; '
         "give text, in quotes if it looks like a number or begins with #."),
        ("  supine:", "  ../x:",
         ':12:9: H108 id-malformed: "../x" is no id; '
         "use small letters, digits and single hyphens."),
        ("caution:", "limits: {hold_max_seconds: -5}\ncaution:",
         ':7:28: H113 value-out-of-range: "hold_max_seconds" is -5; give more than 0.'),
        ("caution:", "limits: {hold_max_seconds: 1e999}\ncaution:",
         ':7:28: H106 wrong-type: "hold_max_seconds" is "1e999", not a number; '
         "give a number without a unit, such as 2.5."),
        ("caution:", "limits: {cue_words: 4.5}\ncaution:",
         ':7:21: H106 wrong-type: "cue_words" is 4.5, not a whole number; give a whole number.'),
        ("caution:", 'limits: {hold_max_seconds: {value: 9, reason: ""}}\ncaution:',
         ':7:47: H113 value-out-of-range: "reason" is ""; write at least a word.'),
    ],
)  # fmt: skip
def test_a_fault_in_the_course_file_is_told_with_place_and_cure(
    write_course, old: str, new: str, finding: str
) -> None:
    root = write_course()
    edit(root, "content/course.yml", old, new)
    assert findings_of(root) == ["content/course.yml" + finding]


def test_a_trait_of_the_tool_gets_a_title_but_keeps_its_notice(write_course) -> None:
    root = write_course()
    course = "content/course.yml"
    edit(root, course, "caution:", "traits: {breath-hold: {title: stopping}}\ncaution:")
    reading = read_course(root)
    assert not reading.findings
    assert reading.course.traits["breath-hold"] == Trait("breath-hold", "stopping")
    edit(root, course, "{title: stopping}", "{title: stopping, needs_notice: false}")
    reading = read_course(root)
    assert [str(finding) for finding in reading.findings] == [
        "content/course.yml:7:55: H117 limit-loosened: "
        'every lesson with "breath-hold" needs a notice; leave needs_notice out.'
    ]
    assert reading.course.traits["breath-hold"].needs_notice


@pytest.mark.parametrize(
    "position", ["supine: {title: on the back", "back: {term: supine, title: b"]
)
def test_a_position_has_the_trait_that_it_is_named_after(write_course, position: str) -> None:
    root = write_course()
    edit(root, "content/course.yml", "  supine: {", f"  {position}, rank: 0}}\n  other: {{")
    positions = read_course(root).course.vocabulary.positions
    assert positions[position.partition(":")[0]].traits == {"supine"}


def test_a_limit_keeps_its_half_seconds(write_course) -> None:
    root = write_course()
    edit(root, "content/course.yml", "caution:", "limits: {hold_max_seconds: 5.5}\ncaution:")
    assert read_course(root).course.settings.limits.hold_max_seconds == 5.5


def test_a_course_file_that_cannot_be_read_leaves_no_course(write_course) -> None:
    root = write_course({"content/course.yml": "title: [x"})
    reading = read_course(root)
    assert reading.course is None
    assert [finding.rule.id for finding in reading.findings] == ["H102"]


def test_a_folder_without_a_course_stops_the_run_with_a_cure(tmp_path: Path) -> None:
    with pytest.raises(BuilderError) as caught:
        read_course(tmp_path)
    assert "tempoleaf new" in caught.value.cure


def test_a_notice_s_paragraph_comes_to_an_end(write_course) -> None:
    root = write_course()
    edit(root, "content/notices/holding.md", "A hold can", f"{'x' * 5000} A hold can")
    (found,) = findings_of(root)
    assert found.startswith("content/notices/holding.md:11:1: X101 input-too-large: a paragraph")


def test_a_course_without_a_lesson_is_told(write_course) -> None:
    root = write_course()
    shutil.rmtree(root / "content/lessons")
    assert findings_of(root) == [
        "content/course.yml:9:3: H113 value-out-of-range: the course has no lesson; "
        "write the first one under lessons/breath/."
    ]


def test_a_day_that_has_begun_in_the_east_is_no_day_to_come(write_course) -> None:
    root = write_course()
    east = datetime.now(timezone(timedelta(hours=14))).date()
    edit(root, LESSON, "on: 2026-10-01", f"on: {east.isoformat()}")
    assert not findings_of(root)
    edit(root, LESSON, f"on: {east}", f"on: {east + timedelta(days=1)}")
    assert "H111 date-in-future" in findings_of(root)[0]


def test_a_header_of_2000_nested_brackets_is_one_finding(write_course) -> None:
    root = write_course()
    edit(root, LESSON, "builds_on: [hand-on-belly]", "builds_on: " + "[" * 2000)
    assert [finding.split(":")[1] for finding in findings_of(root)] == ["10"]
