"""What a picture shows lies where the shapes have it: held against the shapes themselves and shapely."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

import pytest
from every import SUBJECTS, calculators, tables
from hypothesis import given
from hypothesis import strategies as st
from shapely import STRtree
from shapely.geometry import LineString, Point, box
from shapely.geometry import Polygon as Area

from boltend.core.contract import Polygon, Rect, Rule, Shape
from boltend.core.drawing import Picture, cells_of, draw, legend
from boltend.core.values import Notation, Number, show_length
from boltend.testing import work

SIZES = [(40, 12), (78, 20), (118, 36)]


def inches(value: Number) -> str:
    return show_length(value, Notation())


def picture_of(name: str, **over: object) -> list[Shape]:
    """The shapes of a built-in calculator's example."""
    givens = {**SUBJECTS[name]["example"], **over}
    return list(work(calculators()[name], tables=tables(), **givens).answer.picture)


PICTURES = {
    **{name: picture_of(name) for name in SUBJECTS},
    "sashed on point": picture_of("on_point", sash="2 in"),
    "sashed all round": picture_of("straight_set", sash_all_round=True, cornerstones=True),
    "many blocks": picture_of("straight_set", across=30, down=40),
    "diagonal lines": picture_of("quilting_thread", pattern="diagonal grid", spacing="6 in"),
}
PICTURES = {name: shapes for name, shapes in PICTURES.items() if shapes}


def cells(picture: Picture) -> list[list[tuple[str, str, str]]]:
    """Character, fill and kind of every column, the second of a wide character empty."""
    rows = []
    for row in picture.rows:
        line: list[tuple[str, str, str]] = []
        for run in row:
            for character in run.text:
                wide = cells_of(character)
                line += [(character, run.fill, run.kind), *[("", run.fill, run.kind)] * (wide - 1)][
                    : wide or 1
                ]
        rows.append(line)
    return rows


def frame(grid: list[list[tuple[str, str, str]]]) -> tuple[int, int, int, int]:
    """First and last column, first and last row of what is drawn to scale."""
    seen = [
        (c, r)
        for r, row in enumerate(grid)
        for c, (_, fill, kind) in enumerate(row)
        if kind in ("line", "seam") or (kind == "fill" and fill)
    ]
    return min(c for c, _ in seen), max(c for c, _ in seen), min(r for _, r in seen), max(r for _, r in seen)


@given(
    st.lists(st.integers(4, 40), min_size=1, max_size=8),
    st.lists(st.integers(4, 40), min_size=1, max_size=6),
    st.integers(50, 130),
    st.integers(20, 60),
)
def test_edges_lie_within_a_cell_of_their_place(
    wide: list[int], high: list[int], columns: int, rows: int
) -> None:
    xs = [sum(wide[:n]) for n in range(len(wide) + 1)]
    ys = [sum(high[:n]) for n in range(len(high) + 1)]
    shapes = [
        Rect(x, y, w, h, "block")
        for y, h in zip(ys, high, strict=False)
        for x, w in zip(xs, wide, strict=False)
    ]
    picture = draw(shapes, columns, rows)
    grid = cells(picture)
    across, down = len(grid[0]) - 1, len(grid) - 1
    # In proportion, a cell being twice as high as wide: to a row, or to half a column (of which a narrow
    # picture has few, each worth many rows), and a tenth where that makes blocks even.
    half_column = Fraction(ys[-1], 4 * xs[-1])
    assert abs(Fraction(across * ys[-1], 2 * xs[-1]) - down) <= max(1, half_column) + Fraction(down, 9)
    lines = [text for text, _, _ in grid[0]]
    sides = [row[0][0] for row in grid]
    if any("\u2800" <= text <= "\u28ff" for row in grid for text, _, _ in row):
        return  # seams are dots: they lie within cells, and are looked at below
    found_x = [c for c, text in enumerate(lines) if text != "━"]
    found_y = [r for r, text in enumerate(sides) if text != "┃"]
    for x in xs:
        assert min(abs(c - Fraction(x * across, xs[-1])) for c in found_x) <= 1
    for y in ys:
        assert min(abs(r - Fraction(y * down, ys[-1])) for r in found_y) <= 1
    assert len(found_x) <= len(xs)
    assert len(found_y) <= len(ys)


def rows_between_seams(across: int, down: int, sash: int, size: tuple[int, int]) -> list[int]:
    """Rows from each level seam to the next, down the left edge; none where seams are dots."""
    pitch = 9 + sash
    ground = Rect(0, 0, across * pitch - sash, down * pitch - sash, "sash")
    blocks = [Rect(x * pitch, y * pitch, 9, 9, "block") for y in range(down) for x in range(across)]
    grid = cells(draw([ground, *blocks], *size))
    if any("\u2800" <= text <= "\u28ff" for row in grid for text, _, _ in row):
        return []
    seams = [r for r, row in enumerate(grid) if row[0][0] != "┃"]
    return [b - a for a, b in pairwise(seams)]


@given(st.integers(2, 12), st.integers(2, 12), st.sampled_from(SIZES))
def test_blocks_differ_by_a_row_at_most(across: int, down: int, size: tuple[int, int]) -> None:
    gaps = rows_between_seams(across, down, 0, size)
    assert max(gaps, default=0) - min(gaps, default=0) <= 1


@pytest.mark.parametrize(("across", "down"), [(3, 4), (4, 5), (5, 6), (6, 7), (7, 9), (8, 10)])
@pytest.mark.parametrize("size", SIZES[1:])
def test_blocks_of_usual_quilts_are_alike(across: int, down: int, size: tuple[int, int]) -> None:
    gaps = rows_between_seams(across, down, 0, size)
    assert len(set(gaps)) <= 1
    gaps = rows_between_seams(across, down, 2, size)
    if len(gaps) == 2 * down - 1:
        assert (len(set(gaps[0::2])), len(set(gaps[1::2]))) == (1, 1)


DENSE = {"grid_for_size", "quilting_thread", "many blocks"}
"""Pictures in which every cell has a seam near by."""


def solid(shape: Shape) -> Area | None:
    """A shape as shapely has it."""
    if isinstance(shape, Rect) and shape.width and shape.height:
        x, y = float(shape.x), float(shape.y)
        return box(x, y, x + float(shape.width), y + float(shape.height))
    if isinstance(shape, Polygon):
        return Area([(float(x), float(y)) for x, y in shape.corners])
    return None


def fill_of(shape: Shape) -> str:
    return shape.fill if isinstance(shape, Rect | Polygon) else ""


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", PICTURES)
def test_every_cell_shows_what_lies_there(name: str, size: tuple[int, int]) -> None:
    """A cell that no edge comes near has the fill that lies uppermost in its middle."""
    shapes = PICTURES[name]
    found = [(area, fill_of(shape)) for shape in shapes if (area := solid(shape)) is not None]
    areas = [area for area, _ in found]
    left, top = min(a.bounds[0] for a in areas), min(a.bounds[1] for a in areas)
    right, bottom = max(a.bounds[2] for a in areas), max(a.bounds[3] for a in areas)
    edges = STRtree([a.exterior for a in areas])
    picture = draw(shapes, *size)
    grid = cells(picture)
    first, last, upper, lower = frame(grid)
    sx, sy = (right - left) / (last - first), (bottom - top) / (lower - upper)
    looked_at = 0
    for r in range(upper, lower + 1):
        for c in range(first, last + 1):
            text, fill, kind = grid[r][c]
            if kind not in ("fill", "label") or (kind == "label" and not fill):
                continue
            x, y = left + (c - first) * sx, top + (r - upper) * sy
            near = box(x - 0.76 * sx, y - 0.76 * sy, x + 0.76 * sx, y + 0.76 * sy)
            if len(edges.query(near, predicate="intersects")):
                continue
            here = Point(x, y)
            expected = [own for area, own in found if area.contains(here)]
            assert fill == (expected[-1] if expected else ""), (r, c, text)
            looked_at += 1
    assert looked_at or name in DENSE or size != SIZES[-1]


@pytest.mark.parametrize(
    "name", [name for name in PICTURES if any(isinstance(s, Polygon) for s in PICTURES[name])]
)
def test_slanting_seams_lie_where_they_are(name: str) -> None:
    """A cell with dots is crossed, or at least touched, by an edge or a line; a long edge leaves its dots."""
    shapes = PICTURES[name]
    areas = [area for shape in shapes if (area := solid(shape)) is not None]
    rules = [
        LineString([(float(s.x1), float(s.y1)), (float(s.x2), float(s.y2))])
        for s in shapes
        if isinstance(s, Rule)
    ]
    edges = STRtree([*(a.exterior for a in areas), *rules])
    left, top = min(a.bounds[0] for a in areas), min(a.bounds[1] for a in areas)
    right, bottom = max(a.bounds[2] for a in areas), max(a.bounds[3] for a in areas)
    grid = cells(draw(shapes, 118, 36))
    first, last, upper, lower = frame(grid)
    sx, sy = (right - left) / (last - first), (bottom - top) / (lower - upper)
    dotted = 0
    for r, row in enumerate(grid):
        for c, (text, _, _) in enumerate(row):
            if "\u2800" < text <= "\u28ff":
                x, y = left + (c - first) * sx, top + (r - upper) * sy
                cell = box(x - 0.8 * sx, y - 0.8 * sy, x + 0.8 * sx, y + 0.8 * sy)
                assert len(edges.query(cell, predicate="intersects")), (r, c)
                dotted += 1
    assert dotted > 10


@pytest.mark.parametrize("ascii_", [False, True])
@pytest.mark.parametrize("size", [*SIZES, (12, 4), (13, 60), (200, 5)])
@pytest.mark.parametrize("name", PICTURES)
def test_every_picture_keeps_to_its_cells(name: str, size: tuple[int, int], ascii_: bool) -> None:
    picture = draw(PICTURES[name], *size, ascii=ascii_, show=inches)
    keeps_to(picture, *size)
    if size in SIZES:
        assert picture.drawn
    for line in legend(picture, size[0], ascii=ascii_):
        assert cells_of(line) <= size[0]
    if ascii_:
        assert "\n".join([*picture.lines(), *legend(picture, size[0], ascii=True)]).isascii()


def keeps_to(picture: Picture, columns: int, rows: int) -> None:
    assert len(picture.rows) <= rows
    assert picture.width <= columns
    assert {cells_of(line) for line in picture.lines()} <= {picture.width}


def test_the_size_is_the_one_that_is_exact() -> None:
    """A width with a root is shown as the notation shows it; what lies beside is no part of it."""
    shapes = PICTURES["on_point"]
    text = "\n".join(draw(shapes, 78, 20, show=inches).lines())
    assert "≈ 38.184 in" in text  # 3 × 9 in × √2
    assert "≈ 50.912 in" in text  # 4 × 9 in × √2


def signed(shapes: Sequence[Shape]) -> set[str]:
    return {sign.fill for sign in draw(shapes, 118, 36).signs}


def test_the_legend_names_what_is_seen() -> None:
    assert signed(PICTURES["sashed all round"]) == {"block", "sash", "cornerstone"}
    assert signed(PICTURES["on_point"]) == {"block", "inner block", "setting"}
    assert signed(PICTURES["precut_yield"]) == {"piece"}  # nothing is left over of it
    assert signed(PICTURES["precut_plan"]) == {"piece", "left over"}
