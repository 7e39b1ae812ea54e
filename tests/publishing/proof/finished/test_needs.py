"""What a host needs, told line by line."""

import dataclasses
from pathlib import Path

import pytest

from builder.publishing.proof.finished.hosts import HOSTS, list_refusals, word_bytes
from builder.publishing.proof.finished.needs import State, list_needs, write_needs
from builder.publishing.proof.finished.site import FinishedSite, read_finished_site
from tests.publishing.proof.finished.conftest import ADDRESS, look


def judge(site: FinishedSite) -> dict[str, State]:
    return {need.name: need.state for need in list_needs(site, ())}


def test_a_sound_site_leaves_nothing_to_do_but_at_the_host(site: Path) -> None:
    states = judge(read_finished_site(site))
    assert {name for name, state in states.items() if state is State.OK} == {
        *("address", "links", "capitals", "hidden", "size")
    }
    assert set(states.values()) == {State.OK, State.HOST}


def test_whatever_is_not_ok_has_a_cure(site: Path) -> None:
    (site / "404.html").unlink()
    needs = list_needs(read_finished_site(site), ())
    assert {need.name: bool(need.cure) for need in needs} == {
        need.name: need.state is not State.OK for need in needs
    }


@pytest.mark.parametrize(
    ("lost", "name"),
    [
        ("404.html", "404"),
        ("_headers", "headers"),
        (".nojekyll", "hidden"),
        ("service-worker.js", "offline"),
    ],
)
def test_a_file_that_hosts_look_for_is_missed(site: Path, lost: str, name: str) -> None:
    (site / lost).unlink()
    assert judge(read_finished_site(site))[name] is State.TO_DO


def test_a_site_without_an_address_is_told_where_to_write_it(site: Path) -> None:
    read = dataclasses.replace(read_finished_site(site), address="")
    need = next(need for need in list_needs(read, ()) if need.name == "address")
    assert need.state is State.TO_DO
    assert "content/course.yml" in need.cure


def test_an_address_without_https_is_to_be_changed(site: Path) -> None:
    read = dataclasses.replace(read_finished_site(site), address="http://studio.example/")
    assert judge(read)["https"] is State.TO_DO


def test_the_place_on_the_host_is_named(site: Path) -> None:
    need = next(n for n in list_needs(read_finished_site(site), ()) if n.name == "place")
    assert need.fact == "the site belongs on studio.example, in its folder /course/"
    assert ADDRESS in need.cure


def test_dead_links_and_strange_addresses_are_counted(site: Path) -> None:
    (site / "more.html").write_text('<a href="gone/">x</a><a href="#gone">y</a>', "utf-8")
    (site / "more.epub").write_bytes(b"none")
    needs = {need.name: need for need in list_needs(read_finished_site(site), look(site))}
    assert needs["links"].state is State.TO_DO
    assert needs["links"].fact.startswith("2 links lead nowhere and 1 lists or files")


def test_names_that_hosts_trip_over_are_named(site: Path) -> None:
    (site / "my plan.txt").touch()
    (site / "SITE.css").touch()
    needs = {need.name: need for need in list_needs(read_finished_site(site), ())}
    assert '"my plan.txt"' in needs["names"].fact
    assert needs["capitals"].state is State.TO_DO
    assert "differ by capitals only" in needs["capitals"].fact


def test_the_kinds_of_files_that_are_there_are_named(site: Path) -> None:
    types = next(n for n in list_needs(read_finished_site(site), ()) if n.name == "types")
    assert ".epub application/epub+zip" in types.fact
    assert ".wasm" not in types.fact


def test_limits_of_hosts_are_held_against_the_site() -> None:
    refused = {host.name for host in HOSTS if list_refusals(host, {"a": 2_000_000_000})}
    assert refused == {"GitHub Pages", "GitLab Pages", "Cloudflare Pages"}
    many = {str(number): 1 for number in range(20_001)}
    assert {h.name for h in HOSTS if list_refusals(h, many)} == {"Cloudflare Pages"}
    assert not any(list_refusals(host, {"a": 1}) for host in HOSTS)


def test_a_site_that_a_host_refuses_is_told(site: Path) -> None:
    read = read_finished_site(site)
    large = dataclasses.replace(read, sizes={**read.sizes, "long.wav": 30_000_000})
    told = [need for need in list_needs(large, ()) if need.state is State.TO_DO]
    assert [need.name for need in told] == ["size"]
    assert "Cloudflare Pages takes no file above 26.2 MB" in told[0].fact
    assert "from memory" in told[0].fact


@pytest.mark.parametrize(("count", "words"), [(1_000_000_000, "1,000.0 MB"), (1_500, "1.5 kB")])
def test_sizes_are_written_as_people_read_them(count: int, words: str) -> None:
    assert word_bytes(count) == words


def test_each_need_is_a_line_with_its_cure_below(site: Path) -> None:
    (site / "404.html").unlink()
    lines = write_needs(list_needs(read_finished_site(site), ())).split("\n")
    at = next(i for i, line in enumerate(lines) if line.startswith("to do  404 "))
    assert lines[at + 1].strip() == "cure: build again with: tempoleaf build --strict"
