"""The working of blocks in hand, and why nothing fits, in words."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import Cannot, Line, finished, line
from boltend_precut_yield.grids import Block, Grid, Shape


def working(grid: Grid, block: Block, pick: int, choices: int) -> list[Line | str]:
    """How the chosen grid came about, and why it stands where it does."""
    used = grid.across * grid.down
    return [
        line("{} across × {} down = {} blocks, {} left over", grid.across, grid.down, used, grid.spare),
        _side("width", grid.across, block.width, block, grid.width),
        _side("height", grid.down, block.height, block, grid.height),
        line("choice {} of {}; a grid that another beats both ways is not among them", pick, choices),
        "order: near squares (one side at most a quarter longer), then up to twice as long as wide, in both "
        "fewest blocks left over before nearest to square; then longer ones, nearest to square first; of "
        "equals tall before wide",
    ]


def cautions(border: Fraction) -> list[Line]:
    """That a border is only allowed for: its cloth is no matter of this tab."""
    if not border:
        return []
    said = (
        "A border of {} is only in these sizes: nothing is cut or bought for it here. Plan borders in a tab "
        "of their own, from the width and height without a border, and they do not count twice."
    )
    return [line(said, finished(border))]


def _side(name: str, count: int, size: Fraction, block: Block, total: Fraction) -> Line:
    values: list[object]
    words, values = f"{name} = {{}} × {{}}", [count, finished(size)]
    if block.sash:
        words, values = words + " + {} × {} sash", [*values, count - 1, finished(block.sash)]
    if block.border:
        words, values = words + " + 2 × {} border", [*values, finished(block.border)]
    return line(words + " = {} finished", *values, finished(total))


def none_fits(every: Sequence[Grid], blocks: int, shape: Shape) -> Cannot:
    """Why no grid is left: none of the shape, or all leave too many blocks over."""
    named = "" if shape == "any" else f"{shape} "
    if every:
        least = min(grid.spare for grid in every)
        why = f"Every {named}quilt from {blocks} blocks leaves at least {least} over."
        return Cannot("leave_at_most", why, f"Allow {least}, or take another shape.")
    way_out = "Take the shape near square, or any." if shape == "square" else "Take the shape any."
    return Cannot("shape", f"No {named}quilt comes out of {blocks} such blocks.", way_out)
