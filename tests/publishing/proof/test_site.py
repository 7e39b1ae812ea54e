"""The proof of a finished site, on sites that lack something."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from builder.course.notice import Notice
from builder.findings import Finding
from builder.publishing.cards.words import list_lesson_words
from builder.publishing.pages.links import Site, lesson_page
from builder.publishing.proof.site import find_site_faults
from builder.publishing.proof.sources import list_sources
from builder.publishing.views.inline import no_link
from builder.publishing.views.lesson_in_words import view_lesson
from builder.reading.course_folder import read_course
from builder.work.folder_files import FolderFiles
from tests.conftest import SMALL_COURSE
from tests.counting_shelf import CountingShelf

WriteSite = Callable[..., tuple[Site, Path]]
PLACE = "content/lessons/count/short-hold.md"


@pytest.fixture
def write_site(tmp_path: Path) -> WriteSite:
    """Write a bare site that says all it must; ``change`` edits one file of it."""

    def write(path: str = "", old: str = "", new: str = "") -> tuple[Site, Path]:
        course = read_course(SMALL_COURSE).course
        assert course is not None
        site = Site(course, papers=(("a6", "A6"),))
        links = []
        for lesson in course.lessons:
            file = site.file(lesson_page(lesson))
            view = view_lesson(course, lesson, no_link)
            words = [*list_lesson_words(view).values(), view.tempo_text, view.position]
            put(tmp_path / file, "".join(f"<p>{text}</p>\n" for text in words))
            links.append(f'<a href="{file}">{lesson.id}</a>')
        put(
            tmp_path / "index.html",
            f'<h1 id="top">Home</h1>{"".join(links)}{course.settings.caution}',
        )
        if path:
            page = (tmp_path / path).read_text(encoding="utf-8")
            assert old in page
            (tmp_path / path).write_text(page.replace(old, new), encoding="utf-8")
        return site, tmp_path

    return write


def put(path: Path, article: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    text = f"<html><body><nav></nav><article>{article}</article></body></html>"
    path.write_text(text, encoding="utf-8")


def find(written: tuple[Site, Path]) -> tuple[Finding, ...]:
    site, folder = written
    return find_site_faults(
        list_sources(site, folder, "content", {"index.md": "index.md"}), FolderFiles(folder)
    )


def describe(findings: tuple[Finding, ...]) -> list[tuple[str, str]]:
    return [(finding.rule.id, finding.place.path) for finding in findings]


def test_a_site_that_says_everything_has_no_faults(write_site: WriteSite) -> None:
    assert find(write_site()) == ()


@pytest.mark.parametrize(
    "link",
    ['<a href="nowhere/">x</a>', '<img src="gone.png">', '<a href="cards/gone.pdf">x</a>'],
    ids=["page", "image", "card"],
)
def test_a_link_to_nothing_is_found(write_site: WriteSite, link: str) -> None:
    found = find(write_site("index.html", "</article>", f"{link}</article>"))
    assert describe(found) == [("L101", "content/index.md")]


def test_a_missing_anchor_is_found_on_its_own_and_on_another_page(write_site: WriteSite) -> None:
    links = '<a href="#gone">x</a><a href="#top">y</a>'
    found = find(write_site("index.html", "</article>", f"{links}</article>"))
    assert describe(found) == [("L102", "content/index.md")]
    assert '"#gone"' in found[0].fact


def test_addresses_outside_are_nobodys_business(write_site: WriteSite) -> None:
    links = '<a href="https://example.org/x">x</a><a href="mailto:a@example.org">y</a>'
    assert find(write_site("index.html", "</article>", f"{links}</article>")) == ()


def test_a_lesson_that_only_the_navigation_names_is_found(write_site: WriteSite) -> None:
    site, folder = write_site()
    link = '<a href="lessons/count/short-hold/index.html">short-hold</a>'
    home = (folder / "index.html").read_text(encoding="utf-8")
    moved = home.replace(link, "").replace("<nav>", f"<nav>{link}")
    (folder / "index.html").write_text(moved, encoding="utf-8")
    assert describe(find((site, folder))) == [("L103", PLACE)]


@pytest.mark.parametrize(
    ("lost", "rule"),
    [
        ("Hold three at most", "C105"),
        ("This is general exercise, not medical advice. Your own", "C105"),
        ("Breathe out for three, then hold for three.", "C106"),
        ("In for three", "C106"),
        ("You feel dizzy", "C106"),
    ],
    ids=["notice", "caution", "step", "cue", "stop sign"],
)
def test_a_word_that_a_lesson_page_lost_is_found(
    write_site: WriteSite, lost: str, rule: str
) -> None:
    site, folder = write_site()
    page = folder / "lessons/count/short-hold/index.html"
    text = page.read_text(encoding="utf-8")
    if lost == "Hold three at most":
        notice = next(n for n in site.course.notices if n.id == "holding")
        lost = notice.short
    assert lost in text
    page.write_text(text.replace(lost, ""), encoding="utf-8")
    found = describe(find((site, folder)))
    assert (rule, PLACE) in found
    assert {place for _, place in found} == {PLACE}


def test_a_code_on_a_card_must_lead_to_a_page(write_site: WriteSite) -> None:
    site, folder = write_site()
    old = folder / "lessons/count/short-hold/index.html"
    home = (folder / "index.html").read_text(encoding="utf-8")
    flat = Site(site.course, directory_urls=False, papers=site.papers)
    for lesson in site.course.lessons:
        page = folder / site.file(lesson_page(lesson))
        target = folder / flat.file(lesson_page(lesson))
        page.rename(target)
        home = home.replace(site.file(lesson_page(lesson)), flat.file(lesson_page(lesson)))
    (folder / "index.html").write_text(home, encoding="utf-8")
    assert not old.exists()
    found = describe(find((flat, folder)))
    assert {rule for rule, _ in found} == {"C104"}
    assert len(found) == len(site.course.lessons)


@pytest.mark.parametrize(
    "markup",
    [
        '<script src="https://elsewhere.example/x.js"></script>',
        '<img src="//elsewhere.example/x.png" alt="x">',
        '<iframe src="http://elsewhere.example"></iframe>',
        '<video src="https://elsewhere.example/x.mp4"></video>',
        '<object data="https://elsewhere.example/x"></object>',
        '<svg><image href="https://elsewhere.example/x.png"/></svg>',
        '<link rel="stylesheet" href="https://elsewhere.example/x.css">',
        '<img src="file:///etc/hostname" alt="x">',
        '<img srcset="https://elsewhere.example/x.png 2x" alt="x">',
        '<video poster="https://elsewhere.example/x.png"></video>',
        '<p style="background: url(https://elsewhere.example/x.png)">x</p>',
        '<style>@import "https://elsewhere.example/x.css";</style>',
        "<style>p { background: url('//elsewhere.example/x.png') }</style>",
        '<meta http-equiv="refresh" content="0; url=https://elsewhere.example">',
        '<base href="https://elsewhere.example/">',
    ],
)
def test_a_page_that_would_load_from_elsewhere_is_found(write_site: WriteSite, markup: str) -> None:
    found = find(write_site("index.html", "Home</h1>", f"Home</h1>{markup}"))
    assert describe(found) == [("L101", "content/index.md")]
    assert "from elsewhere by itself" in found[0].fact


@pytest.mark.parametrize(
    "target", ["javascript:alert(1)", "file:///etc/passwd", "data:text/html,x"]
)
def test_a_link_that_leads_to_no_page_is_found(write_site: WriteSite, target: str) -> None:
    found = find(write_site("index.html", "Home</h1>", f'Home</h1><a href="{target}">x</a>'))
    assert [finding.fact for finding in found] == [f'"{target}" is no link to a page']


def test_links_that_somebody_follows_may_lead_away(write_site: WriteSite) -> None:
    links = "".join(
        f'<a href="{target}">x</a>'
        for target in ("https://elsewhere.example", "mailto:a@b.example", "tel:112")
    )
    canonical = '<link rel="canonical" href="https://small.example/">'
    inline = '<img src="data:image/svg+xml,x" alt="x">'
    assert find(write_site("index.html", "Home</h1>", f"Home</h1>{links}{canonical}{inline}")) == ()


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("<div hidden>", "</div>"),
        ('<div style="display: none">', "</div>"),
        ('<div aria-hidden="true"><em>', "</em></div>"),
        ("<template><div>", "</div></template>"),
    ],
)
def test_a_notice_that_nobody_sees_is_lost(write_site: WriteSite, before: str, after: str) -> None:
    short = "<p>Use a chair to get down and up.</p>"
    found = find(
        write_site("lessons/count/short-hold/index.html", short, f"{before}{short}{after}")
    )
    assert describe(found) == [("C105", PLACE)]


def say_all(notice: Notice, *, but: str = "") -> str:
    """Return what the safety page says of a notice, one of its texts left out."""
    texts = {name: getattr(notice, name) for name in ("title", "short", "adapt", "long")}
    return " ".join(text for name, text in texts.items() if name != but)


def test_a_safety_page_without_a_notice_is_found(write_site: WriteSite) -> None:
    site, folder = write_site()
    texts = [say_all(notice) for notice in site.course.notices if notice.id != "floor"]
    put(folder / "safety/index.html", " ".join(texts))
    found = find((site, folder))
    assert {finding.place.path for finding in found} == {"content/notices/floor.md"}
    assert {finding.rule.id for finding in found} == {"C105"}


@pytest.mark.parametrize("text", ["title", "short", "adapt", "long"])
def test_a_text_that_a_notice_lost_on_the_safety_page_is_found(
    write_site: WriteSite, text: str
) -> None:
    site, folder = write_site()
    texts = [say_all(n, but=text if n.id == "holding" else "") for n in site.course.notices]
    put(folder / "safety/index.html", "<p>".join(texts))
    assert describe(find((site, folder))) == [("C105", "content/notices/holding.md")]


def test_a_page_without_the_courses_caution_is_found(write_site: WriteSite) -> None:
    caution = "This is general exercise, not medical advice."
    found = find(write_site("index.html", caution, ""))
    assert describe(found) == [("C105", "content/course.yml")]
    assert 'the finished page "index.html"' in found[0].fact


def test_a_style_sheet_that_would_load_from_elsewhere_is_found(write_site: WriteSite) -> None:
    site, folder = write_site()
    style = "@font-face { src: url(https://elsewhere.example/f.woff2) }"
    for path in ("look.css", "content/look.css"):
        (folder / path).parent.mkdir(exist_ok=True)
        (folder / path).write_text(f"{style}\np {{ background: url(x.png) }}", encoding="utf-8")
    (folder / "content/look.css").rename(folder / "content/own.css")
    found = find((site, folder))
    assert describe(found) == [("L101", "content/own.css"), ("L101", "look.css")]


@pytest.mark.parametrize(
    ("written", "finished"),
    [
        ("gone.md", "gone.md"),
        ("safety.md#nope", "safety/#nope"),
        ("lessons/count/short-hold.md#nope", "lessons/count/short-hold/#nope"),
        ("<pic/a.png>", "pic/a.png"),
        ("#nope", "#nope"),
    ],
)
def test_a_fault_stands_where_its_author_wrote_it(
    write_site: WriteSite, written: str, finished: str
) -> None:
    link = f'<a href="{finished}">x</a>'
    site, folder = write_site("index.html", "Home</h1>", f"Home</h1>{link}")
    put(folder / "safety/index.html", "<p>".join(map(say_all, site.course.notices)))
    page = folder / "content/index.md"
    page.parent.mkdir()
    page.write_text(f"---\ntitle: Home\n---\n\nA `[x]({written})`\n\nb [c]({written})\n")
    (found,) = find((site, folder))
    assert (found.place.path, found.place.line) == ("content/index.md", 7)
    assert f'"{written.strip("<>")}" leads to no' in found.fact


def test_what_a_notice_links_to_is_told_in_its_own_file(write_site: WriteSite) -> None:
    site, folder = write_site()
    texts = "<p>".join(map(say_all, site.course.notices))
    put(folder / "safety/index.html", f'{texts}<a href="gone.md">x</a>')
    notice = folder / "content/notices/floor.md"
    notice.parent.mkdir(parents=True)
    notice.write_text("---\n---\nLong [x](gone.md)\n", encoding="utf-8")
    (found,) = find((site, folder))
    assert (found.place.path, found.place.line) == ("content/notices/floor.md", 3)


def test_a_fault_of_the_navigation_is_told_once_in_the_settings(write_site: WriteSite) -> None:
    site, folder = write_site()
    (folder / "mkdocs.yml").write_text("nav:\n  - index.md\n  - nope.md\n", encoding="utf-8")
    for page in folder.rglob("*.html"):
        up = "../" * (len(page.relative_to(folder).parts) - 1)
        text = page.read_text(encoding="utf-8")
        link = f'<nav><a href="{up}nope.md">Nope</a>'
        page.write_text(text.replace("<nav>", link), encoding="utf-8")
    (found,) = find((site, folder))
    assert str(found.place) == "mkdocs.yml:3:5"
    assert found.fact == '"nope.md" leads to no page or file'


def find_again(written: tuple[Site, Path], shelf: CountingShelf) -> tuple[Finding, ...]:
    site, folder = written
    sources = list_sources(site, folder, "content", {"index.md": "index.md"})
    return find_site_faults(sources, FolderFiles(folder), shelf=shelf)


def test_what_was_proven_before_is_not_read_again(write_site: WriteSite) -> None:
    shelf = CountingShelf()
    written = write_site()
    assert find_again(written, shelf) == ()
    shelf.fresh.clear()
    assert find_again(written, shelf) == ()
    assert shelf.fresh == []


def test_a_page_with_one_changed_byte_is_read_again(write_site: WriteSite) -> None:
    shelf = CountingShelf()
    site, folder = write_site()
    assert find_again((site, folder), shelf) == ()
    page = folder / "lessons/count/short-hold/index.html"
    page.write_bytes(page.read_bytes().replace(b"Stop", b"Stoq", 1))
    shelf.fresh.clear()
    found = find_again((site, folder), shelf)
    assert len(shelf.fresh) == 2, "the page, and the verdict on it"
    assert describe(found) == [("C105", PLACE)]


def test_faults_are_told_again_from_what_was_kept(write_site: WriteSite) -> None:
    shelf = CountingShelf()
    links = '<a href="gone/">x</a><a href="#gone">y</a><script src="//example.org/x.js"></script>'
    written = write_site("index.html", "</article>", f"{links}</article>")
    first = find_again(written, shelf)
    assert len(first) == 3
    assert find_again(written, shelf) == first == find(written)


def test_a_page_that_stayed_is_judged_by_what_its_lesson_says_now(write_site: WriteSite) -> None:
    shelf = CountingShelf()
    site, folder = write_site()
    assert find_again((site, folder), shelf) == ()
    lessons = tuple(
        replace(each, words=replace(each.words, stop_if=("You see stars",)))
        if each.id == "short-hold"
        else each
        for each in site.course.lessons
    )
    changed = replace(site, course=replace(site.course, lessons=lessons))
    found = find_again((changed, folder), shelf)
    assert [finding.place.path for finding in found] == [PLACE]
    assert "You see stars" in found[0].fact


def test_an_anchor_that_went_is_missed_on_pages_that_stayed(write_site: WriteSite) -> None:
    shelf = CountingShelf()
    site, folder = write_site()
    page = folder / "lessons/count/short-hold/index.html"
    page.write_text(
        page.read_text(encoding="utf-8").replace(
            "</article>", '<a href="../../../#top">x</a></article>'
        ),
        encoding="utf-8",
    )
    assert find_again((site, folder), shelf) == ()
    home = folder / "index.html"
    home.write_text(home.read_text(encoding="utf-8").replace('id="top"', ""), encoding="utf-8")
    assert describe(find_again((site, folder), shelf)) == [("L102", PLACE)]
