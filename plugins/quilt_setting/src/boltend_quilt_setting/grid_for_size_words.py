"""The working and the cautions of a grid for a size, and why nothing reaches it exactly, in words."""

from dataclasses import replace
from fractions import Fraction

from boltend.plugin import Cannot, Line, Number, Settings, finished, length, line
from boltend_quilt_setting.grid_for_size_rank import AT_LEAST_ORDER, NEAREST_ORDER, Reach
from boltend_quilt_setting.grid_for_size_say import say, size_of
from boltend_quilt_setting.grid_for_size_search import Grid, Wanted


def working(
    grid: Grid, bare: Grid, wanted: Wanted, reach: Reach, picked: tuple[int, int, int]
) -> list[Line | str]:
    """How the chosen grid came about, how it stands to the target, and why it stands where it does.

    `bare`: what covers it without a border. `picked`: the number picked, how many are listed, how many there
    are in all.
    """
    block, target = wanted.block, wanted.target
    lines: list[Line | str] = [_blocks(grid, wanted.on_point)]
    lines.append(_side("width", grid.across, block[0], wanted, grid.border_sides, grid.width))
    lines.append(_miss("width", target[0], grid.over_width))
    lines.append(_side("height", grid.down, block[1], wanted, grid.border_ends, grid.height))
    lines.append(_miss("height", target[1], grid.over_height))
    pick, listed, total = picked
    words = "choice {} of {}" + (f", of which the first {listed} are listed" if total > listed else "")
    lines.append(line(f"{words}; {_AMONG[reach]}", pick, total))
    if reach == "exactly" and wanted.on_point:
        words = "√2 makes no whole steps: exactly means within {}, half the step to which sizes are shown"
        lines.append(line(words, length(wanted.hair)))
    lines.append(AT_LEAST_ORDER if reach == "at least" else NEAREST_ORDER)
    lines.append(_bare_line(bare))
    return lines


_AMONG = {
    "at least": "with a row or column fewer, or a border a step narrower, each would fall short",
    "nearest": "each count of blocks has the border that comes nearest",
    "exactly": "each count of blocks has the one border that fits",
}


def _blocks(grid: Grid, on_point: bool) -> Line:
    if not on_point:
        return line("blocks = {} across × {} down = {}", grid.across, grid.down, grid.blocks)
    words = "blocks = {} across × {} down + {} × {} inner ones = {}"
    return line(words, grid.across, grid.down, grid.across - 1, grid.down - 1, grid.blocks)


def _side(name: str, count: int, size: Fraction, wanted: Wanted, border: Fraction, total: Number) -> Line:
    words, values = f"{name} = {{}} × {{}}", [count, finished(size)]
    if wanted.on_point and wanted.sash:
        words, values = f"{name} = {{}} × ({{}} + {{}} sash) × √2", [*values, finished(wanted.sash)]
    elif wanted.on_point:
        words += " × √2"
    elif wanted.sash:
        words, values = words + " + {} × {} sash", [*values, count - 1, finished(wanted.sash)]
    if border:
        words, values = words + " + 2 × {} border", [*values, finished(border)]
    return line(words + " = {} finished", *values, finished(total))


def _bare_line(bare: Grid) -> Line:
    words = "without a border {} × {} blocks cover it: {} × {} finished, {} and {} over"
    sizes = finished(bare.width), finished(bare.height), length(bare.over_width), length(bare.over_height)
    return line(words, bare.across, bare.down, *sizes)


def _miss(name: str, target: Fraction, over: Number) -> Line:
    if not over:
        return line(f"the {name} wanted is {{}}: reached exactly", finished(target))
    words = "over" if over > 0 else "short"
    return line(f"the {name} wanted is {{}}: {{}} {words}", finished(target), length(size_of(over)))


def cautions(grid: Grid, reach: Reach) -> list[Line | str]:
    """Where the nearest is too small."""
    if reach != "nearest":
        return []
    return [
        line(f"The quilt is {{}} {word} than wanted.", length(-over))
        for word, over in (("narrower", grid.over_width), ("shorter", grid.over_height))
        if over < 0
    ]


def no_exact(wanted: Wanted, setting: Settings) -> Cannot:
    """Nothing reaches it exactly: the nearest misses, and what would do."""
    target = " × ".join(say(side, setting) for side in wanted.target)
    nearest, _ = wanted.ranked("nearest", 3)
    would_do = replace(wanted, alike=False).ranked("exactly", 1)[0] if wanted.alike else []
    misses = "; ".join(f"{_bordered(grid, setting)}, {_missing(grid, setting)}" for grid in nearest)
    why = f"No blocks with a border of whole steps make {target} exactly. Nearest: {misses}."
    if would_do:
        way_out = (
            f"Let sides and ends differ: {_bordered(would_do[0], setting)}. Or reach at least, or nearest."
        )
        return Cannot("reach", why, way_out)
    return Cannot("reach", why, "Reach at least or nearest, or take a finer step or wider limits.")


def _bordered(grid: Grid, setting: Settings) -> str:
    border = say(grid.border_sides, setting)
    if grid.border_sides != grid.border_ends:
        border = f"{border} at the sides and {say(grid.border_ends, setting)} at the ends"
    return f"{grid.across} × {grid.down} with a border of {border}"


def _missing(grid: Grid, setting: Settings) -> str:
    sides = (
        ("width", "wide", "narrow", grid.over_width),
        ("height", "long", "short", grid.over_height),
    )
    return " and ".join(
        f"{say(size_of(over), setting)} too {large if over > 0 else small}" if over else f"the {name} exact"
        for name, large, small, over in sides
    )
