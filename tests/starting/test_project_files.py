import json
from fnmatch import fnmatchcase

import jsonschema
import pytest
import yaml

from builder.resources import find_starter
from builder.starting.course_text import write_course_file
from builder.starting.project_files import SCHEMA_LINE, make_project_files
from builder.starting.wishes import Wishes

AWKWARD = 'Anna\'s "Room": <b> & #1 $x §{y} {{ z }}'


@pytest.fixture
def files() -> dict[str, str]:
    wishes = Wishes(AWKWARD, address="https://a.example/b/")
    return {path: text.decode() for path, text in make_project_files(wishes, AWKWARD).items()}


def test_these_files_stand_around_the_content(files: dict[str, str]) -> None:
    assert set(files) == {
        *("README.md", "mkdocs.yml", "requirements.txt", "requirements.lock", ".gitignore"),
        ".gitlab-ci.yml",
        *(".github/workflows/publish.yml", ".vscode/settings.json", ".vscode/extensions.json"),
        *(".schemas/course.json", ".schemas/lesson.json", ".schemas/notice.json"),
    }


def test_the_site_needs_the_theme_and_two_plugins_and_nothing_else(files: dict[str, str]) -> None:
    assert yaml.safe_load(files["mkdocs.yml"]) == {
        "site_name": AWKWARD,
        "docs_dir": "content",
        "theme": {"name": "material"},
        "plugins": ["search", "tempoleaf"],
    }


def test_what_is_made_or_private_is_kept_out_of_git(files: dict[str, str]) -> None:
    lines = set(files[".gitignore"].splitlines())
    assert {"site/", "coach/", "program/", ".cache/"} <= lines
    assert {"people.csv", "results.csv", "attendance.xlsx", "not-recorded/"} <= lines


@pytest.mark.parametrize(
    "name", ["people.csv", "people (1).csv", ".people.csv.new", "results.csv.bak", "people.xlsx"]
)
def test_no_copy_of_records_gets_into_git(files: dict[str, str], name: str) -> None:
    patterns = files[".gitignore"].splitlines()
    assert any(fnmatchcase(name, pattern) for pattern in patterns)


def test_markup_in_a_name_means_nothing_in_the_guide(files: dict[str, str]) -> None:
    assert "<b>" not in files["README.md"].replace("\\<b\\>", "")
    assert files["README.md"].startswith('# Anna\'s "Room": \\<b\\> \\& \\#1 $x §{y} {{ z }}: our')


@pytest.mark.parametrize("path", [".github/workflows/publish.yml", ".gitlab-ci.yml"])
def test_publishing_installs_what_the_doctor_asks_for_on_debian(
    files: dict[str, str], path: str
) -> None:
    packages = "libpangoft2-1.0-0 libharfbuzz-subset0"
    assert f"--no-install-recommends {packages}\n" in files[path]


def test_no_template_sign_is_left(files: dict[str, str]) -> None:
    for path, text in files.items():
        assert "§{" not in text.replace("§{y}", ""), path


@pytest.mark.parametrize("name", ["course", "lesson", "notice"])
def test_editors_get_valid_schemas(files: dict[str, str], name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(json.loads(files[f".schemas/{name}.json"]))


def test_a_new_course_file_is_valid_by_the_schema_that_its_first_line_names(
    files: dict[str, str],
) -> None:
    text = (find_starter() / "course.yml").read_text("utf-8")
    strands = {strand["id"] for strand in yaml.safe_load(text)["strands"]}
    made = yaml.safe_load(write_course_file(text, Wishes(AWKWARD), strands))
    path = SCHEMA_LINE.strip().partition("=../")[2]
    validator = jsonschema.Draft202012Validator(json.loads(files[path]))
    assert list(validator.iter_errors(made)) == []
    wrong = made | {"colour": "x", "paper": "a7"}
    assert len(list(validator.iter_errors(wrong))) == 2


def test_an_editor_finds_the_schema_of_the_course_file(files: dict[str, str]) -> None:
    schemas = json.loads(files[".vscode/settings.json"])["yaml.schemas"]
    assert schemas == {"./.schemas/course.json": "content/course.yml"}
