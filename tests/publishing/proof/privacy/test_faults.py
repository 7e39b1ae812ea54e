"""Whatever kind of file names a person, it is found; what a course says anyway is not."""

import base64
import gzip
import tarfile
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from PIL import Image, PngImagePlugin

from builder.errors import BuilderError
from builder.publishing.proof.privacy.faults import find_private_faults
from builder.work.folder_files import FolderFiles
from tests.counting_shelf import CountingShelf

PEOPLE = """\
id,display name,conditions,goal
q-01,Ada Quillimore,pregnancy,Carry the shopping up three floors
q-02,Breath Wrześnicki,,Sleep
q-03,Bo,,
q-04,Anke Müller-Örte,,
q-05,李小龍,,
q-06,Breath Sleep,,
"""
WRITTEN = "a file written into it, the metadata"
CURE = (
    'take it out of what the course says; where nobody is meant, list it under "public_names" in '
    "studio.yml of the program folder."
)

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
        found = find_private_faults(project, FolderFiles(project / "site"))
        return [str(each) for each in found if each.rule.id != "V103"]

    return put


def make_pdf(
    text: str = "", title: str = "", inner: bytes = b"", field: str = "", xmp: str = ""
) -> bytes:
    with pikepdf.new() as pdf:
        page = pdf.add_blank_page()
        font = pikepdf.Dictionary(
            Type=pikepdf.Name.Font, Subtype=pikepdf.Name.Type1, BaseFont=pikepdf.Name.Helvetica
        )
        page.obj.Resources = pikepdf.Dictionary(Font=pikepdf.Dictionary(F1=font))
        page.obj.Contents = pdf.make_stream(f"BT /F1 9 Tf 20 20 Td ({text}) Tj ET".encode())
        if title:
            pdf.docinfo["/Title"] = title
        if field:  # a direct dictionary in a direct list
            choice = pikepdf.Dictionary(Opt=pikepdf.Array([pikepdf.String(field)]))
            pdf.Root.AcroForm = pikepdf.Dictionary(Fields=pikepdf.Array([choice]))
        if xmp:
            packet = pdf.make_stream(xmp.encode(), Type=pikepdf.Name.Metadata)
            pdf.Root.PieceInfo = pikepdf.Dictionary(Metadata=packet)
        if inner:
            pdf.attachments["notes.txt"] = inner
        pdf.save(target := BytesIO())
    return target.getvalue()


def make_page(kind: str) -> bytes:
    return f"<{kind}><title>Ada Quillimore</title></{kind}>".encode()


def make_tar(name: str, content: bytes) -> bytes:
    with tarfile.open(fileobj=(target := BytesIO()), mode="w:gz") as file:
        member = tarfile.TarInfo(name)
        member.size = len(content)
        file.addfile(member, BytesIO(content))
    return target.getvalue()


def write_out(kind: str, content: bytes) -> bytes:
    """Write a file into a page, as RFC 2397 says."""
    return f'<img src="data:{kind};base64,{base64.b64encode(content).decode()}">'.encode()


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
        ("a.txt", "\nhttps://a.example/?Ada%2520Quillimore"),
        ("a.html", "<p>\n<!-- after Ada Quillimore -->"),
        ("a.html", "<p>\n<p>Ada Quill<!-- 1 > 0 -->imore"),
        ("a.xml", "<a>\n<b><![CDATA[Ada Quillimore]]></b></a>"),
        ("a.json", '{\n"text": "Ada\\nQuillimore"}'),
        ("a.json", '{\n"text": "Ada Quill\\u003cb\\u003eimore"}'),
        ("a.html", "<p>\n<p>\u2066Ada\u2069 Quill\u200eimore"),
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
        ("a.xml.gz", gzip.compress(b"<a>Ada Quillimore</a>", mtime=0), "unpacked"),
        ("a.png", make_picture("Ada Quillimore"), "the metadata"),
        ("a.dat", gzip.compress(b"Ada Quillimore", mtime=0), "unpacked"),
        ("a.tgz", make_tar("a.svg", make_page("a.svg")), "unpacked, unpacked"),
        ("a.exe", b"MZ\0\0" + make_zip("a.txt", "Ada Quillimore"), "a.txt"),
        ("a.html", write_out("image/png", make_picture("Ada Quillimore")), WRITTEN),
        ("a.pdf", make_pdf(field="Ada Quillimore"), "what stands behind a page"),
        ("a.pdf", make_pdf(xmp="<a>Ada Quillimore</a>"), "the metadata"),
        ("a.pdf", make_pdf("Ada Quillimore") + make_pdf(), "an earlier state of the file"),
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
        ("Wrzesnickis Matte.", 'a part of the display name of "q-02"'),
        ("wrzesnicki2.jpg", 'a part of the display name of "q-02"'),
        ("Anke Mueller-Oerte", 'the display name of "q-04"'),
        ("Oerte sits.", 'a part of the display name of "q-04"'),
        ("今日李小龍來", 'a part of the display name of "q-05"'),
        ("01/10/2026,q-02", 'the id of "q-02"'),
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
        "Sleep well. Breath by breath. A bo tree.",  # words of the course, and what is too short
        "Add a quill. Step Q-01 of the plan.",
        "A breath, sleepless.",  # a name of two words of the course stands in no other's letters
        "Carry the shopping.",
        "I took my own medicine",
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
    assert any('a copy of the private file "program/people.csv"' in x for x in told)
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


def test_what_nobody_is_meant_by_may_be_listed_too(project: Path, find: Find) -> None:
    """A word of a name, an id and a goal that a course says anyway have one cure."""
    said = "<p>Oerte. Carry the shopping up three floors."
    assert len(find("lessons/q-02.html", said)) == 3
    listed = "public_names: [Örte, oerte, q-02, carry the shopping up three floors]\n"
    (project / "program/studio.yml").write_text(listed, encoding="utf-8")
    assert find("lessons/q-02.html", said) == []


def test_a_page_may_be_called_as_the_program_folder(find: Find) -> None:
    assert find("program/index.html", "<p>Our program.") == []


def test_records_without_a_program_folder_beside_the_course_are_found(tmp_path: Path) -> None:
    """As where somebody keeps it in content/, so that nobody's name can be looked for."""
    (tmp_path / "site/private").mkdir(parents=True)
    (tmp_path / "site/private/People.csv").write_text(PEOPLE, encoding="utf-8")
    (found,) = find_private_faults(tmp_path, FolderFiles(tmp_path / "site"))
    assert "this has the name of a file of records" in str(found)


def test_what_was_printed_for_coaches_is_found_even_without_a_name(
    project: Path, find: Find
) -> None:
    for folder in ("classes/a", "cards"):
        (project / "coach" / folder).mkdir(parents=True)
        (project / "coach" / folder / "a.txt").write_text(f"blocks and sets of {folder}")
    (told,) = find("b.txt", "blocks and sets of classes/a")
    assert 'a copy of the private file "coach/classes/a/a.txt"' in told
    assert find("b.txt", "blocks and sets of cards") == []


@pytest.mark.parametrize("content", [b"age-encryption.org/v1\n-> scrypt", b"7z\xbc\xaf\x27\x1c"])
def test_what_nobody_here_can_open_is_told(find: Find, content: bytes) -> None:
    (told,) = find("downloads/all.bin", content)
    assert "so that nobody can tell whom it names" in told


@pytest.mark.parametrize("code", ["utf-8", "utf-16-le", "utf-16-be"])
def test_a_name_deep_in_bytes_is_found(find: Find, code: str) -> None:
    content = b"\0\1\2" * 200_000 + "Ada Quillimore".encode(code) + b"\0\1\2" * 200_000
    assert len(find("old.doc", content)) == 1


def test_a_name_that_is_not_looked_for_is_told(project: Path) -> None:
    (told,) = find_private_faults(project, FolderFiles(project / "site"))
    assert str(told) == (
        'people:1:1: V103 name-unsought: the name of "q-03" is short, so it is not looked for; '
        "give a longer display name, or read the pages yourself."
    )


def test_people_that_cannot_be_read_stop_the_run(project: Path) -> None:
    (project / "program/people.csv").write_text("id,name\n")
    with pytest.raises(BuilderError, match="conditions"):
        find_private_faults(project, FolderFiles(project / "site"))
    (project / "program/people.csv").unlink()
    assert find_private_faults(project, FolderFiles(project / "site")) == ()


def test_files_in_which_nobody_was_found_are_not_looked_through_again(project: Path) -> None:
    shelf = CountingShelf()
    (project / "site/index.html").write_text("<p>Breathe with Tove Lindqvister.</p>")
    find_private_faults(project, FolderFiles(project / "site"), shelf=shelf)
    shelf.fresh.clear()
    find_private_faults(project, FolderFiles(project / "site"), shelf=shelf)
    assert shelf.fresh == []


def test_a_person_who_came_later_is_found_in_files_that_stayed(project: Path) -> None:
    shelf = CountingShelf()
    (project / "site/index.html").write_text("<p>Breathe with Tove Lindqvister.</p>")
    before = find_private_faults(project, FolderFiles(project / "site"), shelf=shelf)
    with (project / "program/people.csv").open("a", encoding="utf-8") as people:
        people.write("q-07,Tove Lindqvister,,\n")
    after = find_private_faults(project, FolderFiles(project / "site"), shelf=shelf)
    assert {each.place.path for each in after} - {each.place.path for each in before} == {
        "index.html"
    }


def test_a_file_that_names_somebody_is_told_again_and_again(project: Path) -> None:
    shelf = CountingShelf()
    (project / "site/index.html").write_text("<p>Ada Quillimore</p>")
    first = find_private_faults(project, FolderFiles(project / "site"), shelf=shelf)
    assert find_private_faults(project, FolderFiles(project / "site"), shelf=shelf) == first
    assert any(each.rule.id == "V101" for each in first)
