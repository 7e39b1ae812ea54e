"""What strangers send under trial: texts and pictures of a course, and proofs of a site."""

import json
import shutil
from functools import partial

from builder.course.trust import Trust
from builder.publishing.proof.safety.again import prove_again
from builder.publishing.proof.safety.evidence import (
    FORM,
    Artefact,
    EditionProof,
    Kind,
    LessonProof,
    NoticeClaim,
    Pages,
    Proof,
    TraitClaim,
)
from builder.publishing.proof.safety.file import PROOF_FILE, write_proof
from builder.reading.opened_files import OpenedFiles
from builder.reading.safe_svg import make_safe_svg
from builder.reading.untrusted_files import judge_file, take_untrusted
from tests.fuzz import finished_seeds
from tests.fuzz.course_targets import HEADER_WORDS, list_lessons
from tests.fuzz.desk import lay, open_desk, read_files
from tests.fuzz.kinds import Answer, Target, count_lines

_SVG = (
    b"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><title>A mat</title>
<defs><linearGradient id="a"><stop offset="0" stop-color="#fff"/></linearGradient></defs>
<g transform="rotate(4)"><path d="M 0 0 L 1 1 z" fill="url(#a)" stroke="red"/></g>
<text x="1" y="2">In &amp; <tspan>out</tspan></text></svg>
""",
    b'<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "b">]><s:svg xmlns:s="http://www.w3.org/2000/svg"/>',
)
_SVG_WORDS = (
    *(
        "<script>",
        "<use href='#a'/>",
        "<image/>",
        "<style>",
        "<foreignObject>",
        "<!ENTITY a '&b;'>",
    ),
    *("onload", "href", "xlink:href", "style", "url(#a)", "url(x)", "data:,x", "xmlns:a", "filter"),
    *("<![CDATA[", "]]>", "&#x0;", "&#9999999;", "&a;", "<?x y?>", '"/>', "</svg>", 'encoding="x"'),
)
_PROOF_WORDS = (
    *('"editions"', '"lessons"', '"artefacts"', '"pages"', '"first"', '"kind"', '"pack"', '"card"'),
    *('"chapter"', '"../x"', "null", "[]", "{}", '"seen"', '"place"', '"files"', "1e999", "NaN"),
)


def read_strangers_text(within: str, data: bytes) -> Answer:
    """Look at a text of people whom the studio doesn't know."""
    folder = open_desk() / "content"
    files = OpenedFiles(open_desk(), folder, [], Trust.UNTRUSTED)
    _, text = files.read_extra(lay(f"content/{within}", data))
    return Answer(text, tuple(files.findings), count_lines(data))


def read_strangers_picture(name: str, data: bytes) -> Answer:
    """Judge a picture of such people; a drawing that was written anew is sound as it is."""
    path = lay(f"content/{name}", data)
    findings = tuple(judge_file(open_desk(), path))
    taken = take_untrusted(open_desk(), path)
    if not name.endswith(".svg"):
        return Answer(taken, findings)
    made = make_safe_svg(data)
    anew = made.content if not made.faults else b""

    def again() -> object:
        second = make_safe_svg(anew)
        return (second.content, second.faults) if anew else (b"", ())

    return Answer(taken, findings, count_lines(data), again, (anew, ()))


def read_proof_bytes(data: bytes) -> Answer:
    """Prove a site again of which the proof is under trial."""
    folder = open_desk() / "proved"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    (folder / "index.html").write_bytes(finished_seeds.PAGE)
    (folder / "a.pdf").write_bytes(finished_seeds.make_pdf())
    (folder / "course.epub").write_bytes(finished_seeds.make_book())
    (folder / PROOF_FILE).write_bytes(data)
    proved = prove_again(folder)
    return Answer(proved, proved.findings)


def _list_proofs() -> tuple[bytes, ...]:
    """Return a proof of a site of one lesson, on one line and on many."""
    artefacts = (
        Artefact(Kind.PAGE, "index.html"),
        Artefact(Kind.CARD, "a.pdf", "a6"),
        Artefact(Kind.PACK, "a.pdf", "a6", pages=Pages(1, 1)),
        Artefact(Kind.CHAPTER, "course.epub", chapter="EPUB/a.xhtml"),
    )
    lesson = LessonProof("a", "Breath", "AB12", ("floor",), ("n",), (), ("a.md",), artefacts)
    notice = NoticeClaim("n", "Floor", "Breathe in", ("floor",), False, "n.md")
    traits = {"floor": TraitClaim("on the floor", True)}
    edition = EditionProof("", "en-GB", "A", "Breathe", "c.yml", traits, (notice,), (lesson,))
    proof = write_proof(Proof(FORM, "0.1.0", (edition,), {"a.md": "0" * 64}, {"a.pdf": "0" * 64}))
    return proof, json.dumps(json.loads(proof), indent=1).encode()


STRANGER_TARGETS = (
    Target(
        "strangers-lesson",
        partial(read_strangers_text, "lessons/breath/of-strangers.md"),
        list_lessons,
        (*HEADER_WORDS, "{{ x }}", "--8<-- a", "::: x", "<b>", "javascript:x", "```mermaid"),
    ),
    Target(
        "strangers-page",
        partial(read_strangers_text, "of-strangers.md"),
        lambda: read_files("content/*.md"),
        ("{% x %}", "/// x", "??? note", "=== a", "{: onclick=x }", "[a](//b)", "<!-- a -->"),
    ),
    Target("svg", partial(read_strangers_picture, "a.svg"), lambda: _SVG, _SVG_WORDS),
    *(
        Target(f"strangers-{kind}", partial(read_strangers_picture, f"a.{kind}"), seeds)
        for kind, seeds in (
            ("png", lambda: finished_seeds.list_pictures()[:1]),
            ("jpg", lambda: finished_seeds.list_pictures()[1:2]),
            ("webp", lambda: finished_seeds.list_pictures()[3:4]),
        )
    ),
    Target("proof", read_proof_bytes, _list_proofs, _PROOF_WORDS),
)
