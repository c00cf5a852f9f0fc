"""Filling a tab's links from the results of the tabs that feed it."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any, NamedTuple

from boltend.core.contract import SETTING_KINDS, GivenSpec, Line, Settings
from boltend.core.flow.basis import Basis, setting_trouble
from boltend.core.flow.givens import default_value, known_fabric, out_of_limits
from boltend.core.flow.nodes import Node, Wire
from boltend.core.flow.results import Result, Trouble


class Filled(NamedTuple):
    """All that a calculator gets, with a note for each value that changed on its way."""

    args: dict[str, Any]
    settings: Settings
    notes: tuple[Line, ...]


def fill(
    node: Node, results: Mapping[int, Result], names: Mapping[int, str], basis: Basis
) -> Filled | Trouble:
    """The arguments of a tab whose sources are all worked out, or why a value cannot be used."""
    prepared = node.prepared
    assert prepared is not None  # a tab without a calculator never gets here
    args, settings = dict(prepared.constants), prepared.settings
    if not node.wires:
        return Filled(args, settings, ())
    notes: list[Line] = []
    own: dict[str, Any] = {}
    for wire in node.wires:
        value, trouble = _carry(wire, results, names, basis, notes)
        if trouble is not None:
            return trouble
        _place(args, wire, value)
        if wire.slot.given in SETTING_KINDS:
            own[wire.slot.given] = value
    if own:
        plain = settings.plain and replace(settings.plain, **own)
        settings = replace(settings, plain=plain, **own)
    return Filled(args, settings, tuple(notes))


def _carry(
    wire: Wire, results: Mapping[int, Result], names: Mapping[int, str], basis: Basis, notes: list[Line]
) -> tuple[Any, Trouble | None]:
    slot, source = wire.slot, names[wire.source]
    before = results[wire.source].found[wire.found.name]
    if before is None:
        why = f"{slot.place}: “{source}” finds no {wire.found.label.lower()} as it stands."
        way_out = wire.found.empty or f"The cautions of “{source}” say why."
        return None, Trouble(why, way_out, slot.given)
    try:
        # The project's seam, as for a typed `12 1/2 in cut`: a link and a typed value agree.
        value = wire.fit.convert(before, basis.settings) if wire.fit.convert else before
        value, problem = _checked(slot.spec, value, basis)
    except ValueError as error:  # a rate of another sort, a fabric that the project does not have
        value, problem = before, str(error)
    if not problem and slot.spec.kind == "finished" and _nothing_left(before, value):
        problem = "nothing is left of it once its seams are taken off."
    if problem:
        way_out = f"Change it in “{source}”, link to another found, or type the value."
        return None, Trouble(f"{slot.place}: from “{source}”: {problem}", way_out, slot.given)
    if wire.fit.note is not None:
        notes.append(wire.fit.note(slot.place, source, before, value))
    return value, None


def _checked(spec: GivenSpec, value: Any, basis: Basis) -> tuple[Any, str]:
    """A linked value held against the same limits as a typed one: the value, and what is wrong with it."""
    if spec.kind == "rows":
        return _checked_rows(spec, value, basis)
    if spec.kind == "fabric":
        return known_fabric(value, basis), ""
    problem = out_of_limits(spec, value, basis.how)
    if not problem and spec.setting and (said := setting_trouble(spec.name, value)):
        problem = f"{spec.reader.show(value, basis.how, spec.unit)}: {said}."
    return value, problem


def _checked_rows(
    spec: GivenSpec, rows: tuple[Mapping[str, Any], ...], basis: Basis
) -> tuple[tuple[dict[str, Any], ...], str]:
    """Rows of another tab with every column of this one: what they lack takes its default."""
    done: list[dict[str, Any]] = []
    for number, row in enumerate(rows, 1):
        cells: dict[str, Any] = {}
        for column in spec.columns:
            value = row.get(column.name)
            value = default_value(column, basis.how) if value is None else value
            if value is None and not column.optional:
                return (), f"its row {number} has no {column.label.lower()}."
            value, problem = (None, "") if value is None else _checked(column, value, basis)
            if problem:
                return (), f"row {number}, {column.label}: {problem}"
            cells[column.name] = value
        done.append(cells)
    return tuple(done), ""


def _nothing_left(before: object, value: object) -> bool:
    return isinstance(before, Fraction) and isinstance(value, Fraction) and value <= 0 < before


def _place(args: dict[str, Any], wire: Wire, value: Any) -> None:
    slot = wire.slot
    if slot.row < 0:
        args[slot.given] = value
        return
    rows = list(args[slot.given])
    rows[slot.row] = {**rows[slot.row], slot.spec.name: value}
    args[slot.given] = tuple(rows)
