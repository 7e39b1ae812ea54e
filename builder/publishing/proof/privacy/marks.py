"""What gives a person away in a text, and the rule by which it is looked for (all of it ours).

- A display name of several words counts wherever its letters stand in a row, in either order,
  whatever lies between them. Where the course has each of its words, these must stand as words.
- A part of it of four letters and more counts as a word, also with an s behind it, unless the
  course has that word in small letters, for then it says nothing about anybody. Scripts and styles
  are left out here.
- An id counts in a file's name, and in a text beside a day or a word such as "person"; there not
  if the author guide has it in an example, as it has p-01.
- A goal or a sentence of a note counts from four words on, since shorter ones come up by chance.
- Whatever `public_names` of the studio's file lists isn't looked for.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from builder.publishing.proof.privacy.course_words import read_guide
from builder.publishing.proof.privacy.letters import (
    Folded,
    fold,
    fold_spellings,
    is_unspaced,
)
from builder.records.told_of_people import Told, ToldKind, ToldOfPeople
from builder.sums.reading_grade import split_sentences

_LONG_NAME = 8
"""Letters of a name that don't come up by chance where spaces are left out."""
_PART = 4
_SHORTEST_NAME = 3
"""Names of fewer letters stand in codes by chance."""
_PHRASE_WORDS, _PHRASE_LETTERS = 4, 15
_PERSONAL = frozenset({"person", "people", "client", "clients", "id"})
_SHORTEST_UNSPACED = _PAIR = 2
_DAY_SIZES = ((4, 2, 2), (2, 2, 4))
"""Digits of year, month and day, in either order."""


@dataclass(frozen=True, slots=True)
class Marks:
    """What belongs to one person, or to several in a note."""

    person_id: str
    names: tuple[tuple[str, ...], ...]
    """The words of the display name in each spelling and order; none where it may be public."""
    is_telling: bool
    """Whether a name has a word that the course doesn't have, so that its letters tell enough."""
    parts: frozenset[str]
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
        if self._has_name(text):
            yield "the display name"
        elif not is_code and self._has_part(text):
            yield "a part of the display name"
        if not self.is_example and _has_id(text, self.id_words):
            yield "the id"
        for kind, words in self.phrases:
            if text.distinct.issuperset(words) and "".join(words) in text.letters:
                yield f"the {kind}"

    def find_in_name(self, name: Folded) -> Iterator[str]:
        """Yield what of the person stands in the name of a file."""
        if self._has_name(name):
            yield "the display name"
        elif self._has_part(name):
            yield "a part of the display name"
        if name.has_row(self.id_words):
            yield "the id"

    def _has_name(self, text: Folded) -> bool:
        return any(self._has_order(text, order) for order in self.names)

    def _has_order(self, text: Folded, order: tuple[str, ...]) -> bool:
        whole = "".join(order)
        if self.is_telling and len(whole) >= _LONG_NAME:
            return whole in text.letters
        return text.has_row(order) or whole in text.distinct

    def _has_part(self, text: Folded) -> bool:
        return not text.distinct.isdisjoint(self.parts) or any(
            part in text.letters for part in self.parts if is_unspaced(part)
        )


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
    said = [each.text for each in texts if each.kind is ToldKind.NAME][:1]
    spelt = [each.words for text in said for each in fold_spellings(text)]
    names = [words for words in spelt if words and not _is_public(words, public)]
    shown = course_words.union(read_guide().words, *(each.words for each in public))
    parts = {part for name in names for part in _list_parts(name) if part not in shown}
    return Marks(
        person_id,
        tuple(dict.fromkeys(order for name in names for order in _list_orders(name))),
        bool(parts),
        frozenset((*parts, *(f"{part}s" for part in parts))),
        _choose_id_words(person_id, public, course_words),
        _has_id(read_guide(), fold(person_id).words),
        tuple(each for each in _list_phrases(texts) if not _is_public(each[1], public)),
        "" if parts or not names else _tell_unsought(names[0]),
    )


def _is_public(words: tuple[str, ...], public: list[Folded]) -> bool:
    return any(each.has_row(words) for each in public)


def _list_parts(name: tuple[str, ...]) -> Iterator[str]:
    """Yield the words of a name that count alone if nobody else has them."""
    for word in name:
        fewest = _PART if len(name) > 1 else _SHORTEST_NAME
        if is_unspaced(word):
            fewest = _SHORTEST_UNSPACED
        if len(word) >= fewest and not word.isdigit():
            yield word


def _list_orders(name: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """Yield a name as it is, with its first or last word at the other end, and without others."""
    if len(name) > 1:
        yield from (name, (*name[1:], name[0]), (name[-1], *name[:-1]))
        yield from ((name[0], name[-1]), (name[-1], name[0]))


def _tell_unsought(name: tuple[str, ...]) -> str:
    """Say why a name without any telling part isn't looked for; nothing where it is, as a whole."""
    letters = len("".join(name))
    if len(name) > 1 and letters >= _SHORTEST_NAME:
        return ""
    return "short" if letters < _SHORTEST_NAME else "a word of the course"


def _choose_id_words(
    person_id: str, public: list[Folded], course_words: frozenset[str]
) -> tuple[str, ...]:
    """Return the words of an id; none where it says nothing, or may be public."""
    words = fold(person_id).words
    letters = "".join(words)
    says_nothing = course_words.issuperset(words) or letters.isdigit() or len(letters) < _PAIR
    return () if says_nothing or _is_public(words, public) else words


def _list_phrases(texts: Iterable[Told]) -> Iterator[tuple[str, tuple[str, ...]]]:
    for each in texts:
        if each.kind is not ToldKind.NAME:
            for sentence in dict.fromkeys((each.text, *split_sentences(each.text))):
                words = fold(sentence).words
                if len(words) >= _PHRASE_WORDS and len("".join(words)) >= _PHRASE_LETTERS:
                    yield each.kind.value, words


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
        tuple(map(len, day)) in _DAY_SIZES and all(word.isdigit() for word in day) for day in days
    )
