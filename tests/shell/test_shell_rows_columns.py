"""Labels and heads of columns of every built-in calculator are whole, down to the narrowest form."""

import pytest

from boltend.core.contract import GivenSpec
from boltend.core.host import Host
from boltend.shell.form import LABELS
from boltend.shell.rows_columns import columns_in, head_lines

GRIDS: dict[str, tuple[GivenSpec, ...]] = {}
SINGLE: dict[str, str] = {}

with Host.load() as _host:
    for _spec in _host.specs.values():
        for _given in _spec.givens:
            if _given.columns:
                GRIDS[f"{_spec.name}.{_given.name}"] = _given.columns
            else:
                SINGLE[f"{_spec.name}.{_given.name}"] = _given.label


def test_no_label_of_a_given_is_clipped() -> None:
    assert {name: label for name, label in SINGLE.items() if len(label) > LABELS[1]} == {}


@pytest.mark.parametrize("room", [29, 51, 69, 110])
@pytest.mark.parametrize("name", GRIDS)
def test_heads_are_whole_and_columns_apart(name: str, room: int) -> None:
    lines = columns_in(GRIDS[name], room)
    assert [column.spec for line in lines for column in line] == list(GRIDS[name])
    for line in lines:
        assert head_lines(line) <= 3
        end = 0
        for column in line:
            assert " ".join(column.head) == column.spec.label
            assert all(len(part) <= column.width for part in column.head)
            assert column.x > end, "at least one cell between columns, for a mark"
            end = column.x + column.width
        assert end <= room or len(line) == 1


def test_there_are_grids_to_look_at() -> None:
    assert "borders.borders" in GRIDS
