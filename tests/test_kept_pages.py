"""Pages kept from one build to the next: a quick build gives what a clean one gives, to the byte.

What counts as work is read from the line that each build says.
"""

import os
import random
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from builder.mkdocs_pages import CACHE
from builder.publishing.site import keys
from builder.publishing.site.finished_pages import SPARE
from tests.conftest import copy_small_course
from tests.damage import DAMAGES
from tests.made_once import build_without_cards
from tests.running import run_host, run_tool
from tests.spanish import change, speak_spanish
from tests.trying import count_tries

SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""
COMMAND = "from builder.cli.app import main; main()"
WORK = re.compile(r"(\d+) pages made anew, (\d+) kept")
LESSONS = Path("content/lessons")
HOLD = LESSONS / "count/short-hold.md"
COURSE = Path("content/course.yml")
Edit = Callable[[Path], None]
Work = tuple[int, int]


def read_site(site: Path) -> dict[str, bytes]:
    files = (path for path in sorted(site.rglob("*")) if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in files}


def build(project: Path, site: Path) -> Work:
    """Build a site; return how many pages were made anew, and how many were kept."""
    done = run_host("build", "-d", str(site), folder=project)
    assert done.returncode == 0, done.stderr
    found = WORK.search(done.stderr)
    assert found, done.stderr
    return int(found[1]), int(found[2])


def build_clean(project: Path, folder: Path) -> dict[str, bytes]:
    """Return the site of a copy of a project that keeps nothing."""
    for path in (folder, folder.with_suffix(".site")):
        shutil.rmtree(path, ignore_errors=True)
    shutil.copytree(project, folder, ignore=shutil.ignore_patterns(".cache", "site"))
    assert build(folder, folder.with_suffix(".site"))[1] == 0
    return read_site(folder.with_suffix(".site"))


def find_other(site: Path, clean: Mapping[str, bytes]) -> list[str]:
    """Return which files of a site aren't as they would be in a clean one, or aren't in both."""
    found = read_site(site)
    return [path for path in sorted({*found, *clean}) if found.get(path) != clean.get(path)]


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """Give a small course that was built once."""
    root = copy_small_course(tmp_path / "project")
    (root / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    build(root, root / "site")
    return root


def edit(path: str | Path, before: str, after: str) -> Edit:
    return lambda root: change(root / path, before, after)


def write(path: str | Path, text: str) -> Edit:
    def lay(root: Path) -> None:
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_text(text, encoding="utf-8")

    return lay


def copy_lesson(root: Path) -> None:
    text = (root / HOLD).read_text(encoding="utf-8")
    for before, after in (("Short hold", "Shorter hold"), ("3-3-3-3", "2-2-2-2")):
        text = text.replace(before, after)
    text = text.replace("for three", "for two").replace("easier: [plain-count]\n", "")
    (root / LESSONS / "count/shorter-hold.md").write_text(text, encoding="utf-8")


def remove_lesson(root: Path) -> None:
    (root / LESSONS / "count/long-out.md").unlink()
    change(root / LESSONS / "count/plain-count.md", "[short-hold, long-out]", "[short-hold]")


CAUTION = "Your own clinician comes first."
EDITS: Mapping[str, Edit] = {
    "a word": edit(LESSONS / "count/plain-count.md", "## Steps\n1. ", "## Steps\n1. Now, "),
    "a title": edit(LESSONS / "breath/hand-on-belly.md", "title: ", "title: Softly, "),
    "a new lesson": copy_lesson,
    "a lesson less": remove_lesson,
    "a strand's name": edit(COURSE, "title: Count,", "title: Counting,"),
    "a strand's summary": edit(COURSE, "Breathe to a count.", "Count as you breathe."),
    "a caution": edit(COURSE, CAUTION, f"{CAUTION} Stop when in doubt."),
    "a word explained": edit("content/glossary.md", "The numbers", "The even numbers"),
    "a new word": edit("content/glossary.md", "### Supine", "### Soft\nNot hard.\n\n### Supine"),
    "a notice": edit("content/notices/floor.md", "Hold on to a chair", "Hold on to a table"),
    "a notice's short form": edit("content/notices/floor.md", "Use a chair", "Use a table"),
    "a page of the studio's": write("content/prices.md", "# Prices\n\nSee [home](index.md).\n"),
    "a picture": write("content/pictures/leaf.svg", '<svg xmlns="http://www.w3.org/2000/svg"/>'),
    "the theme's features": edit(
        "mkdocs.yml", "{name: material}", "{name: material, features: []}"
    ),
    "the site's name": edit("mkdocs.yml", "A small course", "A quiet course"),
    "the site's addresses": edit("mkdocs.yml", "docs_dir", "use_directory_urls: false\ndocs_dir"),
    "no policy": edit("mkdocs.yml", "cards: false", "cards: false, policy: false"),
    "an extension": edit("mkdocs.yml", "docs_dir", "markdown_extensions: [admonition]\ndocs_dir"),
}


def test_any_row_of_edits_gives_what_a_clean_build_gives(project: Path, tmp_path: Path) -> None:
    names = sorted(EDITS)
    random.Random(7).shuffle(names)  # noqa: S311  # an order, no secret
    step = count_tries(4, 1)
    for start in range(0, len(names), step):
        for name in names[start : start + step]:
            EDITS[name](project)
        build(project, project / "site")
        clean = build_clean(project, tmp_path / "clean")
        assert find_other(project / "site", clean) == [], names[start : start + step]
        assert build(project, project / "site")[0] == 0
        assert find_other(project / "site", clean) == []


def test_a_word_makes_its_own_page_anew(project: Path, tmp_path: Path) -> None:
    EDITS["a word"](project)
    made, kept = build(project, project / "site")
    assert made == 1
    assert kept > 100
    assert find_other(project / "site", build_clean(project, tmp_path / "clean")) == []


def test_a_title_makes_its_strand_and_neighbours_anew(project: Path) -> None:
    EDITS["a title"](project)
    made, kept = build(project, project / "site")
    assert 3 < made < kept


@pytest.mark.parametrize("name", ["a new lesson", "a lesson less", "a page of the studio's"])
def test_what_comes_and_goes_alone_is_seen(project: Path, tmp_path: Path, name: str) -> None:
    """The theme leaves blanks for entries of a closed section that it doesn't show."""
    EDITS[name](project)
    build(project, project / "site")
    assert find_other(project / "site", build_clean(project, tmp_path / "clean")) == []


def test_a_caution_makes_every_page_anew(project: Path) -> None:
    EDITS["a caution"](project)
    assert build(project, project / "site")[1] == 0


def test_a_changed_template_of_the_tool_makes_every_page_anew(
    project: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    templates = shutil.copytree(keys.find_templates(), tmp_path / "templates")
    monkeypatch.setattr(keys, "find_templates", lambda: templates)
    assert build(project, project / "site")[0] == 0
    change(templates / "theme" / "partials" / "logo.html", "1.8", "1.9")
    assert build(project, project / "site")[1] == 0


@pytest.mark.parametrize("kind", DAMAGES)
def test_damage_to_all_that_is_kept_does_no_harm(shelf: Path, tmp_path: Path, kind: str) -> None:
    """Pages, checks and the spare site; the build after it finds all of it mended."""
    project = shutil.copytree(build_without_cards(shelf), tmp_path / "damaged")
    whole = read_site(project / "site")
    pieces = sorted(path for path in (project / ".cache").rglob("*") if path.is_file())
    assert {path.relative_to(project).parts[1] for path in pieces} == {"check", "pages", "site"}
    for path in pieces:
        DAMAGES[kind](path)
    assert run_tool("build", "--quiet", folder=project).returncode == 0
    assert find_other(project / "site", whole) == []
    assert build(project, project / "site")[0] == 0


def test_some_pieces_that_are_damaged_or_gone_do_no_harm(project: Path) -> None:
    whole = read_site(project / "site")
    pieces = sorted(path for path in (project / CACHE).rglob("*") if path.is_file())
    for path in pieces[::2]:
        path.write_bytes(path.read_bytes()[:-1] + b"?")
    for path in pieces[1::4]:
        path.unlink()
    build(project, project / "site")
    assert find_other(project / "site", whole) == []


def test_a_page_that_the_host_complains_of_is_never_kept(project: Path) -> None:
    change(project / "content/index.md", "\n---\n", "\n---\n[Nowhere](nowhere.md)\n\n")
    said = [run_host("build", folder=project) for _ in range(2)]
    assert [done.stderr.count("'nowhere.md', but the target") for done in said] == [1, 1]


def test_a_link_is_looked_up_again_when_its_page_comes(project: Path, tmp_path: Path) -> None:
    """The same words lead elsewhere when there is another page at their end."""
    write("content/pictures/leaf.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>")(project)
    write("content/prices.md", "# Prices\n\n[Leaf](pictures/leaf.svg)\n")(project)
    build(project, project / "site")
    (project / "content/pictures/leaf.svg").unlink()
    done = run_host("build", folder=project)
    assert "pictures/leaf.svg" in done.stderr
    assert done.returncode != 0


def test_plugins_of_others_are_never_guessed_at(project: Path) -> None:
    change(project / "mkdocs.yml", "[search,", "[search, material/tags,")
    assert build(project, project / "site")[1] == 0


@pytest.mark.parametrize("line", ["hooks: [hook.py]", "markdown_extensions: [pymdownx.snippets]"])
def test_what_reads_other_files_is_never_guessed_at(project: Path, line: str) -> None:
    (project / "hook.py").write_text("", encoding="utf-8")
    change(project / "mkdocs.yml", "docs_dir", f"{line}\ndocs_dir")
    assert build(project, project / "site")[1] == 0


def test_the_sites_of_all_languages_are_kept(tmp_path: Path) -> None:
    root = speak_spanish(copy_small_course(tmp_path / "project"))
    (root / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    build(root, root / "site")
    assert build(root, root / "site")[0] == 0
    change(root / "content/lessons/breath/hand-on-belly.es.md", "title: ", "title: Otra ")
    build(root, root / "site")
    assert find_other(root / "site", build_clean(root, tmp_path / "clean")) == []


@pytest.mark.parametrize("share", [0.02, 0.2, 0.5, 0.7, 0.9])
def test_a_killed_build_leaves_the_old_site_and_a_sound_cache(
    project: Path, tmp_path: Path, share: float
) -> None:
    build(project, tmp_path / "counted")
    most = count_pieces(project)
    assert start(project).wait() == 0
    old = read_site(project / "site")
    shutil.rmtree(project / ".cache")
    change(project / HOLD, "Breathe in for three", "Breathe in softly for three")
    killed = start(project)
    while killed.poll() is None and count_pieces(project) < share * most:
        time.sleep(0.002)
    os.killpg(killed.pid, signal.SIGKILL)
    assert killed.wait() == -signal.SIGKILL
    assert read_site(project / "site") == old
    assert start(project).wait() == 0
    assert find_other(project / "site", build_by_command(project, tmp_path / "clean")) == []


def test_two_builds_at_once_make_the_same_site(project: Path, tmp_path: Path) -> None:
    shutil.rmtree(project / ".cache")
    shutil.rmtree(project / "site")
    both = [start(project), start(project)]
    assert [each.wait() for each in both] == [0, 0]
    assert find_other(project / "site", build_by_command(project, tmp_path / "clean")) == []


def test_pages_that_stay_the_same_are_those_of_the_site_before_the_last(
    project: Path, tmp_path: Path
) -> None:
    before = build_twice(project)
    EDITS["a word"](project)
    assert start(project).wait() == 0
    after = find_files(project / "site")
    written = {path for path in after if after[path] != before.get(path)}
    pages = {path for path in written if path.endswith("index.html")}
    assert pages == {"lessons/count/plain-count/index.html", "proof/index.html"}
    assert find_other(project / "site", build_by_command(project, tmp_path / "clean")) == []


def test_a_spare_that_somebody_changed_does_no_harm(project: Path, tmp_path: Path) -> None:
    build_twice(project)
    home, gone = project / SPARE / "index.html", project / SPARE / "safety/index.html"
    state = home.stat()
    changed = home.read_bytes().replace(b"clinician", b"magician!")
    assert changed != home.read_bytes()
    home.write_bytes(changed)
    os.utime(home, ns=(state.st_atime_ns, state.st_mtime_ns))
    gone.unlink()
    write("stray/index.html", "stray")(project / SPARE)
    assert start(project).wait() == 0
    assert find_other(project / "site", build_by_command(project, tmp_path / "clean")) == []


@pytest.mark.parametrize("name", ["a caution", "a lesson less", "the site's addresses"])
def test_no_page_of_the_site_before_outlives_an_edit(
    project: Path, tmp_path: Path, name: str
) -> None:
    build_twice(project)
    EDITS[name](project)
    clean = build_by_command(project, tmp_path / "clean")
    for _ in range(2):
        assert start(project).wait() == 0
        assert find_other(project / "site", clean) == []


def test_a_file_in_the_place_of_a_page_comes_as_in_a_clean_build(
    project: Path, tmp_path: Path
) -> None:
    """The host writes files before pages, so the page has the last word."""
    build_twice(project)
    write("content/safety/index.html", "no page")(project)
    assert start(project).wait() == 0
    assert find_other(project / "site", build_by_command(project, tmp_path / "clean")) == []


def test_a_build_killed_with_the_spare_in_hand_leaves_the_old_site(
    project: Path, tmp_path: Path
) -> None:
    build_twice(project)
    old = read_site(project / "site")
    EDITS["a word"](project)
    killed = start(project)
    while killed.poll() is None and (project / SPARE).exists():
        time.sleep(0.002)
    os.killpg(killed.pid, signal.SIGKILL)
    assert killed.wait() == -signal.SIGKILL
    assert read_site(project / "site") == old
    assert start(project).wait() == 0
    assert find_other(project / "site", build_by_command(project, tmp_path / "clean")) == []
    assert not [path for path in project.iterdir() if path.name.startswith(".site-")]


def build_twice(project: Path) -> dict[str, int]:
    """Build a site two times, which lays one by; return what the system calls its files."""
    assert start(project).wait() == 0
    before = find_files(project / "site")
    assert start(project).wait() == 0
    return before


def find_files(site: Path) -> dict[str, int]:
    """Return what the system calls each file; a file that was written anew has another number."""
    files = (path for path in sorted(site.rglob("*")) if path.is_file())
    return {path.relative_to(site).as_posix(): path.stat().st_ino for path in files}


@pytest.mark.skipif(sys.platform != "linux", reason="work is shared on Linux only")
def test_one_core_makes_the_same_site_as_all(project: Path, tmp_path: Path) -> None:
    shared = build_by_command(project, tmp_path / "shared")
    cores = os.sched_getaffinity(0)
    os.sched_setaffinity(0, {min(cores)})
    try:
        assert build_by_command(project, tmp_path / "alone") == shared
    finally:
        os.sched_setaffinity(0, cores)


def start(project: Path) -> "subprocess.Popen[bytes]":
    """Start `tempoleaf build` in a group of processes of its own."""
    return subprocess.Popen(
        [sys.executable, "-c", COMMAND, "build", str(project), "--quiet"],
        stdout=subprocess.DEVNULL,
        start_new_session=True,
    )


def build_by_command(project: Path, folder: Path) -> dict[str, bytes]:
    """Return the site that `tempoleaf build` makes of a copy of a project that keeps nothing."""
    shutil.copytree(project, folder, ignore=shutil.ignore_patterns(".cache", "site"))
    assert start(folder).wait() == 0
    return read_site(folder / "site")


def count_pieces(project: Path) -> int:
    return sum(1 for path in (project / CACHE).rglob("*") if path.is_file())


def test_a_site_without_cards_loads_no_engine_for_them() -> None:
    script = "import sys, builder.mkdocs_plugin; print('weasyprint' in sys.modules)"
    told = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert told.stdout == "False\n"
