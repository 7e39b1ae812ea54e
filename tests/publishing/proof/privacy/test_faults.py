"""Whatever kind of file names a person, it is found; what a course says anyway is not."""

import gzip
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from PIL import Image, PngImagePlugin

from builder.errors import BuilderError
from builder.publishing.proof.privacy.faults import find_private_faults

PEOPLE = """\
id,display name,conditions,goal
q-01,Ada Quillimore,pregnancy,Carry the shopping up three floors
q-02,Breath Wrześnicki,,Sleep
q-03,Bo,,
"""
CURE = "take it out of what the course says, and build again."

Find = Callable[[str, bytes | str], list[str]]


@pytest.fixture
def project(tmp_path: Path) -> Path:
    (tmp_path / "program/classes").mkdir(parents=True)
    (tmp_path / "program/people.csv").write_text(PEOPLE, encoding="utf-8")
    (tmp_path / "content").mkdir()
    (tmp_path / "content/index.md").write_text("# Breath\n\nA breath. Ada Quillimore\n")
    (tmp_path / "site").mkdir()
    return tmp_path


@pytest.fixture
def find(project: Path) -> Find:
    """Put a file into the site and return what is found besides the note on a short name."""

    def put(path: str, content: bytes | str) -> list[str]:
        target = project / "site" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content.encode() if isinstance(content, str) else content)
        found = find_private_faults(project, project / "site")
        return [str(each) for each in found if each.rule.id != "V103"]

    return put


def make_pdf(text: str = "", title: str = "", inner: bytes = b"") -> bytes:
    with pikepdf.new() as pdf:
        page = pdf.add_blank_page()
        font = pikepdf.Dictionary(
            Type=pikepdf.Name.Font, Subtype=pikepdf.Name.Type1, BaseFont=pikepdf.Name.Helvetica
        )
        page.obj.Resources = pikepdf.Dictionary(Font=pikepdf.Dictionary(F1=font))
        page.obj.Contents = pdf.make_stream(f"BT /F1 9 Tf 20 20 Td ({text}) Tj ET".encode())
        if title:
            pdf.docinfo["/Title"] = title
        if inner:
            pdf.attachments["notes.txt"] = inner
        pdf.save(target := BytesIO())
    return target.getvalue()


def make_zip(name: str, content: str) -> bytes:
    with zipfile.ZipFile(target := BytesIO(), "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr(name, content)
    return target.getvalue()


def make_picture(words: str) -> bytes:
    info = PngImagePlugin.PngInfo()
    info.add_text("Comment", words, zip=True)
    Image.new("L", (8, 8)).save(target := BytesIO(), "PNG", pnginfo=info)
    return target.getvalue()


@pytest.mark.parametrize(
    ("path", "content"),
    [
        ("a.html", "<p>\n<p>Well done, <b>Ada</b>&nbsp;Quillimore"),
        ("a.html", "<p>\n<p>Ada Quilli<wbr>more"),
        ("a.html", '<p>\n<img alt="ADA QUILLIMORE">'),
        ("a.svg", "<svg>\n<title>Quillimore, Ada</title></svg>"),
        ("a.css", "p {}\n/* ada-quillimore */"),
        ("assets/a.js", "1\nlet a = 'Ada Quillimore'"),
        ("a.ics", "BEGIN\nSUMMARY:Ada Quillimore"),
        ("a.json", '{\n"text": "<p>Ada Quillim\\u006fre"}'),
        ("a.txt", "\nhttps://a.example/Ada%20Quillimore".encode("utf-16")),
    ],
)
def test_a_name_is_found_with_its_line(find: Find, path: str, content: str) -> None:
    assert find(path, content) == [
        f'{path}:2:1: V101 private-text: the display name of "q-01" stands here; {CURE}'
    ]


@pytest.mark.parametrize(
    ("path", "content", "spot"),
    [
        ("a.pdf", make_pdf("Ada Quillimore"), "page 1"),
        ("a.pdf", make_pdf(title="Ada Quillimore"), "the metadata"),
        ("a.pdf", make_pdf(inner=b"for Ada Quillimore"), "an attachment"),
        ("a.pdf", make_pdf(inner=make_pdf("Ada Quillimore")), "an attachment, page 1"),
        ("a.epub", make_zip("EPUB/a.xhtml", "<p>Ada Quillimore</p>"), "EPUB/a.xhtml"),
        ("a.zip", make_zip("a.pdf", "") + b"", None),
        ("a.xml.gz", gzip.compress(b"<a>Ada Quillimore</a>"), "unpacked"),
        ("a.png", make_picture("Ada Quillimore"), "the metadata"),
    ],
)
def test_a_name_is_found_inside(find: Find, path: str, content: bytes, spot: str | None) -> None:
    wanted = f'{path}:1:1: V101 private-text: the display name of "q-01" stands in {spot}; {CURE}'
    if spot is None:
        (told,) = find(path, content)
        assert "can't be opened" in told
    else:
        assert wanted in find(path, content)


def test_a_file_s_name_is_found_and_not_printed(find: Find) -> None:
    assert find("cards/Ada_Quillimore.pdf", make_pdf("A card")) == [
        "cards/(named after q-01).pdf:1:1: V101 private-text: the file's path has the display "
        f'name of "q-01"; {CURE}'
    ]
    assert len(find("cards/q-01-plan.txt", "a plan")) == 2


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("Wrzesnicki sits on a chair.", 'a part of the display name of "q-02"'),
        ("Carry the shopping, up three floors!", 'the goal of "q-01"'),
        ('{"person": "q-01"}', 'the id of "q-01"'),
        ("2026-09-14,q-02,wide-ribs,ready", 'the id of "q-02"'),
    ],
)
def test_what_belongs_to_people_is_found(find: Find, text: str, what: str) -> None:
    assert find("a.txt", text) == [f"a.txt:1:1: V101 private-text: {what} stands here; {CURE}"]


@pytest.mark.parametrize(
    "text",
    [
        "Breath by breath. Sleep well. A bo tree.",  # words of the course, and what is too short
        "Add a quill. Step Q-01 of the plan.",
        "Carry the shopping.",
    ],
)
def test_what_a_course_says_anyway_is_left_alone(find: Find, text: str) -> None:
    assert find("a.txt", text) == []


def test_an_id_of_the_author_guide_s_examples_is_left_to_the_guide(
    project: Path, find: Find
) -> None:
    (project / "program/people.csv").write_text(PEOPLE.replace("q-01", "p-01"), encoding="utf-8")
    assert find("a.txt", "2026-10-20,p-01,wide-ribs,ready") == []
    assert len(find("p-01-plan.txt", "a plan")) == 1


def test_a_script_may_have_a_part_of_a_name(find: Find) -> None:
    assert find("assets/theme.js", "function quillimore(){}") == []


def test_a_copy_of_a_private_file_is_found_whatever_it_is_called(find: Find) -> None:
    told = find("downloads/list.bin", PEOPLE)
    assert any('a copy of a file of the program folder, "program/people.csv"' in x for x in told)
    told = find("program/classes/tuesday.yml", "minutes: 45 and more of it")
    assert any("the file's path has the name of a program folder" in each for each in told)


def test_a_file_with_a_password_is_told(find: Find) -> None:
    with pikepdf.open(BytesIO(make_pdf())) as pdf:
        pdf.save(target := BytesIO(), encryption=pikepdf.Encryption(user="x", owner="x"))
    (told,) = find("a.pdf", target.getvalue())
    assert told.startswith("a.pdf:1:1: V101 private-text: the file can't be opened (")


def test_a_name_that_is_meant_to_be_public_may_stand(project: Path, find: Find) -> None:
    (project / "program/studio.yml").write_text("public_names: [Ada Quillimore]\n")
    assert find("a.html", "<p>Taught by Ada Quillimore. Ask Quillimore.") == []


def test_a_name_that_is_not_looked_for_is_told(project: Path) -> None:
    (told,) = find_private_faults(project, project / "site")
    assert str(told) == (
        'people:1:1: V103 name-unsought: the name of "q-03" is short, so it is not looked for; '
        "give a longer display name, or read the pages yourself."
    )


def test_people_that_cannot_be_read_stop_the_run(project: Path) -> None:
    (project / "program/people.csv").write_text("id,name\n")
    with pytest.raises(BuilderError, match="conditions"):
        find_private_faults(project, project / "site")
    (project / "program/people.csv").unlink()
    assert find_private_faults(project, project / "site") == ()
