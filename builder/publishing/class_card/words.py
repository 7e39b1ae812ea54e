"""The words that must stand on a class card, looked for in the finished file in their order."""

from collections.abc import Iterator

from builder.publishing.class_card.face import ClassFace, GroupFace, PersonFace
from builder.publishing.proof.read_back import find_missing_texts, fold_text


def find_missing_words(face: ClassFace, text: str) -> tuple[str, ...]:
    """Return what a finished card lacks of turns, starts, close looks and cautions."""
    once = dict(_list_once(face))
    return (*_find_missing_turns(face, text), *find_missing_texts(text, once))


def find_missing_marks(face: ClassFace, pages: tuple[str, ...]) -> tuple[str, ...]:
    """Return what a page lacks of what must stand on each: whose card it is, and the caution."""
    wanted = {"the private mark": face.private_mark, "the course's caution": face.view.caution}
    return tuple(
        f"{name} on page {number}"
        for number, text in enumerate(pages, start=1)
        for name in find_missing_texts(text, wanted)
    )


def list_cautions(face: ClassFace) -> Iterator[tuple[str, str]]:
    """Yield what the card says of each person's cautions, by what it is."""
    for person, _, sentences in face.cautions:
        for number, sentence in sentences:
            yield f"caution {number} of {person}", sentence


def _list_once(face: ClassFace) -> Iterator[tuple[str, str]]:
    for block in face.blocks:
        start = f"{block.start} {block.view.minutes}"
        yield f"the start of block {block.view.number}", start
    for letter, measure in face.measures:
        yield f'the measure "{measure}"', f"{letter} {measure}"
    for start, people in face.looks:
        yield f"the close looks at {start}", f"{start} {people}"
    for person, name, sentences in face.cautions:
        yield f"the name over the cautions of {person}", f"{person} {name} 1"
        for number, sentence in sentences:
            yield f"caution {number} of {person}", f"{number} {sentence}"


def _find_missing_turns(face: ClassFace, text: str) -> Iterator[str]:
    """Look for each lesson behind the one before, and for its people with their marks behind it.

    The same names stand in every block, so only their order tells that none is missing; what
    comes after the class, as spare blocks and cautions, doesn't count.
    """
    whole = fold_text(text)
    end = whole.rfind(fold_text(face.spare_title if face.spare else face.drop_title))
    letters, at = whole[: end if end >= 0 else None], 0
    for block in face.blocks:
        for group in block.groups:
            wanted = [(f'"{group.title}" in block {block.view.number}', _join_lesson(group))]
            wanted += [
                (
                    f'{each.id} in "{group.title}" of block {block.view.number}',
                    _join_person(each),
                )
                for each in group.people
            ]
            for name, words in wanted:
                found = letters.find(fold_text(words), at)
                if found < 0:
                    yield name
                else:
                    at = found + len(fold_text(words))


def _join_lesson(group: GroupFace) -> str:
    return f"{group.title} {group.position} {group.pace} {group.dose}"


def _join_person(person: PersonFace) -> str:
    own = (person.id, person.name, person.marks, person.caution_word, person.side, person.rest)
    return " ".join(own)
