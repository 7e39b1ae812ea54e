"""The words of a sheet: cautions, doses, the person's language, and plain enough to read."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from builder.course.course import Course
from builder.course.notice import Action
from builder.planning.home_lessons import LeftInClass, WhyInClass
from builder.planning.home_plan import plan_home
from builder.planning.overview import PersonOverview, survey_person
from builder.planning.trends import Trend
from builder.publishing.client_sheet.in_words import SheetOrder, view_sheet
from builder.publishing.client_sheet.view import SheetView
from builder.publishing.views.inline import strip_tags
from builder.sums.practice import Kind
from builder.sums.reading_grade import count_words, flesch_kincaid_grade
from tests.planning.starter import read_starter
from tests.publishing.client_sheet.demo import order_sheet, read_demo, see

CLIENTS = ("C1", "C2", "C3", "C5", "C6", "C7", "C8")


@pytest.mark.parametrize("person", CLIENTS)
def test_every_notice_of_every_lesson_is_on_the_sheet(person: str) -> None:
    order, view = order_sheet(person), see(person)
    said = [str(item.words) for group in view.cautions for item in group.cautions]
    text = strip_tags(" ".join((*said, str(view.caution.words))))
    own = {notice.id: strip_tags(notice.short) for notice in _spoken(order).notices}
    lessons = [order.course.by_id[home.lesson_id] for home in order.plan.lessons]
    carried = {each.id for lesson in lessons for each in order.course.notices_for(lesson)}
    assert carried
    assert [name for name in sorted(carried) if own[name] not in text] == []


def _spoken(order: SheetOrder) -> Course:
    language = order.overview.person.language
    return order.course.translations.get(language, order.course)


def test_what_a_notice_changes_for_the_person_comes_first() -> None:
    order = order_sheet("C3")
    adapted = {
        adaptation.text
        for lesson in order.plan.lessons
        for adaptation in lesson.adaptations
        if adaptation.text
    }
    said = " ".join(str(item.words) for item in see("C3").own_cautions)
    assert adapted
    assert all(text in said for text in adapted)


def test_an_open_question_names_what_to_ask_about_and_gives_no_lesson() -> None:
    order = order_sheet("C3")
    plan = replace(order.plan, asks_first=("thin-bones",), lessons=(), retest=None)
    view = view_sheet(replace(order, plan=plan))
    assert "thin bones" in view.ask_first
    assert (view.lessons, view.no_lessons) == ((), "")
    assert view.period == "24 November 2026"
    assert {group.action for group in view.cautions} >= {Action.STOP, Action.ASK_FIRST}


def test_whose_classes_fill_the_weeks_is_told_so() -> None:
    order = order_sheet("C5")
    left = (LeftInClass("breath", WhyInClass.NO_ROOM),)
    view = view_sheet(replace(order, plan=replace(order.plan, lessons=(), left=left)))
    assert view.no_lessons == "These weeks have no room for practice at home beside your classes."


def test_a_condition_without_an_answer_is_told() -> None:
    assert any("dolor de espalda" in item.words for item in see("C8").own_cautions)


def test_a_low_measure_on_two_days_sends_to_a_clinician() -> None:
    order = order_sheet("C5")
    overview: PersonOverview = order.overview
    trends: list[Trend] = [replace(each, asks_for_clinician=True) for each in overview.trends[:1]]
    view = view_sheet(replace(order, overview=replace(overview, trends=tuple(trends))))
    assert any("ask a clinician" in item.words for item in view.own_cautions)


def test_translated_lessons_are_in_the_persons_language_and_others_say_that_they_are_not() -> None:
    lessons = {lesson.id: lesson for lesson in see("C8").lessons}
    assert (lessons["full-exhale"].title, lessons["full-exhale"].untranslated) == (
        "Exhalación completa",
        "",
    )
    assert (lessons["even-count"].language, lessons["even-count"].untranslated) == (
        "en-GB",
        "Esta lección está en inglés: aún no está traducida.",
    )
    assert lessons["even-count"].dose.startswith("2 series de 6 respiraciones")
    assert see("C8").other_language == ""


def see_in_german(**changes: object) -> SheetView:
    order = order_sheet("C8")
    person = replace(order.overview.person, language="de")
    plan = replace(order.plan, **changes)  # type: ignore[arg-type]
    return view_sheet(replace(order, overview=replace(order.overview, person=person), plan=plan))


def test_a_course_without_the_persons_language_is_never_mixed_in_silence() -> None:
    view = see_in_german()
    assert view.other_language.startswith("Manches hier ist auf Englisch")
    assert {each.untranslated for each in view.lessons} == {
        "Diese Übung ist auf Englisch: Sie ist noch nicht übersetzt."
    }
    assert {item.language for group in view.cautions for item in group.cautions} == {"en-GB"}


def test_words_of_the_course_in_a_german_sentence_say_that_they_are_english() -> None:
    view = see_in_german(asks_first=("back-pain",), lessons=())
    english = '<span lang="en-GB">{}</span>'.format
    said = [str(item.words) for item in view.own_cautions]
    assert english("back pain") in view.ask_first
    assert english("comfortable hold") in see_in_german().retest
    assert english("mat") in see_in_german().lessons[0].props
    assert english("Comfortable hold") in view.trends[0].heading
    assert not any("back pain" in words and english("back pain") not in words for words in said)


def test_what_an_author_writes_is_no_markup() -> None:
    order = order_sheet("C8")
    known = order.course.vocabulary.conditions
    odd = {**known, "back-pain": replace(known["back-pain"], title="back <b>& more</b>")}
    course = replace(
        order.course, vocabulary=replace(order.course.vocabulary, conditions=odd), translations={}
    )
    view = view_sheet(replace(order, course=course))
    words = " ".join(str(item.words) for item in view.own_cautions)
    assert "back &lt;b&gt;&amp; more&lt;/b&gt;" in words


def test_a_number_without_a_rule_says_that_its_chance_is_unknown() -> None:
    trend = next(each for each in see("C1").trends if each.unit == "breaths")
    assert trend.lines[0].scatter is None
    assert trend.sentences[0].endswith("How much this number changes by chance is not known.")


def test_weeks_under_the_published_least_days_are_told_with_their_source() -> None:
    """Two days a week and more: Garber and others 2011, as in `builder/sums/practice.py`."""
    order = order_sheet("C6")
    home = next(each for each in order.plan.lessons if each.kind is Kind.CONTROL)
    first = order.plan.span.first_day
    few = replace(home, days=(first, first + timedelta(days=7), first + timedelta(days=9)))
    plan = replace(order.plan, lessons=(few,), class_days=())
    told = view_sheet(replace(order, plan=plan)).lessons[0].thin
    assert told.startswith("In week 1, 3 and 4 this has fewer than the 2 days a week")
    assert "(Garber et al. 2011)" in told


def test_dates_and_words_are_in_the_persons_language() -> None:
    assert (
        see("C8").period
        == "Práctica en casa del 25 de noviembre de 2026 al 22 de diciembre de 2026"
    )


def test_somebody_whose_language_nobody_speaks_gets_the_studios() -> None:
    order = order_sheet("C5")
    person = replace(order.overview.person, language="fy")
    view = view_sheet(replace(order, overview=replace(order.overview, person=person)))
    assert view.language.tag == "en-GB"


def test_the_dose_has_the_persons_own_rest() -> None:
    order = order_sheet("C5")
    home = replace(order.plan.lessons[0], rest_seconds=31.0)
    plan = replace(order.plan, lessons=(home,))
    assert "31 s rest" in view_sheet(replace(order, plan=plan)).lessons[0].dose


def test_both_sides_of_a_measure_share_one_chart() -> None:
    gap = next(trend for trend in see("C7").trends if trend.unit == "cm" and len(trend.lines) > 1)
    assert [line.label for line in gap.lines] == ["left", "right"]
    assert [text.split(":")[0] for text in gap.sentences] == ["Left", "Right"]
    assert gap.sentences[0].endswith("That is less, and not just by chance.")


def test_what_is_needed_comes_with_what_a_household_has() -> None:
    assert "soft ball (or a firm cushion)" in " ".join(each.props for each in see("C7").lessons)
    assert see("C8").lessons[0].props.startswith("Necesitas: ")


def test_a_ladder_begins_at_the_persons_own_rung() -> None:
    course, program = read_starter(), read_demo().records.program
    overview = survey_person(course, program, program.people["C2"], date(2026, 11, 5))
    plan = plan_home(course, program, overview, ())
    view = view_sheet(SheetOrder(course, read_demo().studio, overview, plan))
    lesson = next(each for each in view.lessons if each.id == "tempo-ladder")
    assert lesson.tempo_text == view.rungs[0].tempo
    assert [rung.seconds for rung in view.rungs] == ["13 s", "14 s", "15 s"]
    assert strip_tags(view.ladder_title) == f"Your steps: {lesson.title}"


def test_one_measure_of_two_lessons_is_told_apart() -> None:
    titles = [trend.title for trend in see("C1").trends]
    assert len(titles) == len(set(titles)) > 1


def test_boxes_stand_week_by_week() -> None:
    order = order_sheet("C5")
    lesson = see("C5").lessons[0]
    assert len(lesson.weeks) == order.plan.span.weeks
    assert sum(len(week.days) for week in lesson.weeks) == len(order.plan.lessons[0].days)


def test_the_sheets_own_words_read_at_grade_six() -> None:
    """Flesch and Kincaid (Kincaid and others 1975), as `builder/sums/reading_grade.py` has it."""
    view = see("C3")
    own = [str(item.words) for item in view.own_cautions]
    told = [text for trend in view.trends for text in trend.sentences]
    asked = (
        "Ask a clinician before you practise at home, and tell your coach what they said. "
        "Until then there are no lessons on this sheet. Do each lesson as your coach showed you. "
        "Tick a box on a day when all sets feel easy. After two easy days in a row, take the next "
        "step. Go back a step whenever you like."
    )
    assert flesch_kincaid_grade(count_words(" ".join((*own, *told, asked)))) <= 6


def test_the_demo_program_is_sound() -> None:
    assert (read_demo().faults, read_demo().records.findings) == ((), ())
    assert read_starter().translations


def test_who_sits_instead_is_drawn_and_told_so_at_home() -> None:
    """C1 is pregnant: "Even count" lies on the back, and her copy of the picture would too."""
    view, order = see("C1"), order_sheet("C1")
    moved = {each.id: each for each in view.lessons if each.usual}
    assert "even-count" in moved
    even = moved["even-count"]
    assert even.figure
    assert {even.figure.inhale.base, even.figure.exhale.base} == {"sitting"}
    assert even.position == "sitting instead"
    assert even.usual == "The page behind the code shows the usual position."
    assert "chair" in even.props
    assert "mat" not in even.props
    for each in view.lessons:
        lesson = order.course.by_id[each.id]
        assert (each.figure == lesson.figure) is (each.id not in moved)


@pytest.mark.parametrize("person", CLIENTS)
def test_no_sheet_draws_a_body_on_the_floor_that_a_notice_takes_off_it(person: str) -> None:
    order = order_sheet(person)
    for home, shown in zip(order.plan.lessons, see(person).lessons, strict=True):
        if any(each.notice and each.notice.instead for each in home.adaptations):
            assert shown.figure
            assert shown.figure.inhale.base == "sitting"
            assert shown.usual


def test_another_language_says_where_it_is_done_instead() -> None:
    order = order_sheet("C1")
    person = replace(order.overview.person, language="es")
    view = view_sheet(replace(order, overview=replace(order.overview, person=person)))
    even = next(each for each in view.lessons if each.id == "even-count")
    assert even.position.startswith("en su lugar: ")
    assert even.usual == "La página del código muestra la posición habitual."
