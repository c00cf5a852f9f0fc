"""The working and the cautions of a strip-pieced grid, in words."""

from boltend.plugin import Line, Settings, cut, finished, length, line
from boltend_block_units.strip_grid_sets import Grid, Kind, strip_length
from boltend_block_units.words import seams_line, size_line, trim_line


def working(grid: Grid, count: int) -> list[Line]:
    """How the founds came about, with the numbers."""
    values = finished(grid.size), grid.patches, length(grid.seam)
    ready, lost, wide = length(grid.ready), length(grid.squaring), cut(grid.strip.cut)
    lines = [
        size_line("strip, and segment", "{} ÷ {} + 2 × {}", values, grid.strip),
        line("segments from a set: ({} − {} to square it) ÷ {} = {} whole ones", ready, lost, wide,
             grid.segments_each),
    ]  # fmt: skip
    for kind in grid.kinds:
        if kind.segments:
            lines += _kind(kind, grid, count)
    if not grid.kinds[1].segments:
        lines.append(line("every second segment of a unit is turned end for end"))
    return [
        *lines,
        line("dark strips (A): {}, light strips (B): {}", grid.dark_strips, grid.light_strips),
        trim_line(grid.sewn, grid.size + 2 * grid.seam, grid.seam),
        seams_line("{} × ({} along the sets + {} × {} in the units)",
                   (grid.patches - 1, length(grid.set_length), count, cut(grid.sewn)), grid.seams),
    ]  # fmt: skip


def _kind(kind: Kind, grid: Grid, count: int) -> list[Line]:
    lines = [
        line(f"{kind.name}: {{}} a unit × {{}} = {{}} segments, ÷ {{}} up = {{}} sets",
             kind.segments // count, count, kind.segments, grid.segments_each, kind.sets),
    ]  # fmt: skip
    *_, (last, _) = kind.lengths(grid.segments_each)
    if last < grid.segments_each:
        said = f"the last set of {kind.name} gives only {{}}, so its strips are {{}} long"
        lines.append(line(said, last, length(strip_length(last, grid))))
    return lines


def cautions(grid: Grid, setting: Settings) -> list[Line | str]:
    """A patch that is no whole number of steps: the inner ones cannot be trimmed."""
    if not grid.strip.over:
        return []
    exact = grid.size / grid.patches
    over = grid.strip.cut - 2 * grid.seam - exact
    words = "Rounded up to {}, patches finish at {} in place of {}"
    values = length(setting.cutting_step), finished(exact + over), finished(exact)
    if grid.patches == 2:
        return [line(words + "; trimming makes them even again, if as much is cut off all round.", *values)]
    outer = exact + over - grid.patches * over / 2
    return [
        line(words + ", and trimming leaves the outer ones {}; a size that divides evenly avoids it.",
             *values, finished(outer)),
    ]  # fmt: skip
