"""The tool's own digest: any byte of any file of it makes another."""

from builder.resources import find_templates
from builder.work.tool_state import describe_tool_here, digest_files


def test_every_change_of_a_file_its_name_or_its_place_is_another_digest(tmp_path):
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "one.css").write_text("body {}")
    seen = {digest_files(tmp_path)}
    (tmp_path / "a" / "one.css").write_text("body { }")
    seen.add(digest_files(tmp_path))
    (tmp_path / "a" / "one.css").rename(tmp_path / "a" / "two.css")
    seen.add(digest_files(tmp_path))
    (tmp_path / "a" / "two.css").rename(tmp_path / "two.css")
    seen.add(digest_files(tmp_path))
    (tmp_path / "empty.txt").write_text("")
    seen.add(digest_files(tmp_path))
    assert len(seen) == 5


def test_what_python_makes_of_files_doesnt_count(tmp_path):
    (tmp_path / "one.py").write_text("x = 1")
    before = digest_files(tmp_path)
    (tmp_path / "__pycache__").mkdir()
    (tmp_path / "__pycache__" / "one.pyc").write_bytes(b"x")
    assert digest_files(tmp_path) == before


def test_the_digest_holds_code_and_templates():
    assert digest_files(find_templates()) != digest_files()
    assert len(describe_tool_here()) == 64
