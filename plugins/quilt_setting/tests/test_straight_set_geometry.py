"""A straight set against a top that is really laid out, and one that is really sewn."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction as Fr
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box, union_all  # type: ignore[import-untyped]  # it ships no types
from shapely.geometry import Polygon  # type: ignore[import-untyped]  # it ships no types

from boltend.plugin import Answer, Cannot, Rect, Settings
from boltend_quilt_setting.straight_set import straight_set

SEAM = Fr(1, 4)
# Eighths, so that shapely's floats are exact too.
EIGHTHS = st.integers(4, 160).map(lambda n: Fr(n, 8))


@st.composite
def tops(draw: st.DrawFn) -> dict[str, Any]:
    return {
        "block_width": draw(EIGHTHS), "block_height": draw(EIGHTHS),
        "across": draw(st.integers(1, 6)), "down": draw(st.integers(1, 6)),
        "sash": draw(st.just(Fr(0)) | st.integers(1, 40).map(lambda n: Fr(n, 8))),
        "sash_all_round": draw(st.booleans()), "cornerstones": draw(st.booleans()),
        "sash_fabric": None, "cornerstone_fabric": None,
    }  # fmt: skip


def lines_of(blocks: int, top: dict[str, Any]) -> str:
    """One direction as letters: b a block, s a sash: `bsb`, all round `sbsbs`."""
    if not top["sash"]:
        return "b" * blocks
    inner = "s".join("b" * blocks)
    return f"s{inner}s" if top["sash_all_round"] else inner


def finished_parts(answer: Answer, top: dict[str, Any]) -> Counter[tuple[Fr, Fr]]:
    """All parts of the top by finished size: the blocks, and what the answer says to cut, less the seams."""
    parts: Counter[tuple[Fr, Fr]] = Counter()
    blocks = answer.found["blocks"]
    assert isinstance(blocks, int)
    parts[top["block_width"], top["block_height"]] += blocks
    for piece in answer.pieces:
        parts[piece.across - 2 * SEAM, piece.along - 2 * SEAM] += piece.count
    for run in answer.runs:
        for want in run.wants:
            parts[want - 2 * SEAM, run.width - 2 * SEAM] += 1
    return parts


def laid_out(top: dict[str, Any], parts: Counter[tuple[Fr, Fr]]) -> list[Polygon]:
    """Lay the parts out place by place; a part that is wanted and not there fails, as does one left over."""
    columns, rows = lines_of(top["across"], top), lines_of(top["down"], top)
    wide = {"b": top["block_width"], "s": top["sash"]}
    high = {"b": top["block_height"], "s": top["sash"]}
    laid, y = [], Fr(0)
    for row in rows:
        whole = row == "s" and not top["cornerstones"]
        widths = [sum((wide[c] for c in columns), Fr(0))] if whole else [wide[c] for c in columns]
        x = Fr(0)
        for width in widths:
            assert parts[width, high[row]] > 0, f"no part of {width} × {high[row]} is left"
            parts[width, high[row]] -= 1
            laid.append(box(float(x), float(y), float(x + width), float(y + high[row])))
            x += width
        y += high[row]
    assert not +parts, f"left over: {+parts}"
    return laid


@settings(max_examples=150, deadline=None)
@given(tops())
def test_the_counted_parts_lay_out_the_top_without_gap_or_overlap(top: dict[str, Any]) -> None:
    answer = straight_set(**top, setting=Settings())
    laid = laid_out(top, finished_parts(answer, top))
    whole = union_all(laid)
    width, height = float(Fr(str(answer.found["width"]))), float(Fr(str(answer.found["height"])))
    assert whole.bounds == (0, 0, width, height)
    assert whole.area == sum(part.area for part in laid) == width * height
    # Every seam is the edge of two parts; what is left of the edges is the outline.
    assert (sum(part.length for part in laid) - whole.length) / 2 == answer.found["ditch_length"]


@settings(max_examples=100, deadline=None)
@given(tops())
def test_the_picture_covers_the_top_and_shows_every_block(top: dict[str, Any]) -> None:
    answer = straight_set(**top, setting=Settings())
    rects = [shape for shape in answer.picture if isinstance(shape, Rect)]
    drawn = [box(float(r.x), float(r.y), float(r.x + r.width), float(r.y + r.height)) for r in rects]
    assert union_all(drawn).area == sum(part.area for part in drawn)
    assert union_all(drawn).bounds == (0, 0, answer.found["width"], answer.found["height"])
    counts = Counter(r.fill for r in rects)
    found: Any = answer.found
    assert counts["block"] == found["blocks"]
    assert counts["cornerstone"] == found["cornerstone_count"]
    assert counts["sash"] == found["sashes_down"] + found["sashes_across"] + found["long_sashes"]


@dataclass
class Sewer:
    """Sews parts by their raw sizes and keeps the length of every seam."""

    seams: Fr = Fr(0)

    def side_by_side(self, parts: list[tuple[Fr, Fr]]) -> tuple[Fr, Fr]:
        width, height = parts[0]
        for more, as_high in parts[1:]:
            assert as_high == height
            self.seams += height
            width += more - 2 * SEAM
        return width, height

    def one_under_the_other(self, parts: list[tuple[Fr, Fr]]) -> tuple[Fr, Fr]:
        height, width = self.side_by_side([(h, w) for w, h in parts])
        return width, height


@settings(max_examples=150, deadline=None)
@given(tops())
def test_the_seams_are_those_of_a_top_sewn_from_raw_parts(top: dict[str, Any]) -> None:
    answer = straight_set(**top, setting=Settings())
    over, sewer, rows = 2 * SEAM, Sewer(), []
    wide = {"b": top["block_width"] + over, "s": top["sash"] + over}
    high = {"b": top["block_height"] + over, "s": top["sash"] + over}
    for row in lines_of(top["down"], top):
        if row == "s" and not top["cornerstones"]:
            rows.append((answer.found["long_sash_length"], high["s"]))
        else:
            rows.append(sewer.side_by_side([(wide[c], high[row]) for c in lines_of(top["across"], top)]))
    raw = sewer.one_under_the_other(rows)  # type: ignore[arg-type]  # a long sash's length is no None here
    assert raw == (answer.found["width"] + over, answer.found["height"] + over)  # type: ignore[operator]  # Fractions
    assert raw == (answer.found["raw_width"], answer.found["raw_height"])
    assert sewer.seams == answer.found["seam_length"]


@settings(max_examples=150, deadline=None)
@given(tops(), st.integers(20, 900).map(lambda n: Fr(n, 8)))
def test_the_joins_are_as_few_as_strips_added_one_by_one(top: dict[str, Any], usable: Fr) -> None:
    top = {**top, "sash": max(top["sash"], Fr(1, 2)), "cornerstones": False}
    width = top["sash"] + 2 * SEAM
    try:
        answer = straight_set(**top, setting=Settings(usable_width=usable))
    except Cannot:
        assert usable <= width
        return
    found: Any = answer.found
    if not found["long_sashes"]:
        assert found["joins"] == 0
        return
    reach, joins = usable, 0
    while reach < found["long_sash_length"]:
        reach += usable - width
        joins += 1
    assert found["joins"] == joins * found["long_sashes"]


def test_a_large_top_is_drawn_row_by_row() -> None:
    top = {
        "block_width": Fr(3), "block_height": Fr(3), "across": 120, "down": 90, "sash": Fr(1),
        "sash_all_round": True, "cornerstones": True, "sash_fabric": None, "cornerstone_fabric": None,
    }  # fmt: skip
    answer = straight_set(**top, setting=Settings())
    assert Counter(r.fill for r in answer.picture if isinstance(r, Rect)) == {"block": 90, "sash": 91}
