"""Quilts of blocks, sashes and borders on whole cells: as large and as true as the cells allow."""

from collections.abc import Sequence
from fractions import Fraction

from hypothesis import example, given
from hypothesis import strategies as st

from boltend.core.contract import Polygon, Rect, Shape
from boltend.core.drawing import draw
from boltend.core.drawing.figure import figure_of
from boltend.core.drawing.fit import STRETCH, pitch_of
from boltend.core.drawing.spread import FURTHEST, spread

EIGHTH = Fraction(1, 8)


def quilt(across: int, down: int, block: Sequence[int], sash: int, border: int) -> list[Shape]:
    """Blocks with sashes between them in a border; sizes in eighths of an inch."""
    (wide, high), s, b = (EIGHTH * block[0], EIGHTH * block[1]), EIGHTH * sash, EIGHTH * border
    width, height = across * wide + (across - 1) * s, down * high + (down - 1) * s
    shapes: list[Shape] = []
    if b:
        shapes += [Rect(x, b, b, height, "border") for x in (Fraction(0), b + width)]
        shapes += [Rect(0, y, 2 * b + width, b, "border") for y in (Fraction(0), b + height)]
    for r in range(down):
        y = b + r * (high + s)
        shapes += [Rect(b + c * (wide + s), y, wide, high, "block") for c in range(across)]
        if s:
            shapes += [Rect(b + c * (wide + s) + wide, y, s, high, "sash") for c in range(across - 1)]
            shapes += [Rect(b, y + high, width, s, "sash")] if r < down - 1 else []
    return shapes


QUILTS = st.builds(
    quilt,
    st.integers(2, 9),
    st.integers(2, 10),
    st.tuples(st.integers(24, 120), st.integers(24, 120)) | st.integers(24, 120).map(lambda n: (n, n)),
    st.integers(0, 20),
    st.integers(0, 80),
)


def size_of(lines: Sequence[str]) -> tuple[int, int]:
    """Columns and rows from edge to edge."""
    return len(lines[0].rstrip()) - 1, len(lines) - 1


@given(QUILTS, st.integers(50, 120), st.integers(16, 60))
@example(quilt(3, 9, (24, 24), 0, 80), 50, 28)  # 23.5 rows, less a hair
def test_the_proportion_is_true_to_a_few_in_a_hundred_and_half_a_cell(
    shapes: list[Shape], columns: int, rows: int
) -> None:
    """The greatest error there is: 6 in 100, and what half a cell in each direction makes of it."""
    figure = figure_of(shapes)
    true = 2 * figure.width / figure.height
    wide, high = size_of(draw(shapes, columns, rows).lines())
    cells = 0.5 / high + 0.5 / wide
    assert abs(wide / high / true - 1) <= (1 + STRETCH) * (1 + cells) ** 2 - 1


@given(QUILTS, st.integers(50, 120), st.integers(16, 60))
def test_equal_things_take_equal_cells_within_a_cell_of_their_place(
    shapes: list[Shape], columns: int, rows: int
) -> None:
    figure = figure_of(shapes)
    pitch = pitch_of(figure)
    laid = None if pitch is None else spread(figure, pitch, columns, rows, 2)
    if laid is None:
        return
    fit, moved = laid
    assert (fit.columns, fit.rows) <= (columns - 1, rows - 1)
    sizes: dict[tuple[str, int, int], set[tuple[int, int]]] = {}
    for area, to in zip(figure.areas, moved.areas, strict=True):
        for true, at, scale in (
            (area.left, to.left, fit.sx), (area.right, to.right, fit.sx),
            (area.top, to.top, fit.sy), (area.bottom, to.bottom, fit.sy),
        ):  # fmt: skip
            assert abs(at - true) * scale <= FURTHEST + 1e-6
            assert abs(at * scale - round(at * scale)) < 1e-6, "an edge is on a cell"
        true_size = round((area.right - area.left) * 8), round((area.bottom - area.top) * 8)
        cells = round((to.right - to.left) * fit.sx), round((to.bottom - to.top) * fit.sy)
        sizes.setdefault((area.fill, *true_size), set()).add(cells)
    assert all(len(alike) == 1 for alike in sizes.values())


def test_a_border_of_6_5_8_in_costs_no_rows() -> None:
    """3 × 4 blocks of 11 5/8 in, sashes of 2 in: 52 1/8 × 65 3/4 in, drawn over 15 rows of 20.

    A block and a sash are 3.9 rows; at one scale they took three, and all else shrank along.
    """
    shapes = quilt(3, 4, (93, 93), 16, 53)
    wide, high = size_of(draw(shapes, 77, 21).lines())
    assert high >= 19
    assert abs(wide / (2 * high) - float(Fraction("52.125") / Fraction("65.75"))) < 0.03


def test_a_mitred_border_is_no_hindrance() -> None:
    """Blocks of 22 × 14 cm within mitres were drawn at two thirds of the room."""
    shapes = [
        *quilt(5, 5, (88, 56), 12, 0),
        Polygon(((-30, -30), (91, -30), (61, 0), (0, 0)), "border"),
        Polygon(((-30, 71), (0, 41), (61, 41), (91, 71)), "border"),
        Polygon(((-30, -30), (0, 0), (0, 41), (-30, 71)), "border"),
        Polygon(((91, -30), (91, 71), (61, 41), (61, 0)), "border"),
    ]  # fmt: skip
    assert size_of(draw(shapes, 77, 20).lines())[1] == 19


def test_what_shares_a_fabric_is_parted_by_lines() -> None:
    """Border and sash of one cloth: each meets the other at a line, along a row as along a column."""
    cloth = [each._replace(fill="Slate") for each in quilt(2, 2, (96, 96), 16, 48)]
    for figure in (cloth, [each._replace(fill="block") if n > 3 else each for n, each in enumerate(cloth)]):
        lines = draw(figure, 60, 24).lines()
        middle = next(line for line in lines[4:] if "─" not in line)
        # The edge, the border's, a block's other side, the next one's two, and the edge.
        assert sum(sign in "│┃" for sign in middle) == 6, lines
        assert sum(line[len(line) // 3] in "─━" for line in lines) == 6, lines
