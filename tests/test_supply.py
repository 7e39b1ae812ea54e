"""The bill of materials and the page of licences tell of all that is installed or passed on."""

import json
import re
import subprocess
import sys
from importlib.metadata import distribution
from pathlib import Path
from zipfile import ZipFile

import material
from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator
from license_expression import get_spdx_licensing

from builder.publishing.pages.licences import list_shipped_parts
from builder.resources import find_templates
from tests.supply import LICENCES, LOCK, SBOM, list_packages, write_licences, write_sbom

ANEW = "run PYTHONPATH=. .venv/bin/python tests/supply.py"
_FROM_NPM = re.compile(r"node_modules/((?:@[^/]+/)?[^/]+)")


def test_the_bill_is_valid_by_cyclonedx() -> None:
    """CycloneDX 1.6 (ECMA-424), by the schema that its makers publish with their library."""
    fault = JsonStrictValidator(SchemaVersion.V1_6).validate_str(SBOM.read_text(encoding="utf-8"))
    assert fault is None


def test_both_files_tell_of_this_lock() -> None:
    assert SBOM.read_text(encoding="utf-8") == write_sbom(), ANEW
    assert LICENCES.read_text(encoding="utf-8") == write_licences(), ANEW


def test_every_line_of_the_lock_is_in_the_bill_with_its_hashes() -> None:
    parts = json.loads(SBOM.read_text(encoding="utf-8"))["components"]
    told = {
        (part["name"], part["version"]): {each["content"] for each in part["hashes"]}
        for part in parts
        if "purl" in part
    }
    text = re.sub(r" \\\n\s+", " ", LOCK.read_text(encoding="utf-8"))
    lines = [line for line in text.splitlines() if "==" in line]
    assert len(lines) == len(told)
    for line in lines:
        name, rest = line.split("==", 1)
        assert told[name, rest.split()[0]] == set(re.findall("sha256:([0-9a-f]+)", line)) != set()


def test_nothing_in_the_locks_comes_from_anywhere_but_the_index() -> None:
    for lock in (LOCK, Path(__file__).with_name("requirements.lock")):
        assert not re.findall(r"://| @ |^-[^-]|--(?!hash=)", lock.read_text(encoding="utf-8"), re.M)


def test_every_licence_is_one_that_spdx_knows() -> None:
    known = get_spdx_licensing()
    said = [each.licence for each in (*list_packages(), *list_shipped_parts())]
    assert [each for each in said if known.validate(each).errors] == []


def test_every_part_of_the_themes_scripts_and_styles_is_listed() -> None:
    """The theme's own source maps name the packages that its files are made of."""
    (folder,) = material.__path__
    maps = sorted(Path(folder).glob("templates/assets/**/*.map"))
    sources = " ".join(
        source for each in maps for source in json.loads(each.read_text())["sources"]
    )
    inside = set(_FROM_NPM.findall(sources))
    assert len(maps) >= 4
    assert inside == {part.npm for part in list_shipped_parts() if part.npm}


def test_the_themes_licence_is_passed_on_in_its_own_words() -> None:
    theme = distribution("mkdocs-material")
    (own,) = (file for file in theme.files or () if str(file).endswith("info/licenses/LICENSE"))
    passed_on = find_templates() / "licences" / "theme.txt"
    assert passed_on.read_text(encoding="utf-8") == own.read_text()


def test_the_package_carries_its_licences_and_its_bill(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)]
    subprocess.run(command, cwd=LOCK.parent, check=True, capture_output=True)
    (wheel,) = tmp_path.iterdir()
    names = {name.partition("/")[2] for name in ZipFile(wheel).namelist()}
    assert {"licenses/LICENSE", "licenses/LICENCES.md", "sboms/sbom.cdx.json"} <= names
