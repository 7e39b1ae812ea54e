"""What `tempoleaf new` asks in plain words when it runs in a terminal without the options."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from builder.course.course import Course
from builder.errors import InvalidValueError
from builder.starting.choice import find_strands
from builder.starting.wishes import COLOUR_WORDS, Wishes, read_accent, read_name, read_paper
from builder.sums.paper import PAPERS, find_usual_card

Ask = Callable[[str, str], str]
"""Question and what Enter alone means, to the answer."""
Say = Callable[[str], None]


def ask_wishes(wishes: Wishes, starter: Course, ask: Ask, say: Say) -> Wishes:
    """Ask for name, strands, colour and paper where no option gave them."""
    if not wishes.name:
        question = "What is your studio called?"
        wishes = replace(wishes, name=_ask_until_right(ask, say, question, ("", read_name)))
    if not wishes.strands:
        say("These are the strands of the starter course:")
        for number, strand in enumerate(starter.vocabulary.strands.values(), start=1):
            count = len(starter.lessons_of(strand.id))
            say(f"  {number}. {strand.title} ({count} lessons): {strand.summary}")
        question = "Which do you want? Give numbers or names with commas between"
        known = ("all", lambda answer: ",".join(find_strands(starter, _by_number(starter, answer))))
        answer = _ask_until_right(ask, say, question, known)
        wishes = replace(wishes, strands=tuple(answer.split(",")))
    if not wishes.accent:
        question = f"Which colour? {', '.join(COLOUR_WORDS)}, or your own as #rrggbb"
        accent = _ask_until_right(ask, say, question, (next(iter(COLOUR_WORDS)), read_accent))
        wishes = replace(wishes, accent=accent)
    if not wishes.paper:
        question = f"Which paper do you print cards on? {', '.join(PAPERS)}"
        usual = (find_usual_card(wishes.language) or starter.settings.paper, read_paper)
        wishes = replace(wishes, paper=_ask_until_right(ask, say, question, usual))
    return wishes


def _ask_until_right(
    ask: Ask, say: Say, question: str, answers: tuple[str, Callable[[str], str]]
) -> str:
    """Ask until the answer can be read, each time with what was wrong."""
    usual, read = answers
    while True:
        try:
            return read(ask(question, usual))
        except InvalidValueError as error:
            say(f"  {error.fact}; {error.cure}.")


def _by_number(starter: Course, answer: str) -> Sequence[str]:
    """Turn the numbers of strands into their ids; leave names as they are."""
    strands = list(starter.vocabulary.strands)
    names = [name.strip() for name in answer.split(",")]
    return [
        strands[int(name) - 1] if name.isdecimal() and 0 < int(name) <= len(strands) else name
        for name in names
    ]
