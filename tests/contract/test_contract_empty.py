"""A found that is empty because nobody asked for it: told to who links to it, and to nobody else."""

from typing import Any

import pytest

from boltend.core.flow import Workbook
from boltend.core.host.soundness import calculator_problem
from boltend.core.project.model import project_from_plain
from boltend.core.report.json import schema_json
from boltend.plugin import Answer, Count, calculator, found, given, line
from boltend.testing import work
from boltend.testing.worked import HereOnly

WHY = "Say how many spares you want."


def spares(empty: str = WHY) -> Any:
    class Found:
        spare: Count | None = found("Spares", empty=empty)

    @calculator("spares", asks="How many spares?", found=Found)
    def spares(wanted: Count | None = given("Wanted")) -> Answer:
        """As many as are wanted."""
        return Answer(found={"spare": wanted}, working=[line("As wanted.")])

    return spares


def test_it_needs_no_caution_and_stands_in_the_schema() -> None:
    assert work(spares()).found["spare"] is None
    with pytest.raises(AssertionError, match=r"spare: no value, and neither a caution nor empty= says why\."):
        work(spares(""))
    assert schema_json(spares().spec)["found"][0]["empty"] == WHY


def test_who_links_to_it_is_told_why() -> None:
    plain = {
        "boltend": 1,
        "tab": [
            {"name": "A", "calculator": "spares"},
            {"name": "B", "calculator": "spares", "given": {"wanted": {"from": "A", "take": "spare"}}},
        ],
    }
    book = Workbook(HereOnly([spares()], ()), project_from_plain(plain))
    assert book.result("B").why == f"Wanted: “A” finds no spares as it stands. {WHY}"
    (trouble,) = Workbook(HereOnly([spares("")], ()), project_from_plain(plain)).result("B").troubles
    assert trouble.way_out == "The cautions of “A” say why."


def test_its_reason_is_a_text_that_steers_no_terminal() -> None:
    assert "its empty" in str(calculator_problem(spares("\x1b[2J").spec, deep=False))
    assert "its empty" in str(calculator_problem(spares(3).spec, deep=False))  # type: ignore[arg-type]
