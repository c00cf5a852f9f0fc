"""`plan(demand, stock, job)`: the one interface to the engine, whichever solver stands behind it."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from boltend.core.cutting.bound import length_bound, sheets_bound
from boltend.core.cutting.check import check_plan
from boltend.core.cutting.convert import Converted, convert, sheetplan
from boltend.core.cutting.engine import EFFORT, Task, Used, solve
from boltend.core.cutting.guillotine import Piece, most_pieces
from boltend.core.cutting.leftovers import leftovers_of
from boltend.core.cutting.plans import NOT_ENOUGH, Plan, Unplaced
from boltend.core.cutting.shapes import Bolt, Job, Part, Sheet, Stock
from boltend.core.cutting.sheets import pieces
from boltend.core.cutting.task import Size, options


def plan(
    demand: Sequence[Part],
    stock: Stock,
    job: Job | None = None,
    *,
    stacks: bool = True,
    effort: int = EFFORT,
) -> Plan:
    """Cut `demand` from `stock`: what is in hand first, in its order, then the endless bolt.

    The same input always gives the same plan. With `stacks` a strip may hold equal pieces above each other (a
    third cut); without, pieces lie side by side only, and a narrower piece is trimmed. `job` hears of a first
    plan at once and may stop the search, which then answers with the best so far. `effort` stands for time
    (0: level heuristics only). Raises `PlanError` only if the engine itself is wrong: every plan is checked.
    """
    made = convert(demand, stock)
    if job is not None:
        first = finish(demand, stock, made, solved(made, stacks, 0), stacks)
        job.better(first, first.bound)
    task = Task(list(made.sizes), list(made.cloths), made.run, stacks, effort, job)
    used = solve(task, [size.wanted for size in made.sizes])
    found = finish(demand, stock, made, used, stacks)
    found = replace(found, stopped=task.stopped and not found.proved)
    if job is not None:
        job.better(found, found.bound)
    return found


def solved(made: Converted, stacks: bool, effort: int) -> list[Used]:
    """Solve a task in whole numbers with so much effort."""
    task = Task(list(made.sizes), list(made.cloths), made.run, stacks, effort)
    return solve(task, [size.wanted for size in made.sizes])


def finish(demand: Sequence[Part], stock: Stock, made: Converted, used: Sequence[Used], stacks: bool) -> Plan:
    """Give cuts in whole numbers as a checked plan in inches, with its bound, leftovers and notes."""
    sheetplans = tuple(sheetplan(index, cut, stock, made) for index, cut in used)
    goal = goal_of(stock)
    bound = _bound(made, goal)
    draft = Plan(
        tuple(demand),
        stock,
        sheetplans,
        made.kinds,
        goal,
        bound,
        False,
        leftovers_of(sheetplans),
        _unplaced(demand, made, used),
        _notes(made),
        stacks=stacks,
        exact=made.grid.exact,
    )
    found = replace(draft, proved=draft.answer == bound and not draft.lacking)
    check_plan(found, demand, stock)
    return found


def goal_of(stock: Stock) -> Literal["length", "sheets", "area"]:
    """Tell what a plan from this stock makes small."""
    if stock.bolt is not None:
        return "length"
    sizes = {
        (item.across, item.along) for item in stock.sheets if isinstance(item, Sheet) and item.count != 0
    }
    pieces = sum(1 for item in stock.sheets if isinstance(item, Bolt))
    return "sheets" if len(sizes) + pieces <= 1 else "area"


KINDS_BY_YIELD = 6


def _notes(made: Converted) -> tuple[str, ...]:
    if made.grid.exact:
        return ()
    step = "1/64 in" if made.grid.unit == Fraction(1, 64) else "0.1 mm"
    return (f"sizes with too fine a common step: pieces are rounded up and cloth down to {step}",)


def _fits_cloth(size: Size, made: Converted) -> bool:
    return any(
        cloth.copies != 0 and bool(options([size._replace(wanted=1)], cloth.across, cloth.along, "across"))
        for cloth in made.cloths
    )


def _bound(made: Converted, goal: str) -> Fraction:
    """Bound what the plan makes small; pieces that fit nothing are left out of it."""
    in_hand = [_fits_cloth(size, made) for size in made.sizes]
    if goal == "sheets":
        left = [size.wanted if fits else 0 for size, fits in zip(made.sizes, in_hand, strict=True)]
        kept = [(cloth.across, cloth.along, cloth.copies) for cloth in made.cloths if cloth.copies != 0]
        least = sheets_bound(made.sizes, left, kept)
        return Fraction(max(least, _by_yield(made.sizes, left, kept)))
    if goal == "area":
        fits = zip(made.sizes, in_hand, strict=True)
        area = sum(size.across * size.along * size.wanted for size, fit in fits if fit)
        return area * made.grid.unit**2
    ways = Task(list(made.sizes), [], made.run, True).bolt_ways()
    on_bolt = [size.wanted if ways[kind] else 0 for kind, size in enumerate(made.sizes)]
    only_bolt = [0 if fits else count for count, fits in zip(on_bolt, in_hand, strict=True)]
    run = made.run or 1
    least = length_bound(ways, only_bolt, run)
    if all(cloth.copies is not None for cloth in made.cloths):
        area = sum(cloth.across * cloth.along * (cloth.copies or 0) for cloth in made.cloths)
        least = max(least, length_bound(ways, on_bolt, run, area))
    return made.grid.inches(least)


def _by_yield(
    sizes: Sequence[Size], left: Sequence[int], sheets: Sequence[tuple[int, int, int | None]]
) -> int:
    """Bound the sheets of one size by the most pieces of each kind that one sheet can give."""
    if len({sheet[:2] for sheet in sheets}) != 1 or len(sizes) > KINDS_BY_YIELD:
        return 0
    across, along, _ = sheets[0]
    most = 0
    for size, count in zip(sizes, left, strict=True):
        node, proved = most_pieces(Piece(size.across, size.along, size.may_turn), across, along)
        if count and proved:
            most = max(most, -(-count // node.pieces))
    return most


def _unplaced(demand: Sequence[Part], made: Converted, used: Sequence[Used]) -> tuple[Unplaced, ...]:
    lacking = [size.wanted for size in made.sizes]
    for _, cut in used:
        for kind, count in pieces(cut).items():
            lacking[kind] -= count * cut.copies
    found = []
    for kind, lack in enumerate(lacking):
        why = _why(made.sizes[kind], made)
        # The first parts are served first, as in `Plan.placements`.
        for place in reversed(made.kinds[kind].members):
            short = min(lack, demand[place].count)
            if short > 0:
                found.append(Unplaced(demand[place], short, why))
                lack -= short
    return tuple(sorted(found, key=lambda each: list(demand).index(each.part)))


def _why(size: Size, made: Converted) -> str:
    if made.run is None and not any(cloth.copies != 0 for cloth in made.cloths):
        return "there is no cloth"
    if _fits_cloth(size, made):
        return NOT_ENOUGH
    turns = size.may_turn and size.across != size.along
    if made.run is None:
        return "larger than the cloth" + (" in both directions" if turns else "")
    if turns:
        return "wider than the cloth in both directions"
    return "wider than the cloth" + ("" if size.across == size.along else ", and it may not turn")
