"""Tidewater worked by hand: a bed, blocks on point with a float, borders to a size, bias binding, thread.

The arithmetic stands beside each comparison, from the trade's rules; no number comes from Boltend's output.
"""

from collections.abc import Iterator
from fractions import Fraction as Fr
from itertools import product

import pytest
from shapely import Polygon, union_all  # type: ignore[import-untyped]  # it ships no types

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import Pool
from boltend.core.project.edits import set_given

from .whole_quilts import (
    EIGHTH,
    METRE,
    R2,
    YARD,
    Founds,
    S,
    cost,
    eighths,
    framed,
    nearest,
    on_a_bobbin,
    read,
    rectangle,
    rows,
    strips_one_by_one,
    thread,
    up,
    work_out,
)

NAME = "tidewater"
FINE = Fr(1, 16)
SPOOL = 400 * METRE
BOBBIN = on_a_bobbin(255, 40)  # M: some 123 yd of the sand cotton
BED = (Fr(275, 4), Fr(371, 4))
TOP = (52 + Fr(15, 16), 78 + Fr(3, 8))
QUILT = (68 + Fr(15, 16), 94 + Fr(3, 8))


@pytest.fixture(scope="module")
def host() -> Iterator[Host]:
    with Host.load() as loaded:
        yield loaded


@pytest.fixture(scope="module")
def found(host: Host) -> Founds:
    return work_out(host, read(NAME))


def test_window_bed(found: Founds) -> None:
    # A US twin is 38 × 75: 38 + 2 · 14 and 75 + 14, each ÷ 0.96: 68.75, and 92.708 up to the sixteenth.
    width, height = Fr(38 + 28) / Fr(96, 100), Fr(75 + 14) / Fr(96, 100)
    assert found["Window bed"] == {"width": up(width, FINE), "height": up(height, FINE)}
    assert (up(width, FINE), up(height, FINE)) == BED


def test_how_many(found: Founds) -> None:
    # 9√2 = 12.728 a block. Columns and the border that they want for 68 3/4, in halves from 4 to 12:
    #   4: 50.91, 9;  5: 63.64, 4;  6: 76.37, 4.   Rows for 92 3/4:  6: 76.37, 8 1/2;  7: 89.10, 4.
    # (3 columns would want 15 1/2, 5 rows 15.) Of the pairs, with the wider border of the two: 4 × 6 with 9;
    # 5 × 7 with 4; 5 × 6 with 8 1/2, which four columns (67.91) do not reach. 4 × 7 and 6 × 7 have a row or a
    # column to spare. Over the bed in area: 126.7, 579.6 and 1153 sq in, in this order.
    def needs(blocks: int, wanted: Fr) -> Fr:
        return max(Fr(4), up((wanted - blocks * 9 * R2) / 2, Fr(1, 2)))

    assert [needs(n, BED[0]) for n in (4, 5, 6)] == [9, 4, 4]
    assert [needs(n, BED[1]) for n in (6, 7)] == [Fr(17, 2), 4]
    assert min(needs(3, BED[0]), needs(5, BED[1])) > 12
    over = [
        (a * 9 * R2 + 2 * b) * (d * 9 * R2 + 2 * b) - BED[0] * BED[1]
        for a, d, b in ((4, 6, 9), (5, 7, 4), (5, 6, Fr(17, 2)))
    ]
    assert over == sorted(over)
    assert BED[0] > 4 * 9 * R2 + 17
    got = dict(found["How many"])
    assert rows(got, "choices", "across", "down") == [(4, 6), (5, 7), (5, 6)]
    width, height = 36 * R2 + 18, 54 * R2 + 18
    assert {**got, "choices": None} == {
        "across": 4, "down": 6, "blocks": 4 * 6 + 3 * 5, "border_sides": 9, "border_ends": 9,
        "width": nearest(width, FINE), "height": nearest(height, FINE),
        "over_width": nearest(width - BED[0], FINE), "over_height": nearest(height - BED[1], FINE),
        "block_width": 9, "block_height": 9,  # as typed: blocks on point are square
        # Without a border 5 columns (63.64) and 7 rows (89.10) fall short: 6 × 8, and 5 × 7 between them.
        "without_border": f"{6 * 8 + 5 * 7} blocks, 6 × 8",
        "bare_width": nearest(54 * R2, FINE), "bare_height": nearest(72 * R2, FINE),
        "choices": None,
    }  # fmt: skip


def test_on_point(found: Founds) -> None:
    # Width 4 · 9√2 + 2 · 1 = 52.912, height 6 · 9√2 + 2 = 78.368, to the sixteenth.
    size = nearest(36 * R2 + 2, FINE), nearest(54 * R2 + 2, FINE)
    assert size == TOP
    # Side triangles: the long side 9√2 + 2 · 1 and s · 2(1 + √2), 15.935; by the constants 1.414 · 9 + 2 +
    # 1 1/4 = 15.976. Both up to 16. Corners: 9/√2 + 2 and s(2 + √2), 9.218; 9/1.414 + 2 + 7/8 = 9.240: 9 1/4.
    side, corner = 9 * R2 + 2 + 2 * S * (1 + R2), 9 / R2 + 2 + S * (2 + R2)
    side_constant, corner_constant = Fr(1414, 1000) * 9 + 2 + Fr(5, 4), 9 / Fr(1414, 1000) + 2 + Fr(7, 8)
    assert up(max(side, side_constant), Fr(1, 8)) == up(side, Fr(1, 8)) == 16
    assert up(max(corner, corner_constant), Fr(1, 8)) == up(corner, Fr(1, 8)) == Fr(37, 4)
    # Sixteen side triangles, four a square; four corners, two a square. 4 + 6 − 1 diagonal rows.
    # Seams: the 24 blocks at the points have 4 sides of 9 in each, which are all the sides there are; and one
    # of √2 from each of the 2 (4 + 6) points through the float to the edge.
    ditch = 24 * 4 * 9 + 20 * R2
    # Sewn in diagonal rows: 39 − 9 seams between blocks, 16 side triangles, 8 between the rows, 4 corners.
    # Each is two allowances longer, raw.
    raw = ditch + (39 - 9 + 16 + 8 + 4) * 2 * S
    assert found["On point"] == {
        "width": size[0], "height": size[1], "blocks": 39, "inner_blocks": 15,
        "raw_width": nearest(36 * R2 + 2 + 2 * S, FINE), "raw_height": nearest(54 * R2 + 2 + 2 * S, FINE),
        "side_triangles": 2 * 3 + 2 * 5, "corner_triangles": 4, "side_square": 16, "corner_square": Fr(37, 4),
        "side_squares": 4, "corner_squares": 2, "diagonal": nearest(9 * R2, FINE), "sashes": 0,
        "long_sashes": 0, "cornerstone_count": 0, "half_cornerstones": 0, "diagonal_rows": 9,
        "seam_length": nearest(raw, FINE), "ditch_length": nearest(ditch, FINE),
    }  # fmt: skip


def test_pools(found: Founds) -> None:
    # Centre 9/√2 + 1/2 = 6.864, up to 6 7/8; corners from squares of 4 1/2 + s(2 + √2) = 5.354, up to 5 3/8.
    centre, corner = up(9 / R2 + 2 * S, Fr(1, 8)), up(Fr(9, 2) + S * (2 + R2), Fr(1, 8))
    assert (centre, corner) == (Fr(55, 8), Fr(43, 8))
    assert {**found["Pools"], "seam_length": None} == {
        "centre_square": centre, "centre_squares": 39, "corner_square": corner, "corner_squares": 78,
        "trim_to": Fr(19, 2), "made": 39, "seam_length": None,
    }  # fmt: skip


def test_seams_of_the_pools(found: Founds) -> None:
    """Measured on the pieces as cut, like a half-square triangle's: as far as both layers reach."""
    # A corner is half of a square of 5 3/8: its long side is 7.601, and a seam below that it is 7.101 wide.
    # The first two lie on the centre, which is 6 7/8 wide there. The other two lie on the centre and the
    # first two: these reach (7.601 − 6.875)/2 past the centre's corner, less a seam on the slant, and the
    # seam takes up two: 6.875 + 2 · (0.363 + 1/4 − 1/2) = 7.101 too.
    centre, corner = Fr(55, 8), Fr(43, 8)
    triangle = corner * R2 - 2 * S
    under = centre + 2 * ((corner * R2 - centre) / 2 + S - 2 * S)
    assert under == triangle
    each = 2 * min(centre, triangle) + 2 * min(under, triangle)
    assert found["Pools"]["seam_length"] == up(39 * each, FINE)


def test_measured_and_border_widths(found: Founds) -> None:
    assert found["Top, measured"] == {
        "width": TOP[0], "height": TOP[1], "spread_width": 0, "spread_height": 0
    }  # fmt: skip
    # (68 3/4 − 52 15/16) / 2 = 7 29/32 and (92 3/4 − 78 3/8) / 2 = 7 3/16: eight in halves. A third of
    # that is 2 1/2 inside; then 8 1/2 and 9 in all; then of eight 1 and 7, and, fifth, 1 1/2 and 6 1/2.
    needed = up(max((BED[0] - TOP[0]) / 2, (BED[1] - TOP[1]) / 2), Fr(1, 2))
    assert needed == 8
    got = found["Border widths"]
    names = tuple(f"border_{n}_{part}" for n in (1, 2, 3, 4) for part in ("sides", "ends"))
    inner, outer = Fr(3, 2), Fr(13, 2)
    assert tuple(got[name] for name in names) == (inner, inner, outer, outer, None, None, None, None)
    assert (got["width"], got["height"]) == (TOP[0] + 16, TOP[1] + 16) == QUILT
    assert (got["over_width"], got["over_height"]) == (QUILT[0] - BED[0], QUILT[1] - BED[1])
    # The grid promised 9 in of border: the float's inch and these eight.
    assert found["How many"]["border_sides"] == 1 + inner + outer


def test_shoreline(found: Founds) -> None:
    # Surf, 1 1/2, sides first: 78 3/8 + 1/2; ends 52 15/16 + 1/2 + 3 = 56 7/16, cut to the eighth 56 1/2. One
    # run of 270 3/4: six strips less five joins of 2 are 242, seven less six 282.
    sides, ends = TOP[1] + 2 * S, up(TOP[0] + 2 * S + 3, Fr(1, 8))
    assert (sides, ends) == (Fr(631, 8), Fr(113, 2))
    assert strips_one_by_one(2 * (sides + ends), 42, Fr(2)) == 7
    # Tideline, 6 1/2, with cornerstones round 55 15/16 × 81 3/8: 81 7/8 and 56 7/16, cut 56 1/2. One run of
    # 276 3/4: seven strips less six joins of 7 are 252, eight less seven 287.
    wide_sides, wide_ends = TOP[1] + 3 + 2 * S, up(TOP[0] + 3 + 2 * S, Fr(1, 8))
    assert strips_one_by_one(2 * (wide_sides + wide_ends), 42, Fr(7)) == 8
    got = found["Shoreline"]
    assert (got["width"], got["height"], got["strips"]) == (*QUILT, 15)
    names = ("name", "sides_cut", "ends_cut", "strip_width", "strips", "cornerstones", "length_to_buy")
    assert rows(got, "each", *names) == [
        ("Surf", sides, ends, 2, 7, 0, eighths(Fr(14))),
        ("Tideline", wide_sides, wide_ends, 7, 8, 4, eighths(Fr(56))),
    ]
    assert (eighths(Fr(14)), eighths(Fr(56))) == (4 * EIGHTH, 13 * EIGHTH)


def test_binding(found: Founds) -> None:
    # Raw 69 7/16 × 94 7/8; round it and 10 of tail 338 5/8. On the bias: whole turns of 2 1/2 in, each √2 ·
    # (q − 4 · 1/4) long. A square of 30 in has 8 of 41.01 (30 / 3.536 is 8.49), 328; one of 31 has 8 of
    # 42.43, 339.4. 31 in are less than 7 eighths of a yard (31 1/2).
    length = 2 * (QUILT[0] + 2 * S) + 2 * (QUILT[1] + 2 * S) + 10
    assert length == 338 + Fr(5, 8)

    def turns(q: int) -> Fr:
        return (q / (R2 * Fr(5, 2)) // 1) * R2 * (q - 4 * S)

    assert turns(30) < length <= turns(31)
    assert found["Binding"] == {
        "length": up(length, Fr(1, 2)), "strips": None, "length_to_buy": 7 * EIGHTH, "bias_square": 31,
        "have_is": None,
        "buy_alone": 7 * EIGHTH,  # 31 in and 1/2 in to square its end: just as much
        "finished_width": Fr(3, 8), "bound_width": QUILT[0] + 2 * S, "bound_height": QUILT[1] + 2 * S,
    }  # fmt: skip


def test_backing_and_batting(found: Founds) -> None:
    # 77 7/16 × 102 7/8, both within 106: one piece either way, and the shorter length is 77 7/16.
    width, height = QUILT[0] + 2 * S + 8, QUILT[1] + 2 * S + 8
    assert (width, height) == (77 + Fr(7, 16), 102 + Fr(7, 8))
    got = found["Backing"]
    assert (got["panels"], got["panel_length"]) == (1, up(width, Fr(1, 8)))
    assert (got["backing_width"], got["backing_height"]) == (up(width, Fr(1, 8)), height)
    assert got["length_to_buy"] == eighths(width) == Fr(9, 4) * YARD
    # ÷ 0.97, up to the inch: 79.83 is 80, 106.06 is 107. On 96 in only the 80 lies across: 107 in of length,
    # 3 yd.
    needed = up(width / Fr(97, 100), Fr(1)), up(height / Fr(97, 100), Fr(1))
    assert needed == (80, 107)
    got = found["Batting"]
    assert (got["needed_width"], got["needed_height"], got["roll_length"]) == (*needed, 3 * YARD)


def test_thread(found: Founds) -> None:
    # A meander 2 in apart: 68 15/16 · 94 3/8 / 2 = 3252.99 in, 90.36 yd. T·S = 10/16, 15 % waste: 168.86 yd.
    # At 10 an inch and 800 a minute 40.66 min.
    path = QUILT[0] * QUILT[1] / 2
    assert found["Quilting"] == {
        "path": nearest(path, EIGHTH), "hours": 41,
        **thread(path, 10, Fr(1, 16), Fr(15, 100), SPOOL, BOBBIN),
    }  # fmt: skip
    assert (found["Quilting"]["top_thread"], found["Quilting"]["bobbins"]) == (169 * YARD, 2)
    # The setting's 921 5/16 in: 25.59 · 1.43 = 36.6 yd.
    setting = nearest(24 * 4 * 9 + 20 * R2 + 58 * 2 * S, FINE)
    assert found["Piecing the setting"] == thread(setting, 12, Fr(1, 40), Fr(1, 10), SPOOL, BOBBIN)
    assert found["Piecing the setting"]["top_thread"] == 37 * YARD
    pools = found["Pools"]["seam_length"]
    assert found["Piecing the pools"] == thread(pools, 12, Fr(1, 40), Fr(1, 10), SPOOL, BOBBIN)


def diamond(x: float, y: float, half: float) -> Polygon:
    """A square on its point."""
    return Polygon([(x - half, y), (x, y - half), (x + half, y), (x, y + half)])


def pool(x: float, y: float, half: float) -> list[Polygon]:
    """The centre and the four corners of a square in a square that stands on its point."""
    points = [(x - half, y), (x, y - half), (x + half, y), (x, y + half)]
    middles = [
        ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in zip(points, points[1:] + points[:1], strict=True)
    ]
    corners = [Polygon([middles[n - 1], points[n], middles[n]]) for n in range(4)]
    return [Polygon(middles), *corners]


def test_the_parts_cover_the_quilt_and_no_more(found: Founds) -> None:
    """Blocks on point and setting triangles with their float, and the borders, laid in their places.

    Where two setting triangles meet beyond a point, both reach over the seam through the float by the same
    small triangle, 2 in on the edge and 1 in high: that is sewn away, once at each of the 20 points.
    """
    point, float_ = found["On point"], 1.0
    half = 9 / 2**0.5
    width, height = 8 * half + 2 * float_, 12 * half + 2 * float_
    main = [
        (float_ + half * (2 * c + 1), float_ + half * (2 * r + 1)) for c, r in product(range(4), range(6))
    ]
    inner = [
        (float_ + half * (2 * c + 2), float_ + half * (2 * r + 2)) for c, r in product(range(3), range(5))
    ]
    assert (len(main) + len(inner), len(inner)) == (point["blocks"], point["inner_blocks"])
    blocks = [part for x, y in main + inner for part in pool(x, y, half)]
    # What is cut, less its seams: the long side of a quarter of the side square, half a corner's leg.
    long = float(point["side_square"] - 2 * S * (1 + R2))
    leg = float(point["corner_square"] - S * (2 + R2))
    exact_long, exact_leg = 9 * 2**0.5 + 2 * float_, half + 2 * float_
    assert 0 <= long - exact_long < 1 / 8
    assert 0 <= leg - exact_leg < 1 / 8
    reach = half + float_  # half a long side: from the middle of its base to the base's end, and to its top
    sides = []
    for c in range(3):
        x = float_ + half * (2 * c + 2)
        sides.append(Polygon([(x - reach, 0), (x + reach, 0), (x, reach)]))
        sides.append(Polygon([(x - reach, height), (x + reach, height), (x, height - reach)]))
    for r in range(5):
        y = float_ + half * (2 * r + 2)
        sides.append(Polygon([(0, y - reach), (0, y + reach), (reach, y)]))
        sides.append(Polygon([(width, y - reach), (width, y + reach), (width - reach, y)]))
    corners = [
        Polygon([(x, y), (x + dx * exact_leg, y), (x, y + dy * exact_leg)])
        for x, y, dx, dy in ((0, 0, 1, 1), (width, 0, -1, 1), (0, height, 1, -1), (width, height, -1, -1))
    ]
    assert (len(sides), len(corners)) == (point["side_triangles"], point["corner_triangles"])
    parts = [*blocks, *sides, *corners]
    sewn_away = 20 * float_ * float_
    assert sum(part.area for part in parts) - sewn_away == pytest.approx(width * height, abs=1e-6)
    assert union_all(parts).symmetric_difference(rectangle(Fr(0), Fr(0), Fr(width), Fr(height))).area < 1e-6
    # The size that is shown is that, to the sixteenth; the borders go round it.
    assert (point["width"], point["height"]) == (nearest(Fr(width), FINE), nearest(Fr(height), FINE))
    quilt = (Fr(0), Fr(0), Fr(point["width"]), Fr(point["height"]))
    surf, outer = framed(quilt, Fr(3, 2), Fr(3, 2))
    left, top, right, bottom = outer
    wide = Fr(13, 2)
    tideline = [
        rectangle(left - wide, top, left, bottom), rectangle(right, top, right + wide, bottom),
        rectangle(left, top - wide, right, top), rectangle(left, bottom, right, bottom + wide),
        *(rectangle(x, y, x + wide, y + wide) for x in (left - wide, right) for y in (top - wide, bottom)),
    ]  # fmt: skip
    round_it = [*surf, *tideline]
    whole = float(found["Shoreline"]["width"] * found["Shoreline"]["height"])
    top_area = float(point["width"] * point["height"])
    assert sum(part.area for part in round_it) + top_area == pytest.approx(whole, abs=1e-6)
    assert union_all([*round_it, rectangle(*quilt)]).area == pytest.approx(whole, abs=1e-6)


def test_what_to_buy(host: Host) -> None:
    lists = Pool().lists(Workbook(host, read(NAME)))
    bought = {each.cloth.name: each for each in lists.fabrics}
    squaring = Fr(1, 2)
    # Shoal, 43 in wide: two squares of 16 a strip at most (three are 48), so 32 in; beside them 11 in, where
    # a square of 9 1/4 lies. 32 1/2 in is 1 yd, as printed, with 3 1/2 in to spare.
    assert 2 * 16 + Fr(37, 4) <= 43 < 3 * 16
    shoal = bought["Shoal"]
    assert (shoal.buy.needed, shoal.buy.length) == (32 + squaring, YARD)
    assert shoal.buy.cost == cost("11.20", Fr(YARD))
    assert shoal.printed is not None
    assert (shoal.printed.verdict, shoal.printed.by) == ("enough", Fr(7, 2))
    # Deep: 77 7/16 and the squaring, 2 1/4 yd; of 3 yd more than an eighth is left.
    deep = bought["Deep"]
    assert deep.buy.length == Fr(9, 4) * YARD
    assert deep.buy.cost == cost("19.20", deep.buy.length)
    assert deep.printed is not None
    assert deep.printed.verdict == "generous"
    # Batting off the roll: 3 yd at 11.00.
    (batting,) = (line for line in lists.goods if line.tabs == ("Batting",))
    assert batting.cost == cost("11.00", Fr(3 * YARD))


def test_what_to_buy_lies_between_the_area_and_a_plain_way_of_cutting(host: Host) -> None:
    bought = {each.cloth.name: each for each in Pool().lists(Workbook(host, read(NAME))).fabrics}
    squaring = Fr(1, 2)
    # Tide: 78 squares of 5 3/8, seven a strip; tideline's 276 3/4 in with seven joins of 7 in, eight strips.
    # Plainly: eleven strips and 77 squares, the last beside the eighth strip's 31 3/4 in.
    square, run = Fr(43, 8), Fr(1107, 4) + 7 * 7
    assert (42 // square, 42 - (run - 7 * 42) >= square) == (7, True)
    plain = 11 * square + 8 * 7 + squaring
    apart = eighths(12 * square + squaring) + eighths(8 * 7 + squaring)
    tide = bought["Tide"]
    area = 78 * square**2 + run * 7
    assert eighths(area / 42 + squaring) <= tide.buy.length <= eighths(plain) < apart == tide.separate
    assert tide.buy.cost == cost("13.40", tide.buy.length)
    # Foam: 39 centres of 6 7/8, six a strip; surf's 270 3/4 in with six joins of 2 in, seven strips; four
    # cornerstones of 7; a square of 31. In hand 27 in, squared. Plainly: in hand a strip of 7 with the
    # cornerstones and two centres beside them, a strip of centres and six of surf (25 7/8 in); bought the
    # square, with one centre beside it, five strips of centres and one of surf.
    centre = Fr(55, 8)
    assert 4 * 7 + 2 * centre <= 42
    assert 31 + centre <= 42
    assert 2 + 6 + 1 + 5 * 6 == 39
    in_hand = 27 - squaring
    assert 7 + centre + 6 * 2 <= in_hand
    plain = 31 + 5 * centre + 2 + squaring
    area = 39 * centre**2 + (Fr(1083, 4) + 6 * 2) * 2 + 4 * 49 + 31 * 31
    # Apart: pools seven strips; shoreline seven strips of surf and one of cornerstones; the bias square.
    apart = eighths(7 * centre + squaring) + eighths(14 + 7 + squaring) + eighths(31 + squaring)
    foam = bought["Foam"]
    assert eighths(area / 42 - in_hand + squaring) <= foam.buy.length <= eighths(plain)
    assert foam.separate == apart > foam.buy.length + 27
    assert foam.buy.cost == cost("10.80", foam.buy.length)


def test_the_second_grid_goes_through(host: Host) -> None:
    project = read(NAME)
    after = work_out(host, set_given(project, project.tab("How many").key, "pick", 2))
    # 5 × 7 and 4 × 6 inner ones; 45√2 + 2 = 65.640 by 63√2 + 2 = 91.095.
    assert (after["On point"]["blocks"], after["Pools"]["made"]) == (35 + 24, 35 + 24)
    size = nearest(45 * R2 + 2, FINE), nearest(63 * R2 + 2, FINE)
    assert (after["On point"]["width"], after["On point"]["height"]) == size
    # Still to the bed: 1.56 a side by width, but two borders are 2 in at least; picked the fifth choice.
    borders = after["Border widths"]
    total = borders["border_1_sides"] + borders["border_2_sides"]
    assert (after["Shoreline"]["width"], after["Shoreline"]["height"]) == (
        size[0] + 2 * total, size[1] + 2 * total
    )  # fmt: skip
    assert after["Shoreline"]["width"] >= BED[0]
    assert after["Shoreline"]["height"] >= BED[1]
