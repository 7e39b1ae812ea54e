"""Whatever tries to be more than data is told, with its file, its line and its rule."""

from pathlib import Path

import pytest

from builder.findings import Finding, spell_out
from builder.reading.course_folder import read_course
from tests.running import run_tool
from tests.trust.hostile import UNTRUSTED, replace_in, write_hostile
from tests.trust.vectors import ALONE, HOST, LESSON, NOTICE, RUN, Vector


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> tuple[Finding, ...]:
    """Read a course that holds every vector."""
    return read_course(write_hostile(tmp_path_factory.mktemp("hostile"), ALONE)).findings


def names(vectors: tuple[Vector, ...]) -> list[str]:
    return [ascii(vector.name) for vector in vectors]


@pytest.mark.parametrize("vector", ALONE, ids=names(ALONE))
def test_each_vector_is_told_where_it_stands(vector: Vector, found: tuple[Finding, ...]) -> None:
    here = [each for each in found if each.place.path == spell_out(vector.file)]
    assert (vector.rule, vector.line) in [(each.rule.id, each.place.line) for each in here]
    assert all(each.rule.id in {"U101", "U102", "U103", "U104", "H108"} for each in here)


def test_the_command_tells_all_of_them_at_once_and_fails(tmp_path: Path) -> None:
    done = run_tool("check", write_hostile(tmp_path, ALONE))
    assert done.returncode == 1
    assert done.stderr == ""
    assert {line.split(":")[0] for line in done.stdout.split("\n")} >= {
        spell_out(vector.file) for vector in ALONE
    }


INSIDE = [
    (LESSON, "title: Long out-breath", f'title: "<img src=x onerror={RUN}>"', "U101", 2),
    (LESSON, "summary: Let the out-breath", '"summary": "[x](\\u006aavascript:y)" #', "U102", 5),
    (LESSON, "inhale: In for four", 'inhale: "{{ 7*7 }}"', "U101", 14),
    (LESSON, "[The last", "['<b>', The last", "U101", 13),
    (LESSON, "1. Breathe in for four.", f"1. Breathe <script>{RUN}</script>.", "U101", 22),
    (LESSON, "1. Breathe in for four.", "1.     [x](java&Tab;script:y)", "U102", 22),
    (LESSON, "1. Breathe in for four.", "1. Breathe {{ config }}.", "U101", 22),
    (LESSON, "Lie on", f"![x](https://{HOST}/a.png) Lie on", "U102", 19),
    (NOTICE, "title: Down", "title: <script>Down", "U101", 2),
    (NOTICE, '"Use a', '"<b>Use</b> a', "U101", 5),
    (NOTICE, "publisher: Common practice", "publisher: '{% x %}'", "U101", 6),
    (NOTICE, "Hold on", f"[x](javascript:{RUN}) Hold on", "U102", 9),
    (NOTICE, "Hold on", "<!-- Hold on", "U101", 9),
    ("content/course.yml", "title: A small", "title: <script>A small", "U101", 2),
    ("content/course.yml", "caution: This", "caution: <style>This", "U101", 8),
    ("content/course.yml", "title: Breath,", "title: '<b>',", "U101", 10),
    ("content/course.yml", "stand_in: a folded blanket", "stand_in: '{{ x }}'", "U101", 16),
    ("content/course.yml", "title: high", "title: <i>high", "U101", 23),
    ("content/course.yml", "https://small.example/", "javascript:x", "H113", 6),
    ("content/course.yml", "summary: Five", "colours: {ink: 'url(x)'}\nsummary: Five", "H113", 3),
    ("content/glossary.md", "# ", f"# <script>{RUN}</script> ", "U101", 4),
    ("content/index.md", "description: Five", "description: <b>Five", "U101", 3),
    ("content/index.md", "title: A small course", "title: '{{ x }}'", "U101", 2),
]  # fmt: skip


@pytest.mark.parametrize(("file", "old", "new", "rule", "line"), INSIDE)
def test_no_field_of_any_file_holds_more_than_words(
    tmp_path: Path, *, file: str, old: str, new: str, rule: str, line: int
) -> None:
    project = write_hostile(tmp_path, ())
    replace_in(project, file, old, new)
    told = [
        (each.rule.id, each.place.path, each.place.line) for each in read_course(project).findings
    ]
    assert (rule, file, line) in told


@pytest.mark.parametrize(
    "name",
    ["word.es.md", "notices/floor.es.md", "lessons/count/long-out.es.md", "course.es.yml"],
)
def test_translations_are_no_more_trusted_than_originals(tmp_path: Path, name: str) -> None:
    project = write_hostile(tmp_path, (), UNTRUSTED + "languages: {es: {}}\n")
    (project / "content/word.md").write_text("# Word\n", encoding="utf-8")
    text = "---\ntitle: <script>x</script>\n---\n# Palabra\n"
    text = "title: <script>x</script>\n" if name.endswith(".yml") else text
    (project / "content" / name).write_text(text, encoding="utf-8")
    line = 1 if name.endswith(".yml") else 2
    told = [str(each) for each in read_course(project).findings]
    assert any(each.startswith(f"content/{name}:{line}:8: U101") for each in told)


def test_the_small_course_is_in_order_when_it_isnt_trusted(tmp_path: Path) -> None:
    done = run_tool("check", "--strict", write_hostile(tmp_path, ()))
    assert (done.returncode, done.stderr) == (0, ""), done.stdout


@pytest.mark.parametrize(
    "name",
    ["imported/page.md", "deep/Imported/page.md", "lessons/imported/count/more-out.md"],
)
def test_an_imported_text_is_not_trusted_whatever_the_course_says(
    tmp_path: Path, name: str
) -> None:
    text = '# Word\n\nSoftly {: onclick="x" }\n'
    project = write_hostile(
        tmp_path, [Vector("x", f"content/{name}", text, "", 1)], "trust: trusted\n"
    )
    told = [str(each) for each in read_course(project).findings]
    assert any(each.startswith(f"content/{name}:3:8: U101") for each in told)


def test_a_sound_lesson_can_be_imported(tmp_path: Path) -> None:
    project = write_hostile(tmp_path, (), "")
    lessons = project / "content/lessons"
    (lessons / "imported/count").mkdir(parents=True)
    (lessons / "count/long-out.md").rename(lessons / "imported/count/long-out.md")
    done = run_tool("check", "--strict", project)
    assert (done.returncode, done.stderr) == (0, ""), done.stdout


TRUSTED_TOO = [
    "```\n<script>alert(1)</script>\n",
    '`` ` `` <img src=x onerror="x"> `` ` ``',
    '\\`<img src=x onerror="x">\\`',
    "[x](java&Tab;script:alert)",
    "[x](java\nscript:alert)",
    "[x](< javascript:alert>)",
    "![x](ht\ntps://canary.invalid/a.png)",
    "![x](/\\canary.invalid/a.png)",
]
"""What the eye on the source alone passed over until browsers were asked."""


@pytest.mark.parametrize("text", TRUSTED_TOO)
@pytest.mark.parametrize("trust", ["", "trust: trusted\n"])
def test_what_runs_is_told_in_a_trusted_course_too(tmp_path: Path, text: str, trust: str) -> None:
    project = write_hostile(
        tmp_path, [Vector("", "content/word.md", f"# Word\n\n{text}", "", 3)], trust
    )
    told = [(each.rule.id, each.place.line) for each in read_course(project).findings]
    assert {("H112", 3), ("H112", 4), ("L101", 3)} & set(told)


@pytest.mark.parametrize("trust", ["trust: trusted\n", UNTRUSTED])
@pytest.mark.parametrize(
    "name",
    ["word.md", "shown.txt", "mat.png", "lessons/count/x.md", "notices/x.md", "placement.yml"],
)
def test_a_link_to_a_file_elsewhere_is_told_and_never_read(
    tmp_path: Path, name: str, trust: str
) -> None:
    project = write_hostile(tmp_path / "project", (), trust)
    secret = project / "secret.txt"  # in the project, and not of the course
    secret.write_text("# canary-secret\n", encoding="utf-8")
    (project / "content" / name).symlink_to(secret)
    reading = read_course(project)
    assert any(
        each.place.path == f"content/{name}" and each.rule.id in ("H116", "U103")
        for each in reading.findings
    )
    assert "canary-secret" not in repr(reading)
