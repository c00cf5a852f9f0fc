"""A plan for more pieces serves for fewer: the same cuts, with the surplus left out."""

from collections.abc import Sequence

from boltend.core.cutting.convert import common_grid, convert, cuts_of
from boltend.core.cutting.engine import Used
from boltend.core.cutting.planner import finish
from boltend.core.cutting.plans import Plan
from boltend.core.cutting.pooling import rank
from boltend.core.cutting.sheets import Cut, pieces
from boltend.core.cutting.task import Level, merged
from boltend.core.cutting.trim import trim_levels


def at_least(small: Plan, big: Plan) -> Plan:
    """Give the better plan for `small`'s demand: its own, or `big`'s with the surplus left out.

    A heuristic can cut more pieces from less cloth than fewer. Whoever sets two such plans side by side (a
    part added to a project, a ladder of sizes) takes this one for the fewer: it needs at most what `big`
    needs, so more pieces never take less cloth. `big` must be a plan from the same stock for the same parts
    or more; raises `ValueError` where it is not. Where `big` itself cuts too few, `small` is given back.
    """
    if small.stock != big.stock:
        raise ValueError("the two plans are cut from different stock")
    wanted = {kind.size: (number, kind.count) for number, kind in enumerate(small.kinds)}
    have = {kind.size: kind for kind in big.kinds}
    for size, (number, count) in wanted.items():
        if size not in have or have[size].count < count:
            raise ValueError(f"the larger plan has fewer of {small.kinds[number].label} than the smaller one")
    if small.proved or any(big.cut_counts[have[size].label] < count for size, (_, count) in wanted.items()):
        return small
    grid = common_grid([*small.demand, *big.demand], small.stock)
    if not (grid.exact and small.exact and big.exact):
        return small
    # On the larger plan's grid the smaller demand has the same kinds, in finer units.
    made = convert(small.demand, small.stock, grid)
    numbers = [wanted[kind.size][0] if kind.size in wanted else -1 for kind in big.kinds]
    surplus = [big.cut_counts[kind.label] - wanted.get(kind.size, (0, 0))[1] for kind in big.kinds]
    used = _trimmed(cuts_of(big, convert(big.demand, big.stock, grid)), surplus, numbers)
    return min(small, finish(small.demand, small.stock, made, used, small.stacks), key=rank)


def _trimmed(
    cuts: Sequence[tuple[int | None, Cut]], surplus: Sequence[int], numbers: Sequence[int]
) -> list[Used]:
    """Leave the surplus out of the bolt first, since that is bought, then whole sheets."""
    spare = list(surplus)
    bolt: list[Used] = []
    for index, cut in cuts:
        if index is None:
            levels = trim_levels(cut.levels, spare)
            kept = cut._replace(levels=tuple(levels))
            for kind, count in pieces(cut).items():
                spare[kind] -= count - pieces(kept).get(kind, 0)
            bolt += [Used(None, _renumbered(kept, numbers))] if levels else []
    sheets: list[Used] = []
    for index, cut in cuts:
        if index is not None:
            sheets += _fewer_sheets(index, cut, spare, numbers)
    return sheets + bolt


def _fewer_sheets(index: int, cut: Cut, spare: list[int], numbers: Sequence[int]) -> list[Used]:
    """Leave out sheets that hold nothing but surplus, and kinds not wanted at all; other pieces are spare."""
    counts = pieces(cut)
    gone = min(cut.copies, *(spare[kind] // count for kind, count in counts.items()))
    for kind, count in counts.items():
        spare[kind] -= gone * count
    kept = _renumbered(cut._replace(copies=cut.copies - gone), numbers)
    return [Used(index, kept)] if kept.copies and kept.levels else []


def _renumbered(cut: Cut, numbers: Sequence[int]) -> Cut:
    """Number the kinds as the smaller demand does, without those that it does not know."""
    levels = []
    for level in cut.levels:
        columns = tuple(c._replace(kind=numbers[c.kind]) for c in level.columns if numbers[c.kind] >= 0)
        if columns:
            width = max(column.above * column.high for column in columns)
            levels.append(Level(width, columns, level.times))
    return cut._replace(levels=tuple(merged(levels)))
