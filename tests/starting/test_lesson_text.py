from builder.starting.lesson_text import keep_harder

LESSON = """---
title: One
harder: [two, three-b]   # what comes next
easier: [two]
---
## Steps
1. See harder: [two].
"""


def test_a_file_that_names_only_known_lessons_stays_as_it_is() -> None:
    assert keep_harder(LESSON, {"two", "three-b"}) == LESSON


def test_unknown_lessons_go_out_of_harder_and_nowhere_else() -> None:
    changed = keep_harder(LESSON, {"three-b"})
    assert changed == LESSON.replace("[two, three-b]   # what comes next", "[three-b]")


def test_a_list_of_lines_is_known_too() -> None:
    text = LESSON.replace("[two, three-b]   # what comes next", "\n  - two\n  - three-b # last")
    assert keep_harder(text, {"two"}) == LESSON.replace(
        "[two, three-b]   # what comes next", "[two]"
    )


def test_the_last_key_of_a_header_is_found() -> None:
    text = "---\ntitle: One\nharder:\n  - two\n---\nharder: [two]\n"
    assert keep_harder(text, set()) == "---\ntitle: One\nharder: []\n---\nharder: [two]\n"


def test_a_body_is_no_header() -> None:
    text = "---\ntitle: One\n---\nharder: [two]\n"
    assert keep_harder(text, set()) == text


def test_line_ends_stay() -> None:
    text = LESSON.replace("\n", "\r\n")
    assert keep_harder(text, set()).count("\r\n") == text.count("\r\n")
