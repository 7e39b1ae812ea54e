"""What gives a person away in a text, and the rule by which it is looked for (all of it ours).

- A display name of several words counts wherever its letters stand in a row, in either order,
  whatever lies between them.
- A part of it of four letters and more counts as a word, unless the course has that word in small
  letters, for then it says nothing about anybody. Scripts and styles are left out here.
- An id counts in a file's name, and in a text beside a day or a word such as "person"; there not
  if the author guide has it in an example, as it has p-01.
- A goal or a sentence of a note counts from four words on, since shorter ones come up by chance.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from builder.publishing.proof.privacy.letters import Folded, fold
from builder.records.told_of_people import Told, ToldKind, ToldOfPeople
from builder.rules.page import PAGES
from builder.sums.reading_grade import split_sentences

_LONG_NAME = 8
"""Letters of a name that don't come up by chance where spaces are left out."""
_PART = 4
_SHORTEST_NAME = 3
"""Names of fewer letters stand in codes by chance."""
_PHRASE_WORDS, _PHRASE_LETTERS = 4, 15
_PERSONAL = frozenset({"person", "people", "client", "clients", "id"})
_DAY_SIZES = (4, 2, 2)


@dataclass(frozen=True, slots=True)
class Marks:
    """What belongs to one person, or to several in a note."""

    person_id: str
    name: tuple[str, ...]
    """The words of the display name; empty where it may be public."""
    parts: tuple[str, ...]
    """Words of it that count alone."""
    id_words: tuple[str, ...]
    """Empty where the id says nothing."""
    is_example: bool
    """Whether the author guide, which is part of every site, has such an id in its examples."""
    phrases: tuple[tuple[str, tuple[str, ...]], ...]
    """What it is, such as goal, and its words."""
    unsought: str = ""
    """Why the name can't be looked for; empty where it can."""

    def find(self, text: Folded, *, is_code: bool = False) -> Iterator[str]:
        """Yield what of the person stands in a text, by what it is and never by what it says."""
        if self.name and _has_name(text, self.name):
            yield "the display name"
        elif not is_code and not text.distinct.isdisjoint(self.parts):
            yield "a part of the display name"
        if not self.is_example and _has_id(text, self.id_words):
            yield "the id"
        for kind, words in self.phrases:
            if text.distinct.issuperset(words) and "".join(words) in text.letters:
                yield f"the {kind}"

    def find_in_name(self, name: Folded) -> Iterator[str]:
        """Yield what of the person stands in the name of a file."""
        if self.name and _has_name(name, self.name):
            yield "the display name"
        elif not name.distinct.isdisjoint(self.parts):
            yield "a part of the display name"
        if name.has_row(self.id_words):
            yield "the id"


def list_marks(told: ToldOfPeople, course_words: Collection[str]) -> tuple[Marks, ...]:
    """Return what is looked for: person by person, then the notes on nobody alone."""
    public = [fold(name) for name in told.public_names]
    words = frozenset(course_words)
    of_person: dict[str, list[Told]] = {}
    for each in told.texts:
        of_person.setdefault(each.person_id, []).append(each)
    ids = dict.fromkeys((*told.person_ids, *(each.person_id for each in told.texts)))
    return tuple(_make(person_id, of_person.get(person_id, []), public, words) for person_id in ids)


def _make(
    person_id: str, texts: list[Told], public: list[Folded], course_words: frozenset[str]
) -> Marks:
    names = [fold(each.text).words for each in texts if each.kind is ToldKind.NAME]
    name = names[0] if names else ()
    if any(open_name.has_row(name) for open_name in public):
        name = ()
    shown = {word for open_name in public for word in open_name.words}
    parts = tuple(
        word
        for word in dict.fromkeys(name)
        if len(word) >= (_PART if len(name) > 1 else _SHORTEST_NAME)
        and not word.isdigit()
        and word not in course_words
        and word not in shown
    )
    unsought = ""
    if name and not parts and (len(name) < 2 or len("".join(name)) < _SHORTEST_NAME):
        unsought = "short" if len("".join(name)) < _SHORTEST_NAME else "a word of the course"
    id_words = fold(person_id).words
    says_nothing = course_words.issuperset(id_words) or "".join(id_words).isdigit()
    return Marks(
        person_id,
        name if len(name) > 1 else (),
        parts,
        () if says_nothing or len("".join(id_words)) < 2 else id_words,
        _has_id(_read_guide(), id_words),
        tuple(_list_phrases(texts)),
        unsought,
    )


def _list_phrases(texts: Iterable[Told]) -> Iterator[tuple[str, tuple[str, ...]]]:
    for each in texts:
        if each.kind is not ToldKind.NAME:
            for sentence in dict.fromkeys((each.text, *split_sentences(each.text))):
                words = fold(sentence).words
                if len(words) >= _PHRASE_WORDS and len("".join(words)) >= _PHRASE_LETTERS:
                    yield each.kind.value, words


def _has_name(text: Folded, name: tuple[str, ...]) -> bool:
    orders = dict.fromkeys((name, (*name[1:], name[0]), (name[-1], *name[:-1])))
    if len("".join(name)) >= _LONG_NAME:
        return any("".join(order) in text.letters for order in orders)
    return any(text.has_row(order) for order in orders)


@cache
def _read_guide() -> Folded:
    """Read the pages of all rules, whose examples show files of people who are made up."""
    pages = sorted(PAGES.glob("*.md"))
    return fold("\n".join(page.read_text(encoding="utf-8") for page in pages))


def _has_id(text: Folded, id_words: tuple[str, ...]) -> bool:
    return any(_is_personal(text, at, id_words) for at in text.list_starts(id_words))


def _is_personal(text: Folded, at: int, id_words: tuple[str, ...]) -> bool:
    """Tell whether an id stands beside a word that says whose it is, or beside a day."""
    end = at + len(id_words)
    beside = (*text.words[max(at - 1, 0) : at], *text.words[end : end + 1])
    if not _PERSONAL.isdisjoint(beside):
        return True
    days = (text.words[max(at - 3, 0) : at], text.words[end : end + 3])
    return any(
        tuple(map(len, day)) == _DAY_SIZES and all(word.isdigit() for word in day) for day in days
    )
