"""Filling a tab's links from the results of the tabs that feed it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from boltend.core.contract import SETTING_KINDS, Line, Settings
from boltend.core.flow.basis import setting_trouble
from boltend.core.flow.givens import out_of_limits
from boltend.core.flow.nodes import Node, Wire
from boltend.core.flow.results import Result, Trouble


@dataclass(frozen=True, slots=True)
class Filled:
    """All that a calculator gets, with a note for each value that changed on its way."""

    args: dict[str, Any]
    settings: Settings
    notes: tuple[Line, ...]


def fill(node: Node, results: Mapping[int, Result], names: Mapping[int, str]) -> Filled | Trouble:
    """The arguments of a tab whose sources are all worked out, or why a value cannot be used."""
    prepared = node.prepared
    assert prepared is not None
    args, settings = dict(prepared.constants), prepared.settings
    if not node.wires:
        return Filled(args, settings, ())
    notes: list[Line] = []
    own: dict[str, Any] = {}
    for wire in node.wires:
        value, trouble = _carry(wire, results, names, settings, notes)
        if trouble is not None:
            return trouble
        _place(args, wire, value)
        if wire.slot.given in SETTING_KINDS:
            own[wire.slot.given] = value
    if own:
        settings = replace(settings, **own)
    return Filled(args, settings, tuple(notes))


def _carry(
    wire: Wire, results: Mapping[int, Result], names: Mapping[int, str], settings: Settings, notes: list[Line]
) -> tuple[Any, Trouble | None]:
    slot, spec = wire.slot, wire.slot.spec
    if wire.fit.misfit:
        why = f"{spec.label}: “{names[wire.source]}” · {wire.found.label}: {wire.fit.misfit}."
        return None, Trouble(why, "Link to another found, or type the value.", slot.given)
    before = results[wire.source].found[wire.found.name]
    if before is None:
        why = f"{spec.label}: “{names[wire.source]}” finds no {wire.found.label.lower()} as it stands."
        return None, Trouble(why, "Its cautions say why.", slot.given)
    value = wire.fit.convert(before, settings) if wire.fit.convert else before
    if wire.fit.note is not None:
        notes.append(wire.fit.note(spec.label, names[wire.source], before, value))
    problem = out_of_limits(spec, value, settings.notation) if spec.least or spec.most else ""
    if not problem and spec.setting:
        problem = setting_trouble(spec.name, value)
    if not problem and spec.kind == "finished" and _nothing_left(before, value):
        problem = "nothing is left of it once its seams are taken off."
    if problem:
        return None, Trouble(f"{spec.label}: from “{names[wire.source]}”: {problem}", "", slot.given)
    return value, None


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
