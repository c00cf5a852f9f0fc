"""The questions that this plugin puts on the start screen."""

from fractions import Fraction

import pytest

import boltend_borders_binding as plugin
from boltend.core.flow import Workbook
from boltend.core.project.edits import add_tab
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project
from boltend.core.report.words import caution_lines
from boltend.testing.worked import HereOnly


def test_a_start_names_real_calculators_givens_and_founds() -> None:
    known = {calculator.spec.name: calculator.spec for calculator in plugin.boltend_calculators()}
    for start in plugin.boltend_starts():
        before: dict[str, str] = {}
        for tab, calculator, givens in start.tabs:
            for name, value in givens.items():
                assert known[calculator].given(name) is not None
                if isinstance(value, dict):
                    assert known[before[value["from"]]].found(value["take"]) is not None
            before[tab] = calculator


@pytest.mark.parametrize("how_many", [2, 3])
def test_a_border_too_few_is_told_and_never_a_silent_size(how_many: int) -> None:
    """The question makes two rows of borders: a third one that the widths count on is missed aloud."""
    (start,) = (s for s in plugin.boltend_starts() if "to the size" in s.question)
    said = {
        "Top": {"widths": "60 1/4 in; 60 3/8 in; 60 1/4 in", "heights": "72 in"},
        "Borders to size": {"target_width": "70 in", "target_height": "84 in", "how_many": how_many},
    }
    project = Project()
    for fabric in ("Inner border", "Outer border", "Binding"):
        project = add_fabric(project, fabric)
    for name, calculator, givens in start.tabs:
        project = add_tab(project, name, calculator, {**givens, **said.get(name, {})})
    book = Workbook(HereOnly(plugin.boltend_calculators(), []), project)
    told = [line for line in caution_lines(book.result("Borders")) if "is wanted" in line]
    assert bool(told) == (how_many == 3)
    if how_many == 2:
        height = book.result("Borders").found["height"]
        assert isinstance(height, int | Fraction)
        assert height >= 84
