"""Plans of several groups together: never more cloth than the groups one by one."""

from collections.abc import Sequence

from boltend.core.cutting.convert import Converted, convert, cuts_of
from boltend.core.cutting.engine import EFFORT, Used
from boltend.core.cutting.planner import finish, plan
from boltend.core.cutting.plans import Plan
from boltend.core.cutting.proofs import Proof, prove
from boltend.core.cutting.shapes import Bolt, Job, Part, Sheet, Stock
from boltend.core.cutting.sheets import Cut
from boltend.core.cutting.task import Column, Level, merged


def rank(found: Plan) -> tuple[object, ...]:
    """Order plans: most pieces cut (by area), least to buy, then fewest strips unlike each other."""
    missing = sum(each.count * each.part.across * each.part.along for each in found.unplaced)
    sheets = sum(found.sheets_used.values())
    return (missing, found.answer, sheets, sum(len(each.strips) for each in found.sheetplans))


class _Quiet:
    """Passes on a wish to stop; plans of single groups are no plans of the whole."""

    def __init__(self, job: Job) -> None:
        self.job = job

    def stopped(self) -> bool:
        return self.job.stopped()

    def better(self, answer: object, bound: object) -> None:
        pass


def plan_pooled(
    groups: Sequence[Sequence[Part]],
    stock: Stock,
    job: Job | None = None,
    *,
    stacks: bool = True,
    effort: int = EFFORT,
    proof: Proof | None = None,
) -> Plan:
    """Cut all groups together: never more than the groups one after the other.

    The better of two plans: all parts at once, and each group by itself from what the groups before it left
    in hand, joined on one bolt. So the pooled length is at most the sum of the separate lengths (of plans
    as they are before a proof). With `proof` the better one is then improved and proved: see `prove`.
    """
    best = _better(groups, stock, job, stacks, effort)
    return best if proof is None else prove(best, job, proof)


def _better(
    groups: Sequence[Sequence[Part]], stock: Stock, job: Job | None, stacks: bool, effort: int
) -> Plan:
    demand = [part for group in groups for part in group]
    joint = plan(demand, stock, job, stacks=stacks, effort=effort)
    if joint.proved or sum(1 for group in groups if group) < 2:
        return joint
    apart = _joined(groups, demand, stock, job, stacks, effort)
    best = min(joint, apart, key=rank)
    if job is not None and best is apart:
        job.better(best, best.bound)
    return best


def _joined(
    groups: Sequence[Sequence[Part]],
    demand: Sequence[Part],
    stock: Stock,
    job: Job | None,
    stacks: bool,
    effort: int,
) -> Plan:
    made = convert(demand, stock)
    left, places = stock, list(range(len(stock.sheets)))
    quiet = None if job is None else _Quiet(job)
    used: list[Used] = []
    for group in groups:
        part = plan(group, left, quiet, stacks=stacks, effort=effort)
        moved = moved_to(part, made)
        used += [Used(None if index is None else places[index], cut) for index, cut in moved]
        left, kept = _less(left, part)
        places = [places[place] for place in kept]
    return finish(demand, stock, made, _tidied(used), stacks)


def moved_to(found: Plan, made: Converted) -> list[tuple[int | None, Cut]]:
    """Give a plan's cuts with the kinds numbered as in `made`."""
    there = {kind.size: n for n, kind in enumerate(made.kinds)}
    number = {place: there[kind.size] for place, kind in enumerate(found.kinds)}

    def renamed(column: Column) -> Column:
        return column._replace(kind=number[column.kind])

    return [
        (
            index,
            cut._replace(
                levels=tuple(
                    level._replace(columns=tuple(map(renamed, level.columns))) for level in cut.levels
                )
            ),
        )
        for index, cut in cuts_of(found, made)
    ]


def _less(stock: Stock, found: Plan) -> tuple[Stock, list[int]]:
    """Take off the stock what a plan cuts into; also tell which of its items are still there."""
    used = [0] * len(stock.sheets)
    for each in found.sheetplans:
        if each.index is not None:
            used[each.index] += each.copies
    items: list[Sheet | Bolt] = []
    kept: list[int] = []
    for place, (item, gone) in enumerate(zip(stock.sheets, used, strict=True)):
        if isinstance(item, Bolt):
            if gone:
                continue
            items.append(item)
        else:
            count = None if item.count is None else item.count - gone
            items.append(Sheet(item.name, item.across, item.along, count))
        kept.append(place)
    return Stock(tuple(items), stock.bolt), kept


def _tidied(used: Sequence[Used]) -> list[Used]:
    """Put the strips of the bolt together into one cut, after what is in hand."""
    strips: list[Level] = [level for index, cut in used if index is None for level in cut.levels]
    found = [each for each in used if each.place is not None]
    found.sort(key=lambda each: each.place or 0)
    return found + ([Used(None, Cut("across", tuple(merged(strips)), 1))] if strips else [])
