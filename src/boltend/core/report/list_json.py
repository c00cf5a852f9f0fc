"""To cut and To buy as JSON. Every row has the same keys; what it lacks is null."""

from fractions import Fraction
from typing import Any

from boltend.core.cutting import Kind, Leftover, Plan, cut_order, stacks_of
from boltend.core.pool import FabricPlan, GoodsLine, Lists
from boltend.core.pool.printed import Printed
from boltend.core.report.list_words import fabric_troubles, first_steps, list_notes, plan_notes
from boltend.core.values import KINDS, Notation, Price


def lists_json(lists: Lists, how: Notation) -> dict[str, Any]:
    """`to_cut`, `to_buy`, the `total`, and `list_notes`: what the lists rest on and leave out.

    `first` is what is done before anything is cut.
    """
    return {
        "first": list(first_steps(lists, how)),
        "to_cut": [_to_cut(fabric, how) for fabric in lists.fabrics],
        "to_buy": [*(_fabric(f, how) for f in lists.fabrics), *(_goods(line, how) for line in lists.goods)],
        "total": _price(lists.total, how),
        "list_notes": list(list_notes(lists)),
    }


def _to_cut(fabric: FabricPlan, how: Notation) -> dict[str, Any]:
    plan, cloth = fabric.plan, fabric.cloth
    return {
        "fabric": cloth.name if fabric.named else None,
        "heap": cloth.name,
        "form": cloth.precut.name if cloth.precut else "bolt",
        "usable_width": None if cloth.precut else _length(cloth.usable, how),
        "squaring": _length(cloth.squaring, how),
        "layers": cloth.settings.layers,
        "pieces": [p for kind in (plan.kinds if plan else ()) for p in _pieces(fabric, kind, how)],
        "steps": _steps(fabric, plan, how) if plan else [],
        "leftovers": [_leftover(each, how) for each in (plan.leftovers if plan else ())],
        "goal": plan.goal if plan else None,
        "answer": _amount(plan.goal, plan.answer, how) if plan else None,
        "bound": _amount(plan.goal, plan.bound, how) if plan else None,
        "proved": plan.proved if plan else False,
        "buys_least": fabric.buy.least,
        "whole": fabric.whole,
        "notes": list(plan_notes(fabric, how)),
        "troubles": list(fabric_troubles(fabric, how)),
    }  # fmt: skip


def _pieces(fabric: FabricPlan, kind: Kind, how: Notation) -> list[dict[str, Any]]:
    """The parts of one size; `count` is what is wanted, `not_cut` what the plan leaves out of it."""
    lacking = {each.part.name: each.count for each in fabric.unplaced}
    size = {"across": _length(kind.across, how), "along": _length(kind.along, how)}
    found = []
    for name, count in kind.shares:
        use = fabric.demand.uses[name]
        found.append({"tab": use.tab, "name": use.name, **size, "count": count, "made_from": use.made_from,
                      "of_a_run": use.run, "not_cut": lacking.get(name, 0)})  # fmt: skip
    return found


def _leftover(left: Leftover, how: Notation) -> dict[str, Any]:
    size = {"across": _length(left.across, how), "along": _length(left.along, how)}
    return {"cloth": left.name, **size, "count": left.count}


def _steps(fabric: FabricPlan, plan: Plan, how: Notation) -> list[dict[str, Any]]:
    """The cutting order; `stacks` is how many stacks of at most `layers` are cut at once."""
    uses = {kind.label: [fabric.demand.uses[name] for name, _ in kind.shares] for kind in plan.kinds}
    found, copies = [], 1
    for step in cut_order(plan, fabric.cloth.squaring):
        copies = step.count if step.kind == "take" else copies
        layers = copies if step.kind == "take" or copies > 1 else step.count if step.kind == "strip" else 0
        stacked = step.kind in ("take", "strip") and not (step.kind == "take" and fabric.cloth.precut is None)
        found.append({
            "kind": step.kind, "cloth": step.stock, "count": step.count,
            "size": _length(step.size, how) if step.size else None, "direction": step.direction,
            "stacks": stacks_of(layers, fabric.cloth.settings.layers) if stacked else None,
            "uses": [{"tab": use.tab, "name": use.name} for use in uses.get(step.part, ())],
            "across": _maybe(step.across, how), "along": _maybe(step.along, how), "pieces": step.pieces,
        })  # fmt: skip
    return found


def _fabric(fabric: FabricPlan, how: Notation) -> dict[str, Any]:
    cloth, buy, planned = fabric.cloth, fabric.buy, fabric.plan is not None
    precut = cloth.precut is not None
    bolt = planned and not precut
    sheets = planned and precut
    return _row(
        what="fabric",
        name=cloth.name,
        named=fabric.named,
        length=_length(buy.length, how) if bolt else None,
        needed=_length(buy.needed, how) if bolt else None,
        separate=_length(fabric.separate, how) if bolt else None,
        have_used=_length(buy.have_used, how) if bolt else None,
        packs=buy.packs if sheets else None,
        pieces=buy.pieces if sheets else None,
        separate_pieces=int(fabric.separate) if sheets else None,
        have_used_pieces=int(buy.have_used) if sheets else None,
        price=_price(cloth.price, how),
        cost=_price(buy.cost, how) if buy.length or buy.packs else None,
        printed=_printed(fabric.printed, how),
        whole=fabric.whole,
    )


def _goods(line: GoodsLine, how: Notation) -> dict[str, Any]:
    return _row(
        what="goods",
        name=line.goods.name,
        tabs=list(line.tabs),
        amount=KINDS["number"].to_json(Fraction(line.goods.amount), how),
        unit=line.goods.unit,
        part=None if line.goods.part is None else KINDS["number"].to_json(line.goods.part, how),
        separate_amount=KINDS["number"].to_json(line.separate, how),
        price=_price(line.goods.price_each, how),
        cost=_price(line.cost, how),
        whole=True,
    )


KEYS = (
    "what", "name", "named", "tabs", "length", "needed", "separate", "have_used", "packs", "pieces",
    "separate_pieces", "have_used_pieces", "amount", "unit", "part",
    "separate_amount", "price", "cost", "printed", "whole",
)  # fmt: skip
"""The keys of every row of `to_buy`."""


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
        "tried_to": _maybe(printed.tried, how),
    }


def _amount(goal: str, amount: Fraction, how: Notation) -> Any:
    return _length(amount, how) if goal == "length" else int(amount)


def _maybe(inches: Fraction | None, how: Notation) -> Any:
    return None if inches is None else _length(inches, how)


def _length(inches: Fraction, how: Notation) -> Any:
    return KINDS["length"].to_json(inches, how)


def _price(price: Price | None, how: Notation) -> Any:
    return None if price is None else KINDS["price"].to_json(price, how)
