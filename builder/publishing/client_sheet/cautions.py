"""Cautions of a sheet: what holds for this person, and every notice of the sheet's lessons."""

from collections.abc import Iterable, Iterator, Sequence

from markupsafe import Markup

from builder.course.notice import Action, Notice
from builder.language import Language
from builder.planning.home_plan import HomeLesson, HomePlan
from builder.planning.overview import PersonOverview
from builder.planning.permission import Adaptation, AdaptationKind
from builder.planning.trends import Trend
from builder.publishing.client_sheet.languages import SpokenCourse
from builder.publishing.client_sheet.view import CautionGroup, Said, list_numbers
from builder.publishing.views.inline import no_link, render_inline, strip_tags
from builder.publishing.views.wording import word_action


def list_own_cautions(
    spoken: SpokenCourse, plan: HomePlan, overview: PersonOverview
) -> tuple[Said, ...]:
    """Return what is different for this person, each once, with the numbers of its lessons."""
    said: dict[Said, list[int]] = {}
    for number, lesson in enumerate(plan.lessons, 1):
        for adaptation in lesson.adaptations:
            for words in _say(spoken, adaptation):
                said.setdefault(words, []).append(number)
    return (
        *_say_unanswered(spoken, plan, overview.uncleared),
        *_say_measures(spoken, overview.trends),
        *(_number(words, found, plan.lessons, spoken.language) for words, found in said.items()),
    )


def group_notices(spoken: SpokenCourse, plan: HomePlan) -> tuple[CautionGroup, ...]:
    """Return every notice of the lessons, and those that hold everywhere, strongest first.

    One that says what the course's caution says stands there and not twice.
    """
    course = spoken.original
    found: dict[str, list[int]] = {notice.id: [] for notice in course.notices if notice.everywhere}
    for number, lesson in enumerate(plan.lessons, 1):
        for notice in course.notices_for(course.by_id[lesson.lesson_id]):
            found.setdefault(notice.id, []).append(number)
    notices = {
        notice.id: notice
        for notice in course.notices
        if notice.id in found and not _is_caution(spoken, notice.id)
    }
    return tuple(
        CautionGroup(
            action.value,
            word_action(spoken.language, action),
            tuple(
                _number(_shorten(spoken, notice), found[notice.id], plan.lessons, spoken.language)
                for notice in notices.values()
                if notice.action is action
            ),
        )
        for action in Action
        if any(notice.action is action for notice in notices.values())
    )


def _is_caution(spoken: SpokenCourse, notice_id: str) -> bool:
    short = strip_tags(_render(spoken, spoken.find_notice(notice_id).short))
    return short == spoken.own.settings.caution


def _shorten(spoken: SpokenCourse, notice: Notice) -> Said:
    words = _render(spoken, spoken.find_notice(notice.id).short)
    return Said(words, spoken.find_notice_language(notice.id))


def _render(spoken: SpokenCourse, text: str) -> Markup:
    return render_inline(text, spoken.own.titles, no_link)


def _say(spoken: SpokenCourse, adaptation: Adaptation) -> Iterator[Said]:
    """Say what changes; lessons with a coach's hands are never on a sheet."""
    language, notice = spoken.language, adaptation.notice
    if adaptation.kind is AdaptationKind.ADAPT and notice:
        words = _render(spoken, spoken.find_notice(notice.id).adapt)
        yield Said(words, spoken.find_notice_language(notice.id))
        yield from _say_moved_on(spoken, adaptation)
    elif adaptation.kind is AdaptationKind.CLEARED:
        yes = language.say(
            "Your clinician said yes to this kind of exercise. If anything changes, ask again "
            "before you go on."
        )
        yield Said(yes, language.tag)
        if adaptation.ask_again:
            old = language.say("That was more than half a year ago, so please ask again now.")
            yield Said(old, language.tag)
    elif adaptation.kind is AdaptationKind.AIR:
        big = language.say(
            "The breaths are big. Make the count shorter as soon as you want more air."
        )
        yield Said(big, language.tag)


def _say_moved_on(spoken: SpokenCourse, adaptation: Adaptation) -> Iterator[Said]:
    """Say where a lesson is done after all, where another notice rules out what this one names."""
    if adaptation.instead and adaptation.is_moved_on:
        position = spoken.own.vocabulary.positions[adaptation.instead.position.id]
        words = spoken.language.say(
            "For you, all your cautions taken together: {position}.", position=position.title
        )
        yield Said(words, spoken.language.tag)


def _say_unanswered(
    spoken: SpokenCourse, plan: HomePlan, uncleared: Iterable[str]
) -> Iterator[Said]:
    """Say about what a clinician is still to be asked; what stops everything stands above."""
    known = spoken.own.vocabulary.conditions
    titles = [known[name].title for name in uncleared if name not in plan.asks_first]
    if titles:
        words = spoken.language.say_html(
            "Your coach has no clinician's answer yet about this: {conditions}. Lessons that it "
            "rules out are not here. Ask, and tell your coach.",
            conditions=spoken.set_all_apart(titles),
        )
        yield Said(words, spoken.language.tag)


def _say_measures(spoken: SpokenCourse, trends: Iterable[Trend]) -> Iterator[Said]:
    for trend in trends:
        if trend.asks_for_clinician:
            title = spoken.own.vocabulary.measures[trend.measure.id].title
            words = spoken.language.say_html(
                "Small on two days: {measure}. That says nothing about you by itself. Please ask "
                "a clinician about it.",
                measure=spoken.set_apart(title),
            )
            yield Said(words, spoken.language.tag)


def _number(
    said: Said, numbers: Sequence[int], lessons: Sequence[HomeLesson], language: Language
) -> Said:
    """Add the numbers of the lessons where it isn't all of them."""
    if not numbers or len(numbers) == len(lessons):
        return said
    words = Markup("{} ({})").format(said.words, list_numbers(numbers, language))
    return Said(words, said.language)
