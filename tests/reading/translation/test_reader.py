"""Translations beside their originals: what is found, and what the other language then says."""

from datetime import date
from pathlib import Path

import pytest

from builder import rules
from builder.checks.run import check_course
from builder.cli.translate_command import translate
from builder.course.course import Course
from builder.findings import Rule, Severity, sort_findings
from builder.reading.course_folder import CourseReading, read_course
from builder.rules.page import PAGES
from tests.conftest import REVIEWED_ON, WriteCourse
from tests.spanish import change, speak_spanish

TODAY = date(2026, 11, 1)
BELLY = "content/lessons/breath/hand-on-belly.es.md"
RIBS = "content/lessons/breath/wide-ribs.es.md"


@pytest.fixture
def spanish(write_course: WriteCourse) -> Path:
    return speak_spanish(write_course(reviewed_on=REVIEWED_ON))


def read(root: Path) -> CourseReading:
    return read_course(root, today=TODAY)


def read_spanish(root: Path) -> Course:
    course = read(root).course
    assert course
    return course.translations["es"]


def find(root: Path) -> list[str]:
    reading = read(root)
    checked = check_course(reading.course) if reading.course else ()
    return [str(finding) for finding in sort_findings((*reading.findings, *checked))]


def is_shown(finding: str, rule: Rule) -> bool:
    """Tell whether a rule's page shows a finding to the letter."""
    return f"\n{finding}\n" in (PAGES / f"{rule.id}.md").read_text(encoding="utf-8")


def test_a_whole_translation_has_no_findings(spanish: Path) -> None:
    assert find(spanish) == []


def test_the_other_language_has_its_words_and_the_original_drills(spanish: Path) -> None:
    course, original = read_spanish(spanish), read(spanish).course
    assert original
    lesson, before = course.by_id["wide-ribs"], original.by_id["wide-ribs"]
    assert [each.id for each in course.lessons] == ["hand-on-belly", "wide-ribs"]
    assert (lesson.title, lesson.strand.title) == ("Costillas anchas", "Respiración")
    assert lesson.drill.position.title == "boca arriba"
    assert lesson.drill.props[0].prop.stand_in == "una manta doblada"
    assert lesson.words.steps[0].text == "Inhala y siente cómo se separan las manos."
    assert (lesson.drill.tempo, lesson.drill.dose) == (before.drill.tempo, before.drill.dose)
    assert lesson.builds_on == before.builds_on
    assert [n.id for n in course.notices_for(lesson)] == [
        n.id for n in original.notices_for(before)
    ]
    assert course.notices_for(lesson)[0].short == "Más tarde en el embarazo: hazlo en una silla."
    assert course.glossary["Cuenta"] == "Los números con los que respiras."
    assert course.settings.language == "es"
    assert course.settings.address == "https://small.example/es/"
    assert course.settings.caution.startswith("Esto es ejercicio general")


def test_pages_of_the_other_language_stand_at_the_same_paths(spanish: Path) -> None:
    reading = read(spanish)
    assert [page.path for page in reading.pages] == ["glossary.md", "index.md"]
    pages = reading.translated_pages["es"]
    assert {page.path: page.title for page in pages} == {
        "glossary.md": "Glosario",
        "index.md": "Un curso pequeño",
    }


@pytest.mark.parametrize(
    ("file", "rule"),
    [
        ("content/lessons/breath/wide-ribs.es.md", rules.TRANSLATION_MISSING),
        ("content/notices/holding.es.md", rules.NOTICE_UNTRANSLATED),
    ],
)
def test_a_missing_file_is_told_as_its_rule_page_says(spanish: Path, file: str, rule: Rule) -> None:
    (spanish / file).unlink()
    (found,) = find(spanish)
    assert is_shown(found, rule)


def test_without_the_course_file_there_is_no_other_language(spanish: Path) -> None:
    (spanish / "content" / "course.es.yml").unlink()
    assert read(spanish).list_languages() == ()
    assert any("G101 translation-missing: the course file has no" in each for each in find(spanish))


def test_a_notice_without_a_translation_stays_in_the_words_it_has(spanish: Path) -> None:
    (spanish / "content" / "notices" / "on-the-back.es.md").unlink()
    course = read_spanish(spanish)
    (notice, *_) = course.notices_for(course.by_id["wide-ribs"])
    assert notice.short == "Later in pregnancy: do this sitting."


def test_a_lost_stop_sign_is_found(spanish: Path) -> None:
    signs = "stop_if: [It hurts, You feel dizzy]\ncues:"
    change(spanish / "content/lessons/breath/wide-ribs.md", "cues:", signs)
    change(spanish / RIBS, "cues:", "stop_if: [Algo te duele]\ncues:")
    found = next(each for each in find(spanish) if "G103" in each)
    assert is_shown(found, rules.TRANSLATION_UNLIKE)


def test_a_wrong_number_is_found_at_its_line(spanish: Path) -> None:
    change(
        spanish / "content/lessons/breath/wide-ribs.md",
        "2. Breathe out and feel them meet again.",
        "2. Rest for 30 seconds.",
    )
    change(
        spanish / RIBS, "2. Exhala y siente cómo se juntan otra vez.", "2. Descansa 20 segundos."
    )
    found = next(each for each in find(spanish) if "G104" in each)
    assert is_shown(found, rules.NUMBERS_UNLIKE)


@pytest.mark.parametrize("number", ["2,5", "2.5"])
def test_a_decimal_sign_may_be_the_languages_own(spanish: Path, number: str) -> None:
    change(spanish / "content/lessons/breath/wide-ribs.md", "fall in}", "fall in for 2.5}")
    change(spanish / RIBS, "bajan}", f'"bajan {number} s"}}'.replace('"', ""))
    assert not any("G104" in each for each in find(spanish))


def test_what_changed_in_the_original_is_shown(spanish: Path) -> None:
    original = spanish / "content/lessons/breath/wide-ribs.md"
    change(
        original, "Breathe in and feel both hands move apart.", "Breathe in and widen both sides."
    )
    translate("es", ["wide-ribs"], project=spanish, agree=True)
    change(original, "Breathe in and widen", "Breathe in softly and widen")
    (found,) = find(spanish)
    assert is_shown(found, rules.TRANSLATION_STALE)


def test_a_step_put_in_front_is_the_only_one_that_changed(spanish: Path) -> None:
    original = spanish / "content/lessons/breath/hand-on-belly.md"
    change(original, "1. Rest one", "1. Lie still.\n2. Rest one")
    found = next(each for each in find(spanish) if "G105" in each)
    assert found.split("\n")[1:] == ['    step, now: "Lie still."']


def test_nobody_having_agreed_is_a_finding(write_course: WriteCourse) -> None:
    root = speak_spanish(write_course(reviewed_on=REVIEWED_ON), agree=False)
    found = find(root)
    assert len(found) == 10
    assert all("G105 translation-stale: nobody noted which state" in each for each in found)


def test_a_broken_kept_original_counts_as_none(spanish: Path) -> None:
    kept = spanish / "content/.originals/es/index.md.json"
    kept.write_text('{"title": "not a list"}', encoding="utf-8")
    (found,) = find(spanish)
    assert "G105 translation-stale: nobody noted which state of content/index.md" in found


def test_a_text_in_the_originals_words_is_not_translated(spanish: Path) -> None:
    change(
        spanish / RIBS,
        "- Mira desde los pies a lo largo del cuerpo.",
        "- Look from the feet along the body.",
    )
    (found,) = find(spanish)
    assert f"{RIBS}:19:1: G101" in found
    assert 'still says "Look from the feet along the body."' in found


def test_a_lesson_waits_for_what_it_builds_on(spanish: Path) -> None:
    course = spanish / "content" / "course.yml"
    change(course, "{strands: [breath]}", "{strands: [breath, count]}")
    change(
        spanish / "content/course.es.yml",
        "positions:",
        "  count: {title: Cuenta, summary: Respira con una cuenta.}\npositions:",
    )
    (spanish / "content/lessons/count").joinpath("long-out.es.md").write_text(
        "---\ntitle: Exhalación larga\nsummary: Deja que crezca.\n"
        "ready_when: [El final sea tranquilo]\n"
        "cues: {inhale: Inhala en cuatro, exhale: Exhala en seis}\n"
        'watch_for: ["El final es brusco: empieza con más suavidad"]\n---\n'
        "## Set up\nAcuéstate boca arriba en una esterilla y suelta la mandíbula.\n\n"
        "## Steps\n1. Inhala en cuatro.\n2. Exhala en seis como por una pajita.\n\n"
        "## If it is hard\n- Vuelve a contar.\n\n## Coach notes\n- Escucha el final.\n",
        encoding="utf-8",
    )
    (found,) = [each for each in find(spanish) if "G106" in each]
    assert is_shown(found, rules.WAY_UNTRANSLATED)
    assert "long-out" not in read_spanish(spanish).by_id


def test_a_translation_of_nothing_is_told(spanish: Path) -> None:
    (spanish / RIBS).rename(spanish / "content/lessons/breath/wide-rib.es.md")
    found = find(spanish)
    assert any(
        'H115 file-misplaced: nothing is translated here: there is no "wide-rib.md"' in each
        for each in found
    )


def test_a_link_to_a_lesson_that_is_not_there_in_this_language(spanish: Path) -> None:
    change(spanish / "content/index.es.md", "[[hand-on-belly]]", "[[plain-count]]")
    (found,) = find(spanish)
    assert 'content/index.es.md:7:13: L101 broken-link: "[[plain-count]]" names no lesson' in found


def test_hard_spanish_is_found_by_its_own_formula(spanish: Path) -> None:
    change(
        spanish / RIBS,
        "1. Inhala y siente cómo se separan las manos.",
        "1. Considerando simultáneamente las particularidades fisiológicas individuales, "
        "incrementa progresivamente la expansibilidad diafragmática contralateral, "
        "responsabilizándote conscientemente de las extraordinarias consecuencias.",
    )
    (found,) = [each for each in find(spanish) if "W10" in each and "reading" in each]
    assert found.startswith(f"{RIBS}:2:8: W102 very-hard-words: the reading ease is ")
    assert ", under 55 (" in found


def test_a_language_that_the_course_does_not_name_is_told_and_published_nowhere(
    spanish: Path,
) -> None:
    change(spanish / "content/course.yml", "languages: {es: {strands: [breath]}}\n", "")
    reading = read(spanish)
    told = [f for f in reading.findings if f.rule is rules.FILE_MISPLACED]
    assert [page.path for page in reading.pages] == ["glossary.md", "index.md"]
    assert len(told) == 9
    assert "which is no language of the course; name it in course.yml" in str(told[0])


@pytest.mark.parametrize(
    ("languages", "fact"),
    [
        ("{lessons: {}}", '"lessons" is the name of a page or folder of the site already'),
        ("{map: {}}", '"map" is the name of a page or folder of the site already'),
        ("{es: {strands: [breath], pages: [indx.md]}}", 'there is no page "indx.md"'),
        ("{es: {strands: []}}", '"strands" is an empty list'),
        ("{en-GB: {}}", "is the course's own language"),
        ('{"../x": {}}', '"../x" is no language tag'),
    ],
)
def test_a_scope_that_cannot_be_is_refused(spanish: Path, languages: str, fact: str) -> None:
    change(spanish / "content/course.yml", "{es: {strands: [breath]}}", languages)
    assert any(fact in each for each in find(spanish)), find(spanish)


def test_a_caution_that_changed_stops_a_publish(spanish: Path) -> None:
    notice = spanish / "content/notices/general.md"
    change(notice, "short breath.", "short breath. Never alone in water.")
    (found,) = find(spanish)
    assert is_shown(found, rules.CAUTION_STALE)
    assert rules.CAUTION_STALE.severity is Severity.ERROR


@pytest.mark.parametrize("sign", [".", "!"])
def test_a_notice_in_the_originals_words_is_untranslated(spanish: Path, sign: str) -> None:
    change(
        spanish / "content/notices/general.es.md",
        "short: Para si hay dolor, mareo o falta de aire.",
        f'short: "Stop at pain, dizziness or short breath{sign}"',
    )
    (found,) = find(spanish)
    assert ' G102 notice-untranslated: "short" still says "Stop at pain' in found


@pytest.mark.parametrize("left", ["", "\n.\n"])
def test_a_lost_long_text_of_a_caution_is_found(spanish: Path, left: str) -> None:
    path = spanish / "content/notices/on-the-back.es.md"
    change(
        path,
        "No te quedes mucho tiempo en plano boca arriba más tarde en el embarazo.\n",
        left,
    )
    told = ('G103 translation-unlike: "paragraph" has', "H112 body-malformed: the long text")
    assert any(each in found for each in told for found in find(spanish)), find(spanish)


def test_a_swapped_side_is_found(spanish: Path) -> None:
    change(spanish / "content/lessons/breath/hand-on-belly.md", "one hand on", "your left hand on")
    change(spanish / BELLY, "Apoya una mano", "Apoya la mano derecha")
    found = next(each for each in find(spanish) if "G109" in each)
    assert is_shown(found, rules.SIDES_SWAPPED)
    change(spanish / BELLY, "mano derecha", "mano izquierda")
    assert not any("G109" in each for each in find(spanish))


def test_two_languages_that_differ_by_capitals_are_one(spanish: Path) -> None:
    change(spanish / "content/course.yml", "[breath]}}", "[breath]}, ES: {strands: [breath]}}")
    assert any('H109 id-doubled: "ES" stands here twice' in each for each in find(spanish))


def test_an_address_that_no_browser_reads_is_told(spanish: Path) -> None:
    change(spanish / "content/index.md", "Start with", "[x](http://[bad/) Start with")
    assert any('L101 broken-link: "http://[bad/" is no address' in each for each in find(spanish))


def test_a_text_of_nothing_but_a_comment_is_no_text_to_grade(spanish: Path) -> None:
    notice = spanish / "content/notices/general.md"
    notice.write_text(
        notice.read_text("utf-8").replace("Stop at once when something hurts.", "<!-- x -->"),
        encoding="utf-8",
    )
    assert any("H112" in each for each in find(spanish))


def test_numbers_in_words_are_compared(spanish: Path) -> None:
    change(spanish / BELLY, "seis respiraciones", "ocho respiraciones")
    (found,) = find(spanish)
    assert 'G104 numbers-unlike: "ready when" lacks 6 and adds 8' in found
    change(spanish / BELLY, "ocho respiraciones", "6 respiraciones")
    assert find(spanish) == []
