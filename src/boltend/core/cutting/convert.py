"""From inches to whole numbers and back."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from boltend.core.cutting.grid import Grid
from boltend.core.cutting.plans import Kind, Plan, Sheetplan, Stack, Strip, item_name
from boltend.core.cutting.shapes import Bolt, Direction, Part, Sheet, Stock
from boltend.core.cutting.sheets import Cloth, Cut
from boltend.core.cutting.task import Column, Level, Size, unstacked


@dataclass(frozen=True, slots=True)
class Converted:
    """A demand and a stock on their grid."""

    grid: Grid
    kinds: tuple[Kind, ...]
    sizes: tuple[Size, ...]
    cloths: tuple[Cloth, ...]
    run: int | None


def common_grid(demand: Sequence[Part], stock: Stock) -> Grid:
    """Find the grid of all pieces and all cloth."""
    lengths = [length for part in demand for length in (part.across, part.along)]
    return Grid.of([*lengths, *stock.lengths()])


def convert(demand: Sequence[Part], stock: Stock, grid: Grid | None = None) -> Converted:
    """Put equal sizes together and give everything in units of the common grid (or of a given one)."""
    grid = grid or common_grid(demand, stock)
    groups: dict[tuple[int, int, bool], list[int]] = {}
    for place, part in enumerate(demand):
        if part.count:
            across, along = grid.up(part.across), grid.up(part.along)
            # A piece that may turn is the same size either way round; a square is turned by nothing.
            turn = part.may_turn or across == along
            key = (min(across, along), max(across, along), True) if turn else (across, along, False)
            groups.setdefault(key, []).append(place)
    kinds = _kinds(demand, groups, grid)
    sizes = tuple(
        Size(grid.up(kind.across), grid.up(kind.along), kind.may_turn, kind.count) for kind in kinds
    )
    cloths = tuple(_cloth(item, grid) for item in stock.sheets)
    return Converted(grid, kinds, sizes, cloths, None if stock.bolt is None else grid.down(stock.bolt.width))


def _kinds(
    demand: Sequence[Part], groups: dict[tuple[int, int, bool], list[int]], grid: Grid
) -> tuple[Kind, ...]:
    labels: dict[str, int] = {}
    kinds = []
    for (_, _, may_turn), places in groups.items():
        first = demand[places[0]]
        across, along = grid.inches(grid.up(first.across)), grid.inches(grid.up(first.along))
        names = " + ".join(dict.fromkeys(demand[place].name for place in places))
        labels[names] = labels.get(names, 0) + 1
        label = names if labels[names] == 1 else f"{names} ({labels[names]})"
        shares = tuple((demand[place].name, demand[place].count) for place in places)
        kinds.append(Kind(label, across, along, may_turn, shares, tuple(places)))
    return tuple(kinds)


def _cloth(item: Sheet | Bolt, grid: Grid) -> Cloth:
    if isinstance(item, Sheet):
        return Cloth(grid.down(item.across), grid.down(item.along), item.count, ("across", "along"))
    # A piece of the bolt is cut as the bolt is: strips from selvage to selvage.
    return Cloth(grid.down(item.width), grid.down(item.length or Fraction(0)), 1, ("across",))


def sheetplan(index: int | None, cut: Cut, stock: Stock, made: Converted) -> Sheetplan:
    """Give one cut of one stock item back in inches, no strip wider than it need be."""
    strips = tuple(_strip(level, cut.direction, made) for level in unstacked(cut.levels))
    if index is None:
        bolt = stock.bolt
        if bolt is None or made.run is None:
            raise ValueError("a cut off the bolt, and no bolt in the stock")
        width = made.grid.inches(made.run)
        return Sheetplan(None, bolt.name or "bolt", bolt, width, None, cut.direction, strips, cut.copies)
    cloth, item = made.cloths[index], stock.sheets[index]
    across, along = made.grid.inches(cloth.across), made.grid.inches(cloth.along)
    return Sheetplan(index, item_name(item, index), item, across, along, cut.direction, strips, cut.copies)


def _strip(level: Level, direction: Direction, made: Converted) -> Strip:
    stacks = []
    for column in level.columns:
        across, along = (
            (column.beside, column.above) if direction == "across" else (column.above, column.beside)
        )
        size = made.sizes[column.kind]
        stacks.append(
            Stack(
                made.kinds[column.kind].label,
                made.grid.inches(across),
                made.grid.inches(along),
                column.high,
                (across, along) != (size.across, size.along),
                column.times,
            )
        )
    return Strip(made.grid.inches(level.width), tuple(stacks), level.times)


def cuts_of(plan: Plan, made: Converted) -> list[tuple[int | None, Cut]]:
    """Give a plan's cuts in whole numbers, on the grid of `made` (the plan's own, or a finer one)."""
    places = {kind.label: number for number, kind in enumerate(plan.kinds)}
    return [(each.index, _cut(each, places, made.grid)) for each in plan.sheetplans]


def _cut(each: Sheetplan, places: dict[str, int], grid: Grid) -> Cut:
    levels = []
    for strip in each.strips:
        columns = []
        for stack in strip.stacks:
            across, along = grid.up(stack.across), grid.up(stack.along)
            beside, above = (across, along) if each.direction == "across" else (along, across)
            columns.append(Column(places[stack.part], stack.turned, beside, above, stack.high, stack.times))
        levels.append(Level(grid.up(strip.width), tuple(columns), strip.times))
    return Cut(each.direction, tuple(levels), each.copies)
