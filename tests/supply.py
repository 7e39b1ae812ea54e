"""What tempoleaf is made of: writes ``sbom.cdx.json`` and ``LICENCES.md`` anew.

After a change of ``requirements.lock``: ``PYTHONPATH=. .venv/bin/python tests/supply.py``;
``tests/test_supply.py`` holds both files to the lock. The list of parts is a bill of materials by
CycloneDX 1.6 (ECMA-424), and licences are named as SPDX does.
"""

import json
import re
import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path

from cyclonedx.contrib.license.factories import LicenseFactory
from cyclonedx.model import HashAlgorithm, HashType
from cyclonedx.model.bom import Bom
from cyclonedx.model.component import Component, ComponentType
from cyclonedx.output.json import JsonV1Dot6
from license_expression import get_spdx_licensing
from packageurl import PackageURL
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from builder import __version__
from builder.publishing.pages.licences import list_shipped_parts

ROOT = Path(__file__).parents[1]
LOCK, SBOM, LICENCES = ROOT / "requirements.lock", ROOT / "sbom.cdx.json", ROOT / "LICENCES.md"
_LOCKED = re.compile(r"^([a-z0-9.-]+)==([^\s;]+)(?: ; ([^\\\n]+?))?(?= \\|$)", re.MULTILINE)
_HASH = re.compile(r"--hash=sha256:([0-9a-f]{64})")
_CLASSES = {
    "Apache Software License": "Apache-2.0",
    "ISC License (ISCL)": "ISC",
    "MIT License": "MIT",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
}
"""What the index's own words for a licence stand for."""
_SAID = {
    "brotlicffi": "MIT",  # for other Pythons than the usual one, so not installed; from memory
    "pypdfium2": "(BSD-3-Clause OR Apache-2.0) AND BSD-3-Clause",  # its own, and PDFium's
    "pyphen": "GPL-2.0-or-later OR LGPL-2.1-or-later OR MPL-1.1",
    "soundfile": "BSD-3-Clause AND LGPL-2.1-or-later",  # its own, and libsndfile's
}
"""Licences that no part tells in a form that a program understands."""
_HEAD = """\
# Licences

tempoleaf itself is under the MIT licence (`LICENSE`). It installs the packages below, each in the \
version and with the hashes of `requirements.lock`, and changes none. `sbom.cdx.json` lists the \
same for programs, by CycloneDX 1.6. Both files are made by `tests/supply.py`; licences are \
named as SPDX does and are those that the packages state.

## What is installed

| Package | Version | Licence | Where |
| --- | --- | --- | --- |
"""
_SHIPPED = """
## What a site passes on

The same list stands on every site, on the page "Licences" of the author guide.

| Part | Version | Licence | Where |
| --- | --- | --- | --- |
"""
_SYSTEM = """
## What the system brings

Cards are set with Pango (LGPL-2.1-or-later), HarfBuzz (MIT) and Fontconfig (MIT) of the system; \
tempoleaf ships none of them. The licences of these three are told from memory.
"""


@dataclass(frozen=True, slots=True)
class Package:
    """A package of the lock."""

    name: str
    version: str
    marker: str
    hashes: tuple[str, ...]
    licence: str


def list_packages() -> tuple[Package, ...]:
    """Read every package of the lock, with the licence that it states."""
    text = LOCK.read_text(encoding="utf-8")
    found = list(_LOCKED.finditer(text))
    ends = [match.start() for match in found[1:]] + [len(text)]
    return tuple(
        Package(
            match[1],
            match[2],
            match[3] or "",
            tuple(sorted(_HASH.findall(text[match.start() : end]))),
            find_licence(match[1]),
        )
        for match, end in zip(found, ends, strict=True)
    )


@cache
def find_licence(name: str) -> str:
    """Return the licence of an installed package as SPDX names it.

    Raises:
        LookupError: it says nothing that can be understood; add it to ``_SAID``.
    """
    if name in _SAID:
        return _SAID[name]
    try:
        part = distribution(name)
    except PackageNotFoundError as gone:
        raise LookupError(f'the licence of "{name}" is not known') from gone
    said = part.metadata.get("License-Expression") or part.metadata.get("License") or ""
    if said and not get_spdx_licensing().validate(said).errors:
        return str(said)
    for words in part.metadata.get_all("Classifier", []):
        last = words.split(" :: ")[-1]
        if last == "BSD License":
            return _tell_bsd(part)
        if last in _CLASSES:
            return _CLASSES[last]
    raise LookupError(f'the licence of "{name}" is not known: "{said}"')


def _tell_bsd(part: Distribution) -> str:
    """Tell the two common BSD licences apart: one has a clause on names."""
    texts = (str(f.read_text()) for f in part.files or () if f.name.upper().startswith("LICENSE"))
    return "BSD-3-Clause" if "neither the name" in " ".join(texts).lower() else "BSD-2-Clause"


def list_components() -> Iterator[Component]:
    """Yield every part: the packages of the lock, and what a site passes on."""
    licences = LicenseFactory()
    for package in list_packages():
        url = PackageURL("pypi", name=canonicalize_name(package.name), version=package.version)
        yield Component(
            name=package.name,
            version=package.version,
            type=ComponentType.LIBRARY,
            purl=url,
            bom_ref=str(url),
            hashes=[HashType(alg=HashAlgorithm.SHA_256, content=each) for each in package.hashes],
            licenses=[licences.make_from_string(package.licence)],
        )
    for part in list_shipped_parts():
        if not part.package:
            yield Component(
                name=part.name,
                version=part.version or None,
                type=ComponentType.LIBRARY,
                bom_ref=f"site:{part.name}",
                description=f"in every site: {part.where}",
                licenses=[licences.make_from_string(part.licence)],
            )


def write_sbom() -> str:
    """Write the bill of materials; the same lock always gives the same text."""
    own = Component(
        name="tempoleaf",
        version=__version__,
        type=ComponentType.APPLICATION,
        bom_ref="tempoleaf",
        licenses=[LicenseFactory().make_from_string("MIT")],
    )
    bom = Bom(components=list_components())
    bom.metadata.component = own
    bom.register_dependency(own, list(bom.components))
    told = json.loads(JsonV1Dot6(bom).output_as_string())
    del told["metadata"]["timestamp"]
    told["serialNumber"] = f"urn:uuid:{uuid.uuid5(uuid.NAMESPACE_URL, LOCK.read_text())}"
    return json.dumps(told, ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def write_licences() -> str:
    """Write the page of licences."""
    installed = "".join(
        f"| {each.name} | {each.version} | {each.licence} | {_tell_where(each.marker)} |\n"
        for each in list_packages()
    )
    shipped = "".join(
        f"| {each.name} | {each.found_version or '–'} | {each.licence} | {each.where} |\n"
        for each in list_shipped_parts()
    )
    return f"{_HEAD}{installed}{_SHIPPED}{shipped}{_SYSTEM}"


def _tell_where(marker: str) -> str:
    return f"`{Requirement(f'it; {marker}').marker}`" if marker else "everywhere"


if __name__ == "__main__":
    SBOM.write_text(write_sbom(), encoding="utf-8")
    LICENCES.write_text(write_licences(), encoding="utf-8")
