"""Formulas: no citation of the code is missing from the list, and no formula is without one."""

import pkgutil
from importlib import import_module

import pytest

from builder import sums
from builder.sums.citation import Citation
from builder.sums.formulas import FORMULAS, Formula

MODULES = [name for _, name, _ in pkgutil.iter_modules(sums.__path__)]
LISTED = {citation.key for formula in FORMULAS for citation in formula.citations}
WITHOUT_SOURCE = {
    *("citation", "validity", "formulas", "lung_splines"),
    *(
        "furniture",
        "plain_figure",
        "imposition",
        "reach",
        "rest",
        "root",
        "shades",
        "skeleton",
        "solid",
        "solids",
    ),
    *("space", "spots", "travel"),  # geometry: nothing but lengths, angles and colours between two
    "version",  # a digest; the signs are named where they stand
    "syllables",  # counts for the reading grade
    *("syllables_de", "syllables_es"),  # the same
    *("counts", "band", "tones"),  # ours, as their docstrings say
    *("timing", "schedule"),  # sums of seconds; the natural pace is that of NEWS2 in rates
}
"""Modules in which nothing comes from a publication."""


@pytest.mark.parametrize("name", MODULES)
def test_every_citation_of_a_module_is_listed(name: str) -> None:
    module = import_module(f"builder.sums.{name}")
    own = {value.key for value in vars(module).values() if isinstance(value, Citation)}
    assert own <= LISTED
    assert own or name in WITHOUT_SOURCE


@pytest.mark.parametrize("formula", FORMULAS, ids=[formula.title for formula in FORMULAS])
def test_every_formula_has_a_source_or_is_ours(formula: Formula) -> None:
    assert formula.citations
    assert formula.text
    for citation in formula.citations:
        assert citation.title
        assert citation.is_ours or (citation.authors and citation.where)


def test_a_key_names_one_source() -> None:
    citations = {citation for formula in FORMULAS for citation in formula.citations}
    assert len({citation.key for citation in citations}) == len(citations)
