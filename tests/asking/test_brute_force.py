"""Backwards over the whole quilts, against every value of the range worked out in a project of its own."""

from fractions import Fraction
from typing import Any

import pytest

from boltend.core.asking import back, read_wish
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.edits import set_cell, set_given
from boltend.core.project.reading import read_bytes
from boltend_shared.examples import path

QUILTS: dict[str, dict[str, Any]] = {
    "lantern-row": {
        "tab": "Borders", "given": "borders.2.width", "least": "1/4 in", "most": "9 in",
        "take": {"from": "Binding", "take": "length"},
    },
    "tidewater": {
        "tab": "Window bed", "given": "drop", "least": "8 in", "most": "20 in",
        "take": {"from": "Shoreline", "take": "width"},
    },
    "short-measure": {
        "tab": "Swap set", "given": "sash", "least": "1/2 in", "most": "3 in",
        "take": {"from": "Will it fit", "take": "repeats_across"},
    },
}  # fmt: skip


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


@pytest.mark.parametrize("name", list(QUILTS))
def test_every_value_of_a_whole_quilt(host: Host, name: str) -> None:
    asked = QUILTS[name]
    project = read_bytes(path(name).read_bytes(), f"{name}.toml").project
    book, key = Workbook(host, project), project.tab(asked["tab"]).key
    wish = read_wish(book, {**asked, "wanted": "1"})
    known: list[tuple[Fraction, Fraction | None]] = []
    for n in range(wish.of):
        value = wish.least + n * wish.step
        given, *cell = asked["given"].split(".")
        if cell:
            changed = set_cell(project, key, given, int(cell[0]) - 1, cell[1], f"{value} in")
        else:
            changed = set_given(project, key, given, f"{value} in")
        result = Workbook(host, changed).result(asked["take"]["from"])
        found = result.found.get(asked["take"]["take"]) if result.answer is not None else None
        known.append((value, None if found is None else Fraction(found)))  # type: ignore[arg-type]  # a number
    amounts = sorted({amount for _, amount in known if amount is not None})
    assert len(amounts) > 3
    between = (amounts[1] + amounts[2]) / 2
    for wanted in (amounts[len(amounts) // 2], between, amounts[-1] + 1):
        for reach, holds in {
            "at least": Fraction.__ge__, "at most": Fraction.__le__, "exactly": Fraction.__eq__,
        }.items():  # fmt: skip
            unit = " in" if wish.take.found is not None and wish.take.found.is_length else ""
            if not unit and wanted.denominator > 1:
                continue
            told = back(book, read_wish(book, {**asked, "wanted": f"{wanted}{unit}", "reach": reach}))
            hits = [value for value, amount in known if amount is not None and holds(amount, wanted)]
            assert [one.value for one in told.hits] == hits
            assert told.whole
            if not hits:
                far = sorted((abs(amount - wanted), value) for value, amount in known if amount is not None)
                assert [one.value for one in told.misses] == [value for _, value in far[:3]]
