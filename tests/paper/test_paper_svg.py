"""Pictures as SVG: well formed, in true proportion, every rectangle as the contract has it."""

import xml.etree.ElementTree as ET
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from worked import NAMES, pictures_of, worked

from boltend.core.contract import Note, Polygon, Rect, Rule, Shape
from boltend.core.contract.shapes import Inches
from boltend.core.paper.forms import pictures
from boltend.core.paper.model import Picture
from boltend.core.paper.sketch import sketch
from boltend.core.paper.svg import inches
from boltend.core.paper.svg_alone import svg_file
from boltend.core.report.list_words import cut_sheets

SVG = "{http://www.w3.org/2000/svg}"
_NEAR = Fraction(1, 10**9)


def parsed(shapes: tuple[Shape, ...]) -> ET.Element:
    made = svg_file(Picture("Trial", shapes, lambda inches: f"{float(inches):g} in"))
    assert made is not None
    return ET.fromstring(made)


def scaled(root: ET.Element) -> ET.Element:
    (group,) = (g for g in root.iter(f"{SVG}g") if "scale(" in g.get("transform", ""))
    return group


def same(text: str | None, value: Inches) -> bool:
    """Exactly the value where its decimals end within nine places, else the nearest billionth."""
    assert text is not None
    said = Fraction(text)
    if isinstance(value, int | Fraction) and (Fraction(value) * 10**9).denominator == 1:
        return said == value
    return abs(said - Fraction(float(value))) <= _NEAR


@pytest.mark.parametrize("name", NAMES)
def test_rectangles_and_polygons_are_the_contracts(name: str) -> None:
    for _, shapes in pictures_of(worked(name).book):
        group = scaled(parsed(shapes))
        drawn = [e for e in group if e.tag in (f"{SVG}rect", f"{SVG}polygon")]
        areas = [
            s for s in shapes if (isinstance(s, Rect) and s.width and s.height) or isinstance(s, Polygon)
        ]
        assert len(drawn) == len(areas)
        for element, shape in zip(drawn, areas, strict=True):
            if isinstance(shape, Rect):
                for part in ("x", "y", "width", "height"):
                    assert same(element.get(part), getattr(shape, part)), (shape, element.attrib)
            else:
                points = [point.split(",") for point in element.get("points", "").split()]
                assert len(points) == len(shape.corners)
                for (x, y), (a, b) in zip(points, shape.corners, strict=True):
                    assert same(x, a)
                    assert same(y, b)


@pytest.mark.parametrize("name", NAMES)
def test_one_scale_for_both_directions(name: str) -> None:
    for _, shapes in pictures_of(worked(name).book):
        move = scaled(parsed(shapes)).get("transform", "")
        inside = move.partition("scale(")[2].partition(")")[0]
        assert len(inside.replace(",", " ").split()) == 1, move


@pytest.mark.parametrize("name", ["harbour-steps", "tidewater"])
def test_cutting_plans_lie_on_their_cloth_and_have_the_sizes_to_cut(name: str) -> None:
    lists = worked(name).lists
    book = worked(name).book
    made = pictures(book, book.project.tabs, lists)
    sheets = cut_sheets(lists, book.basis.settings.notation)
    cuts = [text for file, text in made.items() if file.startswith("cut-")]
    assert len(cuts) == sum(len(sheet.pictures) for sheet in sheets)
    plans = [f.plan for f in lists.fabrics for s in [f.plan] if s is not None]
    sizes = {frozenset((k.across, k.along)) for plan in plans for k in plan.kinds}
    fills = {f.cloth.name for f in lists.fabrics}
    drawn = [picture for sheet in sheets for picture in sheet.pictures]
    for text, picture in zip(cuts, drawn, strict=True):
        rects = [e for e in scaled(ET.fromstring(text)) if e.tag == f"{SVG}rect"]
        shapes = picture.shapes()
        assert len(rects) == len(shapes)
        right = max(s.x + s.width for s in shapes)
        bottom = max(s.y + s.height for s in shapes)
        for rect, shape in zip(rects, shapes, strict=True):
            x, y, wide, high = (Fraction(rect.get(p, "")) for p in ("x", "y", "width", "height"))
            assert (x, y) >= (0, 0)
            assert x + wide <= right + _NEAR
            assert y + high <= bottom + _NEAR
            if shape.fill in fills:
                assert any(all(min(abs(wide - side), abs(high - side)) <= _NEAR for side in size)
                           for size in sizes), (wide, high)  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_all_of_it_lies_on_its_own_paper(name: str) -> None:
    for label, shapes in pictures_of(worked(name).book):
        picture = Picture(label, shapes, lambda inches: f"{float(inches):g} in")
        drawn = sketch(picture, *picture.room)
        assert drawn is not None
        assert drawn.width <= picture.room[0] + 1e-6
        assert drawn.height <= picture.room[1] + 1e-6
        for words in drawn.words:
            assert -1e-6 <= words.x <= drawn.width + 1e-6, (label, words)
            assert -1e-6 <= words.y <= drawn.height + 1e-6, (label, words)


def test_the_overall_size_stands_along_both_edges() -> None:
    root = parsed((Rect(0, 0, 64, Fraction(149, 2), "top"),))
    texts = [element.text for element in root.iter(f"{SVG}text")]
    assert "64 in" in texts
    assert "74.5 in" in texts


def test_title_and_words_for_those_who_do_not_see_it() -> None:
    root = parsed((Rect(0, 0, 4, 4, "Slate"),))
    assert root.get("role") == "img"
    ids = {element.get("id") for element in root.iter()}
    assert set(root.get("aria-labelledby", "").split()) <= ids
    assert root.findtext(f"{SVG}title") == "Trial"
    assert "4 in" in root.findtext(f"{SVG}desc", "")


def test_the_same_picture_is_the_same_file() -> None:
    first, second = (pictures(*arguments) for arguments in [_all("lantern-row")] * 2)
    assert first == second
    assert len(set(first)) == len(first) > 10


def _all(name: str):  # type: ignore[no-untyped-def]
    book, lists = worked(name)
    return book, book.project.tabs, lists


def test_a_rectangle_drawn_backwards_lies_where_it_lies() -> None:
    rects = [e for e in scaled(parsed((Rect(0, 0, 9, 9), Rect(5, 6, -2, -3)))) if e.tag == f"{SVG}rect"]
    assert [rects[1].get(part) for part in ("x", "y", "width", "height")] == ["3", "3", "2", "3"]


def test_long_names_stay_on_the_paper() -> None:
    name = "name " * 100
    made = svg_file(Picture(name, (Rect(0, 0, 2, 9, "Slate", "piece"),), str, key=(name, "x" * 500)))
    assert made is not None
    root = ET.fromstring(made)
    _, _, wide, _ = map(float, root.get("viewBox", "").split())
    assert max(len(text.text or "") for text in root.iter(f"{SVG}text")) * 8 * 0.62 <= wide + 6
    assert sum((text.text or "").count("x") for text in root.iter(f"{SVG}text")) == 500


def test_what_shows_nothing_is_no_file() -> None:
    assert svg_file(Picture("nothing", ())) is None
    assert svg_file(Picture("flat", (Rect(0, 0, 4, 0),))) is None


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (4, "4"),
        (Fraction(1, 8), "0.125"),
        (Fraction(-73, 64), "-1.140625"),
        (0, "0"),
        (Fraction(1, 3), "0.333333333"),
    ],
)
def test_inches_as_decimals(value: Inches, text: str) -> None:
    assert inches(value) == text


numbers = st.one_of(
    st.integers(-50, 500),
    st.fractions(min_value=0, max_value=99, max_denominator=64),
    st.sampled_from([Fraction(10**30), Fraction(1, 10**30)]),
)
words = st.text(max_size=12)
some_shapes = st.lists(
    st.one_of(
        st.builds(Rect, numbers, numbers, numbers, numbers, words, words),
        st.builds(Polygon, st.lists(st.tuples(numbers, numbers), max_size=5).map(tuple), words, words),
        st.builds(Rule, numbers, numbers, numbers, numbers),
        st.builds(Note, numbers, numbers, words),
    ),
    max_size=6,
).map(tuple)


@settings(max_examples=150, deadline=None)
@given(some_shapes, words)
def test_any_shapes_make_xml_that_can_be_read(shapes: tuple[Shape, ...], title: str) -> None:
    made = svg_file(Picture(title, shapes, str, key=(title,), colours={"": "#336699"}))
    if made is not None:
        ET.fromstring(made)
