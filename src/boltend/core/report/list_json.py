"""To cut and To buy as JSON. Every row has the same keys; what it lacks is null."""

from fractions import Fraction
from typing import Any

from boltend.core.cutting import CutStep, Kind, Leftover, cut_order
from boltend.core.pool import FabricPlan, GoodsLine, Lists
from boltend.core.pool.printed import Printed
from boltend.core.report.list_words import list_notes
from boltend.core.values import KINDS, Notation, Price


def lists_json(lists: Lists, how: Notation) -> dict[str, Any]:
    """`to_cut`, `to_buy`, the `total`, and `list_notes`: what the lists rest on and leave out."""
    return {
        "to_cut": [_to_cut(fabric, how) for fabric in lists.fabrics],
        "to_buy": [*(_fabric(f, how) for f in lists.fabrics), *(_goods(line, how) for line in lists.goods)],
        "total": _price(lists.total, how),
        "list_notes": list(list_notes(lists)),
    }


def _to_cut(fabric: FabricPlan, how: Notation) -> dict[str, Any]:
    plan = fabric.plan
    steps = cut_order(plan, fabric.cloth.squaring) if plan else []
    return {
        "fabric": fabric.cloth.name if fabric.named else None,
        "heap": fabric.cloth.name,
        "form": fabric.cloth.precut.name if fabric.cloth.precut else "bolt",
        "usable_width": None if fabric.cloth.precut else _length(fabric.cloth.usable, how),
        "layers": fabric.cloth.settings.layers,
        "pieces": [p for kind in (plan.kinds if plan else ()) for p in _pieces(fabric, kind, how)],
        "steps": [_step(step, how) for step in steps],
        "leftovers": [_leftover(each, how) for each in (plan.leftovers if plan else ())],
        "goal": plan.goal if plan else None,
        "answer": _amount(plan.goal, plan.answer, how) if plan else None,
        "bound": _amount(plan.goal, plan.bound, how) if plan else None,
        "proved": plan.proved if plan else False,
        "notes": [*fabric.demand.notes, *(plan.notes if plan else ())],
        "troubles": list(fabric.troubles),
    }  # fmt: skip


def _pieces(fabric: FabricPlan, kind: Kind, how: Notation) -> list[dict[str, Any]]:
    uses = [(fabric.demand.uses[name], count) for name, count in kind.shares]
    size = {"across": _length(kind.across, how), "along": _length(kind.along, how)}
    return [
        {"tab": u.tab, "name": u.name, **size, "count": count, "made_from": u.made_from, "of_a_run": u.run}
        for u, count in uses
    ]


def _leftover(left: Leftover, how: Notation) -> dict[str, Any]:
    size = {"across": _length(left.across, how), "along": _length(left.along, how)}
    return {"cloth": left.name, **size, "count": left.count}


def _step(step: CutStep, how: Notation) -> dict[str, Any]:
    return {
        "kind": step.kind, "cloth": step.stock, "count": step.count,
        "size": _length(step.size, how) if step.size else None, "direction": step.direction,
        "part": step.part or None, "across": _maybe(step.across, how), "along": _maybe(step.along, how),
        "pieces": step.pieces,
    }  # fmt: skip


def _fabric(fabric: FabricPlan, how: Notation) -> dict[str, Any]:
    cloth, buy, planned = fabric.cloth, fabric.buy, fabric.plan is not None
    precut = cloth.precut is not None
    return _row(
        what="fabric",
        name=cloth.name,
        named=fabric.named,
        length=_length(buy.length, how) if planned and not precut else None,
        needed=_length(buy.needed, how) if planned and not precut else None,
        separate=_length(fabric.separate, how) if planned and not precut else None,
        have_used=_length(buy.have_used, how) if planned and not precut else None,
        packs=buy.packs if planned and precut else None,
        pieces=buy.pieces if planned and precut else None,
        have_used_pieces=int(buy.have_used) if planned and precut else None,
        price=_price(cloth.price, how),
        cost=_price(buy.cost, how),
        printed=_printed(fabric.printed, how),
    )


def _goods(line: GoodsLine, how: Notation) -> dict[str, Any]:
    return _row(
        what="goods",
        name=line.goods.name,
        tab=line.tab,
        amount=KINDS["number"].to_json(Fraction(line.goods.amount), how),
        unit=line.goods.unit,
        price=_price(line.goods.price_each, how),
        cost=_price(line.cost, how),
    )


KEYS = ("what", "name", "named", "tab", "length", "needed", "separate", "have_used", "packs", "pieces",
        "have_used_pieces", "amount", "unit", "price", "cost", "printed")  # fmt: skip


def _row(**cells: object) -> dict[str, Any]:
    return {key: cells.get(key) for key in KEYS}


def _printed(printed: Printed | None, how: Notation) -> dict[str, Any] | None:
    if printed is None:
        return None
    return {
        "length": _length(printed.length, how),
        "verdict": printed.verdict,
        "by": _length(printed.by, how),
        "would_do_at": _maybe(printed.would_do, how),
    }


def _amount(goal: str, amount: Fraction, how: Notation) -> Any:
    return _length(amount, how) if goal == "length" else int(amount)


def _maybe(inches: Fraction | None, how: Notation) -> Any:
    return None if inches is None else _length(inches, how)


def _length(inches: Fraction, how: Notation) -> Any:
    return KINDS["length"].to_json(inches, how)


def _price(price: Price | None, how: Notation) -> Any:
    return None if price is None else KINDS["price"].to_json(price, how)
