"""The picture of the whole quilt: several tabs' pictures in one, every shape as large as it was."""

from collections import Counter
from fractions import Fraction

import pytest
from worked import worked

from boltend.core.contract import Rect
from boltend.core.drawing.figure import extent, figure_of
from boltend.core.report.quilt_picture import quilt_shapes
from boltend.core.report.quilt_size import quilt_of


@pytest.mark.parametrize(
    ("name", "tab", "size"),
    [
        # As worked by hand in the examples' own tests: the binding lies round the raw edge.
        ("harbour-steps", "Binding", "64 1/2 in × 75 in"),
        ("lantern-row", "Binding", "69 in × 76 1/2 in"),
        ("short-measure", "Binding", "68 1/2 in × 84 1/2 in"),
    ],
)
def test_the_finished_size(name: str, tab: str, size: str) -> None:
    book = worked(name).book
    quilt = quilt_of(book, book.project.tabs)
    assert quilt is not None
    assert (quilt.tab.name, quilt.size) == (tab, size)
    assert quilt.also.startswith("≈ ")
    assert quilt.also.count("cm") == 2


def test_all_blocks_and_borders_are_in_it_and_as_large_as_they_are() -> None:
    book = worked("harbour-steps").book
    quilt = quilt_of(book, book.project.tabs)
    assert quilt is not None
    shapes = quilt_shapes(book, quilt.tab)
    fills = Counter(shape.fill for shape in shapes if isinstance(shape, Rect))
    assert fills["block"] == 30
    # What has a fabric is drawn in it, and bears its role as a label.
    labels = Counter((shape.fill, shape.label) for shape in shapes if isinstance(shape, Rect))
    assert labels["Mustard", "cornerstone"] == 20
    assert labels["Slate", "sash"] == 24 + 25
    assert extent(figure_of(shapes)) == (Fraction(129, 2), 75)
    blocks = [shape for shape in shapes if isinstance(shape, Rect) and shape.fill == "block"]
    assert {(block.width, block.height) for block in blocks} == {(9, 9)}
    assert len({(block.x, block.y) for block in blocks}) == 30
    # In the middle: as much to the left of the first block as to the right of the last one.
    left, right = min(b.x for b in blocks), max(b.x + b.width for b in blocks)
    assert right - left == 51
    assert left + right == Fraction(129, 2)


def test_a_binding_lies_over_what_it_holds() -> None:
    book = worked("harbour-steps").book
    quilt = quilt_of(book, book.project.tabs)
    assert quilt is not None
    shapes = quilt_shapes(book, quilt.tab)
    order = [shape.label or shape.fill for shape in shapes if isinstance(shape, Rect)]
    assert order.index("binding") > order.index("block")
    bands = [
        shape
        for shape in shapes
        if isinstance(shape, Rect) and (shape.fill, shape.label) == ("Slate", "binding")
    ]
    assert len(bands) == 4


def test_a_project_without_a_quilt_has_none() -> None:
    book = worked("mistakes").book
    assert quilt_of(book, ()) is None
