"""What is kept: taken back by its key, small, and nothing where it isn't ours or isn't whole."""

from pathlib import Path

import pytest

from builder.work.kept import FOLDER, make_key, open_kept


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give the tests a user of their own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


def keep(project: Path, **entries: object) -> None:
    kept = open_kept(project, "things")
    for key, entry in entries.items():
        kept.put(key, entry)
    kept.save()


def find_file(project: Path) -> Path:
    (file,) = (path for path in (project / FOLDER).rglob("*") if path.is_file())
    return file


def test_what_was_put_is_there_in_the_next_run(tmp_path):
    keep(tmp_path, a=[1, "two", None, 2.5])
    assert open_kept(tmp_path, "things").get("a") == [1, "two", None, 2.5]


def test_another_name_and_another_key_have_nothing(tmp_path):
    keep(tmp_path, a=1)
    assert open_kept(tmp_path, "others").get("a") is None
    assert open_kept(tmp_path, "things").get("b") is None


def test_another_users_entries_are_taken_for_nothing(tmp_path, monkeypatch):
    keep(tmp_path, a=1)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "somebody-else"))
    assert open_kept(tmp_path, "things").get("a") is None


def test_entries_of_one_name_dont_pass_for_another(tmp_path):
    keep(tmp_path, a=1)
    other = open_kept(tmp_path, "others")
    target = tmp_path / FOLDER / other.bundle.key[:2] / other.bundle.key[2:]
    target.parent.mkdir(exist_ok=True)
    find_file(tmp_path).rename(target)
    assert other.get("a") is None


@pytest.mark.parametrize("place", [0, 40, -1])
def test_a_damaged_file_is_taken_for_nothing_and_mended(tmp_path, place):
    keep(tmp_path, a=1)
    file = find_file(tmp_path)
    content = bytearray(file.read_bytes())
    content[place] ^= 1
    file.write_bytes(content)
    assert open_kept(tmp_path, "things").get("a") is None
    keep(tmp_path, a=2)
    assert open_kept(tmp_path, "things").get("a") == 2


def test_where_nothing_can_be_written_nothing_is_kept_and_nothing_stops(tmp_path):
    (tmp_path / ".cache").write_text("a file stands in the way")
    keep(tmp_path, a=1)
    assert open_kept(tmp_path, "things").get("a") is None


def test_a_user_without_a_place_of_their_own_keeps_nothing(tmp_path, home):
    home.write_text("a file stands in the way")
    keep(tmp_path, a=1)
    assert open_kept(tmp_path, "things").get("a") is None


def test_what_no_file_can_spell_is_kept_all_the_same(tmp_path):
    keep(tmp_path, a="\ud800")
    assert open_kept(tmp_path, "things").get("a") == "\ud800"


def test_a_damaged_secret_is_made_anew(tmp_path, home):
    keep(tmp_path, a=1)
    (secret,) = (home / "tempoleaf").iterdir()
    secret.write_bytes(b"short")
    assert open_kept(tmp_path, "things").get("a") is None
    keep(tmp_path, a=2)
    assert open_kept(tmp_path, "things").get("a") == 2


def test_a_run_that_adds_nothing_writes_nothing(tmp_path):
    keep(tmp_path, a=1, b=2)
    file = find_file(tmp_path)
    before = file.stat().st_ino
    kept = open_kept(tmp_path, "things")
    kept.get("a")
    kept.save()
    assert (file.stat().st_ino, kept.added) == (before, 0)


def test_a_few_entries_of_earlier_runs_stay_and_the_file_doesnt_grow(tmp_path):
    for run in range(200):
        keep(tmp_path, **{f"run-{run}": "x" * 100})
    kept = open_kept(tmp_path, "things")
    assert [run for run in range(200) if kept.get(f"run-{run}")] == list(range(200 - 33, 200))


def test_keys_tell_parts_from_their_neighbours():
    assert (
        len({make_key("a", "bc"), make_key("ab", "c"), make_key("abc"), make_key("abc", "")}) == 4
    )
