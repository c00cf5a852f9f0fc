"""A set on point against a top that `on_point_laid`, which knows nothing of it, lays out and measures."""

from collections import Counter
from fractions import Fraction as Fr
from math import sqrt
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from on_point_laid import FAR, FINE, TINY, Laid, seams_as_sewn
from shapely import STRtree, box, set_precision  # type: ignore[import-untyped]  # it ships no types
from shapely.affinity import affine_transform, rotate, translate  # type: ignore[import-untyped]  # it ships no types
from shapely.geometry import LineString, Point, Polygon  # type: ignore[import-untyped]  # it ships no types
from shapely.ops import split  # type: ignore[import-untyped]  # it ships no types

from boltend.plugin import Answer, Cannot, Settings
from boltend.plugin import Polygon as Shape
from boltend_quilt_setting import on_point_picture
from boltend_quilt_setting.on_point import on_point

SEAM = 0.25
STEP = 0.125
GRID = 1e-7
ROUGH = 1e-5
# Eighths, as quilters use them; √2 makes everything else inexact anyway.
EIGHTHS = st.integers(4, 160).map(lambda n: Fr(n, 8))
SOME = st.just(Fr(0)) | st.integers(1, 60).map(lambda n: Fr(n, 8))
EDGES = ("points", "cornerstone centres", "sash all round")


@st.composite
def tops(draw: st.DrawFn) -> dict[str, Any]:
    block = draw(EIGHTHS)
    # Often a third of the block or less: a wide one leaves no corner where the edge lies at the points.
    sash = draw(SOME | st.sampled_from([block / 8, block / 3]))
    # Floats of a part of the sash too: then the edge cuts through the outer crossings, inside and outside.
    floats = SOME | st.sampled_from([sash / 4, sash / 2, sash])
    return {
        "block": block, "across": draw(st.integers(1, 5)), "down": draw(st.integers(1, 5)),
        "sash": sash, "edge": draw(st.none() | st.sampled_from(EDGES)),
        "cornerstones": draw(st.booleans()), "float": draw(floats), "oversize": Fr(0),
        "setting_fabric": None, "inner_fabric": "plain", "sash_fabric": None, "cornerstone_fabric": None,
    }  # fmt: skip


def answer_of(top: dict[str, Any]) -> Answer | None:
    """What was answered; None where it was rightly refused."""
    try:
        return on_point(**top, setting=Settings())
    except Cannot as cannot:
        named = cannot.given
    laid = Laid(top)
    if named == "sash":
        assert laid.edge == "points"
        assert laid.b / sqrt(2) + 2 * laid.float <= sqrt(2) * laid.t + TINY
    else:
        assert named == "float"
        assert laid.loose() >= laid.step / 2 - TINY
    return None


def close(a: Any, b: float, off: float = 1e-9) -> bool:
    return abs(float(a) - b) <= off * max(1.0, abs(b))


@pytest.mark.outside_check("on_point", against="geometry")
@settings(max_examples=150, deadline=None)
@given(tops())
def test_the_parts_make_the_top_without_gap_or_overlap(top: dict[str, Any]) -> None:
    answer = answer_of(top)
    if answer is None:
        return
    laid, found = Laid(top), answer.found
    x1, y1, x2, y2 = laid.rect.bounds
    assert close(found["width"], x2 - x1)
    assert close(found["height"], y2 - y1)
    grown = laid.rect.buffer(0.25, join_style="mitre").bounds  # a seam of 1/4 in outside each edge
    assert close(found["raw_width"], grown[2] - grown[0])
    assert close(found["raw_height"], grown[3] - grown[1])
    parts = [part for _, part in laid.core] + laid.setting
    area = float(found["width"]) * float(found["height"])  # type: ignore[arg-type]  # exact numbers
    assert close(sum(part.area for part in parts), area)
    assert all(laid.rect.buffer(TINY).covers(part) for part in parts)
    tree = STRtree(parts)
    for one, other in tree.query(parts, predicate="intersects").T:
        assert one == other or parts[one].intersection(parts[other], grid_size=FINE).area <= 1e-9 * area
    # Every seam is the edge of two parts; what is left of the edges is the outline.
    seams = (sum(part.length for part in parts) - laid.rect.length) / 2
    assert close(found["ditch_length"], seams, 1e-8)


@settings(max_examples=120, deadline=None)
@given(tops())
def test_the_counts_are_those_of_what_is_built(top: dict[str, Any]) -> None:
    answer = answer_of(top)
    if answer is None:
        return
    laid, found = Laid(top), answer.found
    kinds = Counter(kind for kind, _ in laid.core)
    assert found["blocks"] == kinds["counted"] + kinds["inner"]
    assert found["inner_blocks"] == kinds["inner"]
    assert kinds["counted"] == top["across"] * top["down"]
    assert found["sashes"] == kinds["sash"]
    assert found["long_sashes"] == kinds["long sash"]
    assert found["cornerstone_count"] + found["half_cornerstones"] == kinds["cornerstone"]  # type: ignore[operator]  # counts
    assert found["side_triangles"] + 4 == len(laid.setting)  # type: ignore[operator]  # counts
    assert found["diagonal_rows"] == len({n for _, n in laid.blocks})
    cut: Counter[str] = Counter()
    for piece in answer.pieces:
        cut[piece.name] += piece.count
    assert cut["sash"] + cut["sash to the edge"] == kinds["sash"]
    assert cut["long sash"] + sum(len(run.wants) for run in answer.runs) == kinds["long sash"]
    assert cut["cornerstone"] == found["cornerstone_count"]
    assert cut["inner block"] == kinds["inner"]
    for name, found_name, each in (
        ("square for half cornerstones", "half_cornerstones", 4), ("side square", "side_triangles", 4),
        ("corner square", "corner_triangles", 2),
    ):  # fmt: skip
        wanted: Any = found[found_name]
        assert 0 <= cut[name] * each - wanted < each
    assert (found["side_squares"], found["corner_squares"]) == (
        cut["side square"],
        cut["corner square"],
    )


@settings(max_examples=120, deadline=None)
@given(tops())
def test_the_picture_shows_what_is_built(top: dict[str, Any]) -> None:
    answer = answer_of(top)
    if answer is None:
        return
    laid = Laid(top)
    built = [(kind, part) for kind, part in laid.core] + [("setting", part) for part in laid.setting]
    names = {"counted": "block", "inner": "inner block", "long sash": "sash"}
    x, y, _, _ = laid.rect.bounds
    drawn = [
        (s.label or s.fill, Polygon([(float(p) + x, float(q) + y) for p, q in s.corners]))
        for s in answer.picture
        if isinstance(s, Shape)
    ]
    assert Counter(fill for fill, _ in drawn) == Counter(names.get(kind, kind) for kind, _ in built)
    tree = STRtree([part.centroid for _, part in built])
    for fill, shape in drawn:
        kind, part = built[tree.nearest(shape.centroid)]
        assert names.get(kind, kind) == fill
        assert shape.symmetric_difference(part).area < 1e-7


@settings(max_examples=60, deadline=None)
@given(tops())
def test_a_large_top_is_drawn_row_by_row_and_covered_too(top: dict[str, Any]) -> None:
    if answer_of(top) is None:
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(on_point_picture, "MOST_PARTS", 0)  # as if it were large
        answer = on_point(**top, setting=Settings())
    laid = Laid(top)
    x, y, _, _ = laid.rect.bounds
    drawn = [
        Polygon([(float(p) + x, float(q) + y) for p, q in s.corners])
        for s in answer.picture
        if isinstance(s, Shape)
    ]
    rows = len(laid.block_rows)
    assert Counter(s.label or s.fill for s in answer.picture if isinstance(s, Shape)) == Counter(
        block=rows, sash=rows + 1 if laid.t else 0, setting=len(laid.setting)
    )
    assert all(laid.rect.buffer(TINY).covers(part) for part in drawn)
    assert close(sum(part.area for part in drawn), laid.rect.area)
    tree = STRtree(drawn)
    for one, other in tree.query(drawn, predicate="intersects").T:
        overlap = drawn[one].intersection(drawn[other], grid_size=FINE).area
        assert one == other or overlap <= 1e-9 * laid.rect.area


def quarters(size: float) -> list[Polygon]:
    """A square cut twice on the diagonal: the long side of each is a side of the square, on the grain."""
    square = box(0, 0, size, size)
    halves = split(square, LineString([(0, 0), (size, size)])).geoms
    return [part for half in halves for part in split(half, LineString([(0, size), (size, 0)])).geoms]


def sewn(cut: Polygon) -> Polygon:
    """What is left of it inside its seams."""
    return cut.buffer(-SEAM, join_style="mitre", mitre_limit=20)


def raw(finished: Polygon) -> Polygon:
    """A finished part with a seam all round."""
    # On a grid, for two corners that lie on one another but for a float's last digit have no right mitre.
    return set_precision(finished, GRID).buffer(SEAM, join_style="mitre", mitre_limit=20)


def on_top(part: Polygon, rect: Polygon) -> Polygon:
    """The quilt turned so that a setting part lies along its top, the edge at y = 0."""
    x1, y1, x2, y2 = rect.bounds
    ways = ((1, 0, 0, 1, 0, -y1), (0, 1, 1, 0, 0, -x1), (1, 0, 0, -1, 0, y2), (0, 1, -1, 0, 0, x2))
    lying = [affine_transform(part, way) for way in ways]
    return max(lying, key=lambda p: p.intersection(box(-FAR, -1, FAR, TINY)).area)


def up(length: float) -> float:
    return -(-(length - ROUGH) // STEP) * STEP


@settings(max_examples=150, deadline=None)
@given(tops())
def test_side_triangles_as_cut_cover_and_are_hardly_larger(top: dict[str, Any]) -> None:
    answer = answer_of(top)
    if answer is None or not answer.found["side_triangles"]:
        return
    (piece,) = (p for p in answer.pieces if p.name == "side square")
    assert piece.made_from == "quarter"
    size = float(piece.across)
    # The quarter whose straight side, the square's lower one, is laid on the quilt's edge; y runs downwards.
    lying = next(
        q for q in quarters(size) if q.intersection(LineString([(0, 0), (size, 0)])).length > size - TINY
    )
    laid = Laid(top)
    deep = sewn(lying)
    least = 0.0
    for part in laid.setting[4:]:
        finished = on_top(part, laid.rect)
        corners = list(finished.exterior.coords)
        apex = max(corners, key=lambda c: c[1])
        own = max(deep.exterior.coords, key=lambda c: c[1])
        placed = translate(deep, apex[0] - own[0], apex[1] - own[1])
        assert placed.buffer(TINY).covers(finished)
        # It lies along the quilt's edge, as the straight side does, and what is over lies outside the edge.
        assert finished.exterior.intersection(box(-FAR, -TINY, FAR, TINY)).length > ROUGH
        assert placed.bounds[1] < TINY
        long = max(x + y for x, y in corners) - min(x - y for x, y in corners)
        with_seams = raw(Polygon([(0, 0), (long, 0), (long / 2, long / 2)])).bounds
        least = max(least, with_seams[2] - with_seams[0])
    assert least - ROUGH <= size <= up(least) + STEP
    assert size <= least + 2 * STEP


@settings(max_examples=150, deadline=None)
@given(tops())
def test_corner_triangles_as_cut_cover_and_are_hardly_larger(top: dict[str, Any]) -> None:
    answer = answer_of(top)
    if answer is None:
        return
    (piece,) = (p for p in answer.pieces if p.name == "corner square")
    assert piece.made_from == "half"
    size = float(piece.across)
    # A half with its right angle, two sides of the square on the grain, at the quilt's corner.
    halves = split(box(0, 0, size, size), LineString([(0, size), (size, 0)])).geoms
    half = sewn(min(halves, key=lambda each: each.distance(Point(0, 0))))
    laid = Laid(top)
    x1, y1, _, _ = laid.rect.bounds
    finished = laid.setting[0]
    assert finished.distance(Point(x1, y1)) < TINY
    finished = translate(finished, -x1, -y1)
    inner = max(x + y for x, y in finished.exterior.coords)  # its long side, which is sewn
    own = max(x + y for x, y in half.exterior.coords)
    placed = translate(half, (inner - own) / 2, (inner - own) / 2)
    assert placed.buffer(TINY).covers(finished)
    bounds = raw(Polygon([(0, 0), (inner, 0), (0, inner)])).bounds
    least = bounds[2] - bounds[0]
    assert least - ROUGH <= size <= up(least) + STEP


@settings(max_examples=150, deadline=None)
@given(tops())
def test_sashes_and_cornerstones_as_cut_hold_their_seams(top: dict[str, Any]) -> None:
    answer = answer_of(top)
    if answer is None or not top["sash"]:
        return
    laid = Laid(top)
    back = [
        (kind, rotate(translate(part, -laid.shift[0], -laid.shift[1]), 45, (0, 0)))
        for kind, part in laid.core
    ]

    def needed(wanted: str) -> list[float]:
        made = []
        for kind, part in back:
            if kind == wanted:
                x1, y1, x2, y2 = raw(part).bounds
                made.append(max(x2 - x1, y2 - y1))
        return sorted(made)

    def has(*names: str) -> list[float]:
        return sorted(
            float(max(p.across, p.along)) for p in answer.pieces if p.name in names for _ in range(p.count)
        )

    if laid.b >= laid.t:  # else the longer side is the sash's width, at the slant too
        needs, cut = needed("sash"), has("sash", "sash to the edge")
        assert all(want - ROUGH <= one for want, one in zip(needs, cut, strict=True))
        assert set(cut) <= {up(laid.b + 2 * SEAM), up(laid.b + 2 * SEAM * (1 + sqrt(2)))}
        assert len(has("sash to the edge")) == sum(want > laid.b + 2 * SEAM + ROUGH for want in needs)
    runs = [float(want) for run in answer.runs for want in run.wants]
    for want, cut in zip(needed("long sash"), sorted(has("long sash") + runs), strict=True):
        assert want - ROUGH <= cut <= up(want) + ROUGH
    thick = (
        {float(min(p.across, p.along)) for p in answer.pieces if "sash" in p.name}
        if laid.b >= laid.t
        else set()
    )
    assert thick <= {up(laid.t + 2 * SEAM)}


@settings(max_examples=100, deadline=None)
@given(tops())
def test_half_cornerstones_as_cut_cover_with_the_grain_on_the_edge(top: dict[str, Any]) -> None:
    answer = answer_of(top)
    if answer is None or not answer.found["half_cornerstones"]:
        return
    (piece,) = (p for p in answer.pieces if p.name == "square for half cornerstones")
    assert piece.made_from == "quarter"
    laid, size = Laid(top), float(piece.across)
    rim = laid.rect.exterior
    halves = [p for kind, p in laid.core if kind == "cornerstone" and p.intersection(rim).length > TINY]
    assert len(halves) == answer.found["half_cornerstones"]
    for part in halves:
        finished = on_top(part, laid.rect)
        long = max(x + y for x, y in finished.exterior.coords) - min(
            x - y for x, y in finished.exterior.coords
        )
        assert long + 2 * SEAM * (1 + sqrt(2)) - 1e-9 <= size


@settings(max_examples=150, deadline=None)
@given(tops())
def test_the_seams_are_those_of_a_top_that_is_sewn(top: dict[str, Any]) -> None:
    answer = answer_of(top)
    if answer is None:
        return
    seams = [length for length in seams_as_sewn(Laid(top)) if length > ROUGH]
    assert close(answer.found["ditch_length"], sum(seams), 1e-6)
    assert close(answer.found["seam_length"], sum(seams) + 2 * SEAM * len(seams), 1e-6)
