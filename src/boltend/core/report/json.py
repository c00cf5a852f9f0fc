"""A project as JSON. Keys never change their form from one run to another."""

import json
from collections.abc import Sequence
from typing import Any

from boltend.core.contract import CalculatorSpec, FoundSpec, GivenSpec, Goods, Piece, Run
from boltend.core.flow import Result, Workbook
from boltend.core.project.model import Tab
from boltend.core.report.words import caution_lines, first_lines, working_lines
from boltend.core.values import KINDS, Notation, is_unseen


def dump(data: object) -> str:
    """The text of a JSON document."""
    text = json.dumps(data, indent=2, ensure_ascii=False)
    # What does not show as itself (a control or direction mark) could only have come from inside a string.
    return "".join(_escaped(c) if c != "\n" and is_unseen(c) else c for c in text) + "\n"


def _escaped(character: str) -> str:
    return json.dumps(character)[1:-1]


def project_json(book: Workbook, tabs: Sequence[Tab]) -> dict[str, Any]:
    """A project with these tabs."""
    settings = book.basis.settings
    units = "centimetres" if settings.system == "cm" else "inches"
    return {
        "project": {"name": book.project.name, "units": units, "currency": settings.currency},
        "tabs": [
            {
                "name": tab.name,
                "calculator": tab.calculator,
                **_state(book.results[tab.key]),
                **result_json(book.results[tab.key]),
            }
            for tab in tabs
        ],
    }


def _state(result: Result) -> dict[str, Any]:
    return {"state": result.state, "why": list(result.reasons)}


def result_json(result: Result) -> dict[str, Any]:
    """What went in and what came out; founds of a tab that is not worked out are null."""
    spec, how, answer = result.spec, result.settings.notation, result.answer
    return {
        "given": {g.name: _value(g, result.args.get(g.name), how) for g in spec.givens} if spec else {},
        "found": {f.name: _found(f, result, how) for f in spec.founds} if spec else {},
        "working": working_lines(result),
        "pieces": [_piece(p, how) for p in answer.pieces] if answer else [],
        "runs": [_run(r, how) for r in answer.runs] if answer else [],
        "goods": [_goods(g, how) for g in answer.goods] if answer else [],
        "first": first_lines(result),
        "cautions": caution_lines(result),
    }


def _found(spec: FoundSpec, result: Result, how: Notation) -> Any:
    return _value(spec, result.found.get(spec.name), how, result.unrounded.get(spec.name))


def _rows(spec: GivenSpec | FoundSpec, rows: Any, how: Notation, unrounded: Any) -> list[dict[str, Any]]:
    before = unrounded if unrounded is not None else ({},) * len(rows)
    return [
        {c.name: _value(c, row.get(c.name), how, was.get(c.name)) for c in spec.columns}
        for row, was in zip(rows, before, strict=True)
    ]


def _value(spec: GivenSpec | FoundSpec, value: Any, how: Notation, unrounded: Any = None) -> Any:
    if value is None:
        return None
    if spec.kind == "rows":
        return _rows(spec, value, how, unrounded)
    said = spec.reader.to_json(value, how, spec.unit, unrounded if spec.is_length else None)
    return (
        {**said, "exact": False} if spec.is_length and isinstance(spec, FoundSpec) and spec.bounded else said
    )


def _length(kind: str, value: object, how: Notation) -> Any:
    return KINDS[kind].to_json(value, how)


def _piece(piece: Piece, how: Notation) -> dict[str, Any]:
    return {
        "name": piece.name,
        "across": _length("cut", piece.across, how),
        "along": _length("cut", piece.along, how),
        "count": piece.count,
        "fabric": piece.fabric,
        "grain": piece.grain,
        "made_from": piece.made_from,
        "may_turn": piece.may_turn,
    }


def _run(run: Run, how: Notation) -> dict[str, Any]:
    return {
        "name": run.name,
        "width": _length("cut", run.width, how),
        "wants": [_length("cut", want, how) for want in run.wants],
        "join": run.join,
        "grain": run.grain,
        "fabric": run.fabric,
    }


def _goods(goods: Goods, how: Notation) -> dict[str, Any]:
    price = goods.price_each
    return {
        "name": goods.name,
        "amount": KINDS["number"].to_json(goods.amount, how),
        "unit": goods.unit,
        "part": None if goods.part is None else KINDS["number"].to_json(goods.part, how),
        "price_each": None if price is None else KINDS["price"].to_json(price, how),
    }


def schema_json(spec: CalculatorSpec) -> dict[str, Any]:
    """What `boltend calculators NAME --as json` prints: each given and found, and all that is known of it."""
    return {
        "calculator": spec.name,
        "asks": spec.asks,
        "plugin": spec.plugin,
        "distribution": spec.distribution,
        "contract": spec.contract,
        "searches": spec.searches,
        "help": spec.help,
        "given": [_given_schema(g) for g in spec.givens],
        "found": [_found_schema(f) for f in spec.founds],
    }


def _given_schema(spec: GivenSpec) -> dict[str, Any]:
    return {
        "name": spec.name, "kind": spec.kind, "label": spec.label, "unit": spec.unit, "help": spec.help,
        "default": spec.default, "metric_default": spec.metric_default, "required": spec.required,
        "least": spec.least, "most": spec.most, "step": spec.step.describe() if spec.step else None,
        "choices": list(spec.options), "table": spec.table, "setting": spec.setting,
        "example": list(spec.example), "empty": spec.empty, "meanings": dict(spec.meanings),
        "columns": [_given_schema(c) for c in spec.columns],
    }  # fmt: skip


def _found_schema(spec: FoundSpec) -> dict[str, Any]:
    return {
        "name": spec.name, "kind": spec.kind, "label": spec.label, "unit": spec.unit, "help": spec.help,
        "direction": spec.direction or None, "step": spec.step.describe() if spec.step else None,
        "grows_with": list(spec.grows_with), "bounded": spec.bounded, "choices": list(spec.options),
        "empty": spec.empty, "columns": [_found_schema(c) for c in spec.columns],
    }  # fmt: skip
