"""Lantern Row worked by hand: strips in hand, nine patches, triangles, a sashed street, down to the thread.

The arithmetic stands beside each comparison, from the trade's rules; no number comes from Boltend's output.
"""

from collections.abc import Iterator
from fractions import Fraction as Fr

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
)  # fmt: skip

NAME = "lantern-row"
SPOOL = 500 * METRE
BOBBIN = on_a_bobbin(179, 50)  # class 15: some 108 yd of the grey cotton


@pytest.fixture(scope="module")
def host() -> Iterator[Host]:
    with Host.load() as loaded:
        yield loaded


@pytest.fixture(scope="module")
def found(host: Host) -> Founds:
    return work_out(host, read(NAME))


def test_strips_in_hand(found: Founds) -> None:
    # 42 ÷ 2 1/2 is 16.8: sixteen squares, three times the five of a nine patch. 14 strips: 42 blocks.
    # Used: 15 squares of 6 1/4 sq in out of 105 sq in, 89 2/7 %. Layers of eight: two stacks.
    got = found["Strips in hand"]
    assert (got["sets_each"], got["blocks"], got["stacks"]) == (16 // 5, 3 * 14, 2)
    assert got["used"] == nearest(15 * Fr(25, 4) / 105 * 100, Fr(1, 10)) == Fr(893, 10)


def test_rows_to_choose_from(found: Founds) -> None:
    # a across take 42 // a down; 6 a + 1 1/2 (a − 1) by 12 d + 1 1/2 (d − 1). The tall ones:
    # 8 × 5: 58 1/2 × 66, the only near square (66 ≤ 5/4 · 58 1/2). Up to twice as long: 7 × 6, 51 × 79 1/2.
    # Longer than twice: 6 × 7, 43 1/2 × 93; 5 × 8; 4 × 10; 3 × 14; 2 × 21; 1 × 42. (9 × 4 is wide.)
    got = found["Rows to choose from"]
    assert rows(got, "choices", "across", "down") == [
        (8, 5), (7, 6), (6, 7), (5, 8), (4, 10), (3, 14), (2, 21), (1, 42)
    ]  # fmt: skip
    assert (got["across"], got["down"], got["spare"]) == (8, 5, 42 - 40)
    assert (got["width"], got["height"]) == (8 * 6 + 7 * Fr(3, 2), 5 * 12 + 4 * Fr(3, 2)) == (Fr(117, 2), 66)


def test_street(found: Founds) -> None:
    # 7 upright lines of sash by 5 rows, 8 columns by 4 level lines, 7 × 4 crossings.
    # Seams, raw: 14 joins in each of 5 rows of 12 1/2 and of 4 sash rows of 2; 8 seams between 9 rows of 59.
    raw = 14 * 5 * (12 + 2 * S) + 14 * 4 * (Fr(3, 2) + 2 * S) + 8 * (Fr(117, 2) + 2 * S)
    assert raw == 875 + 112 + 472 == 1459
    ditch = 14 * 5 * 12 + 14 * 4 * Fr(3, 2) + 8 * Fr(117, 2)
    assert ditch == 840 + 84 + 468 == 1392
    assert found["Street"] == {
        "width": Fr(117, 2), "height": 66, "raw_width": 59, "raw_height": Fr(133, 2), "blocks": 40,
        "sashes_down": 7 * 5, "sashes_across": 8 * 4,
        "long_sashes": 0, "long_sash_length": None, "joins": 0, "cornerstone_count": 7 * 4,
        "seam_length": raw, "ditch_length": ditch,
    }  # fmt: skip


def test_glass(found: Founds) -> None:
    # Strips of 6/3 + 1/2. A strip squared (1/2 in) is 41 1/2 in: 16 segments. Two segments a unit have dark
    # outside, 80 of them, 5 sets; one has light outside, 40, 2 1/2 sets: 3, the last of 8 segments.
    # Dark strips 2 · 5 + 3, light ones 5 + 2 · 3.
    # Seams: two along each set, of 16 · 2 1/2 + 1/2 in, the last 8 · 2 1/2 + 1/2; two of 6 1/2 in each unit.
    strip = Fr(6, 3) + 2 * S
    assert strip == Fr(5, 2)
    assert (42 - Fr(1, 2)) // strip == 16
    along = 7 * (16 * strip + Fr(1, 2)) + (8 * strip + Fr(1, 2))
    assert along == 7 * Fr(81, 2) + Fr(41, 2) == 304
    assert found["Glass"] == {
        "strip_width": strip, "segments_each": 16, "segments": 120, "dark_sets": 5, "light_sets": 3,
        "dark_strips": 13, "light_strips": 11, "trim_to": Fr(13, 2), "made": 40,
        "seam_length": 2 * along + 40 * 2 * Fr(13, 2),
    }  # fmt: skip


def flame_square() -> Fr:
    # 6 + s(2 + √2) = 6.8536, up to the eighth: 6 7/8.
    return up(6 + S * (2 + R2), Fr(1, 8))


def test_flames(found: Founds) -> None:
    # Two a pair: 20 pairs. A seam 1/4 in beside the diagonal of a square of side q is q√2 − 2 · 1/4 long, and
    # there are two a pair: 40 · (9.7227 − 0.5) = 368.909, up to the sixteenth 368 15/16.
    square = flame_square()
    assert square == Fr(55, 8)
    seams = up(20 * 2 * (square * R2 - 2 * S), Fr(1, 16))
    assert seams == 368 + Fr(15, 16)
    assert found["Flames"] == {
        "square": square, "squares": 20, "trim_to": Fr(13, 2), "made": 40, "seam_length": seams
    }  # fmt: skip


def test_measured_and_borders(found: Founds) -> None:
    assert found["Street, measured"] == {
        "width": Fr(117, 2), "height": 66, "spread_width": 0, "spread_height": 0
    }  # fmt: skip
    # Kerb, 1 in, sides first: sides 66 + 1/2, ends 58 1/2 + 1/2 + 2. One run of 255; six strips less five
    # joins of 1 1/2 are 244 1/2, seven less six 285.
    sides, ends = 66 + 2 * S, Fr(117, 2) + 2 * S + 2
    assert 2 * (sides + ends) == 255
    kerb = strips_one_by_one(2 * (sides + ends), 42, 1 + 2 * S)
    assert kerb == 7
    # Sky, 4 in, round 60 1/2 × 68: sides 68 1/2, ends 61 + 8. One run of 275; seven less six joins of 4 1/2
    # are 267, eight less seven 304 1/2.
    wide_sides, wide_ends = 68 + 2 * S, Fr(121, 2) + 2 * S + 8
    assert 2 * (wide_sides + wide_ends) == 275
    sky = strips_one_by_one(2 * (wide_sides + wide_ends), 42, 4 + 2 * S)
    assert sky == 8
    got = found["Borders"]
    assert (got["width"], got["height"], got["strips"]) == (Fr(137, 2), 76, 7 + 8)
    names = ("name", "sides_cut", "ends_cut", "strip_width", "strips", "length_to_buy", "width", "height")
    assert rows(got, "each", *names) == [
        ("Kerb", sides, ends, Fr(3, 2), 7, eighths(7 * Fr(3, 2)), Fr(121, 2), 68),
        ("Sky", wide_sides, wide_ends, Fr(9, 2), 8, 36, Fr(137, 2), 76),
    ]
    assert eighths(7 * Fr(3, 2)) == 3 * EIGHTH


def test_binding(found: Founds) -> None:
    # Raw 69 × 76 1/2, round it 291, and 12 of tail. Seven strips less six joins of 2 1/4 are 280 1/2, eight
    # less seven 320 1/4. 18 in is half a yard. (2 1/4 − 2/8) / 6 = 1/3, to the sixteenth 5/16.
    length = 2 * (69 + Fr(153, 2)) + 12
    assert length == 303
    assert strips_one_by_one(length, 42, Fr(9, 4)) == 8
    assert found["Binding"] == {
        "length": length, "strips": 8, "length_to_buy": Fr(18), "bias_square": None, "have_is": None,
        "buy_alone": eighths(Fr(18) + Fr(1, 2)),
        "finished_width": nearest(Fr(1, 3), Fr(1, 16)), "bound_width": 69, "bound_height": Fr(153, 2),
    }  # fmt: skip


def test_backing_and_batting(found: Founds) -> None:
    # 69 + 8 by 76 1/2 + 8. Down: (77 − 1/2) / 41 1/2 is 1.8, two lengths of 84 1/2. Across: 84 / 41 1/2 is
    # 2.02, three of 77. 169 in against 231; 4 5/8 yd are 166 1/2, 4 3/4 are 171.
    got = found["Backing"]
    assert (got["backing_width"], got["backing_height"]) == (77, Fr(169, 2))
    assert (got["panels"], got["seams_run"], got["panel_length"]) == (2, "down", Fr(169, 2))
    assert got["length_to_buy"] == eighths(Fr(169)) == 171
    # Up to the inch 77 × 85, which 81 × 96 covers.
    got = found["Batting"]
    assert (got["needed_width"], got["needed_height"], got["package"]) == (77, 85, "folded full pack")


def test_thread(found: Founds) -> None:
    # In the ditch 1392 in and a fifth: 46.4 yd, to the eighth 46 3/8. T·S = 10/16: 1.625 and 10 % waste.
    # 46.4 · 10 stitches an inch at 600 a minute: 27.84 min.
    path = Fr(1392) * Fr(6, 5)
    assert found["Quilting"] == {
        "path": nearest(path, EIGHTH), "hours": 28,
        **thread(path, 10, Fr(1, 16), Fr(1, 10), SPOOL, BOBBIN),
    }  # fmt: skip
    assert found["Quilting"]["top_thread"] == 83 * YARD  # 46.4 · 1.1 · 1.625 = 82.94
    # Piecing at 12 an inch, 1/40 in thick: 1.3. 1459, 1128 and 368 15/16 in.
    for tab, seams, yards in (
        ("Piecing the street", Fr(1459), 58),  # 40.53 · 1.43 = 57.95
        ("Piecing the glass", Fr(2 * 304 + 40 * 13), 45),  # 31.33 · 1.43 = 44.81
        ("Piecing the flames", 368 + Fr(15, 16), 15),  # 10.25 · 1.43 = 14.66
    ):
        assert found[tab] == thread(seams, 12, Fr(1, 40), Fr(1, 10), SPOOL, BOBBIN)
        assert found[tab]["top_thread"] == yards * YARD


def test_the_parts_cover_the_quilt_and_no_more(found: Founds) -> None:
    """Every finished part laid in its place: their areas add up to the quilt's, and nothing lies double."""
    street, borders = found["Street"], found["Borders"]
    across, down = found["Rows to choose from"]["across"], found["Rows to choose from"]["down"]
    patch, flame = found["Glass"]["strip_width"] - 2 * S, found["Flames"]["trim_to"] - 2 * S
    sash = Fr(3, 2)
    parts: list[Polygon] = []
    lanterns, sashes, stones = 0, 0, 0
    for row in range(down):
        for column in range(across):
            x, y = column * (6 + sash), row * (12 + sash)
            parts += [
                Polygon([(float(x), float(y)), (float(x + flame), float(y)), (float(x), float(y + flame))]),
                Polygon(
                    [(float(x + flame), float(y + flame)), (float(x + flame), float(y)),
                     (float(x), float(y + flame))]
                ),
            ]  # fmt: skip
            parts += [
                rectangle(
                    x + i * patch, y + flame + j * patch, x + (i + 1) * patch, y + flame + (j + 1) * patch
                )
                for i in range(3)
                for j in range(3)
            ]
            lanterns += 1
            right, below = column + 1 < across, row + 1 < down
            if right:
                parts.append(rectangle(x + 6, y, x + 6 + sash, y + 12))
            if below:
                parts.append(rectangle(x, y + 12, x + 6, y + 12 + sash))
            if right and below:
                parts.append(rectangle(x + 6, y + 12, x + 6 + sash, y + 12 + sash))
            sashes, stones = sashes + right + below, stones + (right and below)
    assert lanterns == found["Glass"]["made"] == found["Flames"]["made"]
    assert sashes == street["sashes_down"] + street["sashes_across"]
    assert stones == street["cornerstone_count"]
    quilt = (Fr(0), Fr(0), Fr(street["width"]), Fr(street["height"]))
    for sides_cut, ends_cut, strip in rows(borders, "each", "sides_cut", "ends_cut", "strip_width"):
        assert sides_cut - 2 * S == quilt[3] - quilt[1]
        strips, quilt = framed(quilt, strip - 2 * S, strip - 2 * S)
        assert ends_cut - 2 * S == quilt[2] - quilt[0]
        parts += strips
    assert (quilt[2] - quilt[0], quilt[3] - quilt[1]) == (borders["width"], borders["height"])
    assert sum(part.area for part in parts) == pytest.approx(68.5 * 76, abs=1e-6)
    assert union_all(parts).symmetric_difference(rectangle(*quilt)).area < 1e-6


def test_what_to_buy(host: Host) -> None:
    bought = {each.cloth.name: each for each in Pool().lists(Workbook(host, read(NAME))).fabrics}
    # Thirteen dark strips come out of thirteen of the fourteen in the drawer.
    assert (bought["Dusk strips"].buy.packs, bought["Dusk strips"].buy.have_used) == (0, 13)
    # Gravel: two lengths of 84 1/2 and 1/2 in to square the end, 4 3/4 yd; 5 yd are 10 1/2 in too many.
    gravel = bought["Gravel"]
    assert (gravel.buy.needed, gravel.buy.length) == (Fr(339, 2), 171)
    assert gravel.buy.cost == cost("8.80", Fr(171))
    assert gravel.printed is not None
    assert (gravel.printed.verdict, gravel.printed.by) == ("generous", 180 - Fr(339, 2))


def test_what_to_buy_lies_between_the_area_and_a_plain_way_of_cutting(host: Host) -> None:
    """Never less than the pieces' area, never more than strips cut by hand, and less than apart."""
    bought = {each.cloth.name: each for each in Pool().lists(Workbook(host, read(NAME))).fabrics}
    squaring = Fr(1, 2)
    # Night. Sashes 35 of 2 × 12 1/2 and 32 of 6 1/2 × 2; the sky's run with its seven joins.
    area = 35 * 2 * Fr(25, 2) + 32 * 2 * Fr(13, 2) + (275 + 7 * Fr(9, 2)) * Fr(9, 2)
    # Plainly: a strip of 12 1/2 gives 21 uprights; ten of 2 in hold the other 14 and the 32, since a strip
    # takes 3 uprights, or 6 level ones, or 2 and 2: 4 · 3, 1 of 2 and 2, 5 · 6. Eight strips of sky.
    assert (21 + 4 * 3 + 2, 2 + 5 * 6) == (35, 32)
    plain = Fr(25, 2) + 10 * 2 + 8 * Fr(9, 2) + squaring
    # Apart: the sashes 33 in, the sky 36 1/2.
    apart = eighths(Fr(25, 2) + 20 + squaring) + eighths(36 + squaring)
    night = bought["Night"]
    assert eighths(area / 42 + squaring) <= night.buy.length <= eighths(plain) < apart == night.separate
    # 1 3/4 yd is 63 in; the area alone is more than 63 1/2 in of cloth.
    assert area / 42 > 63
    assert night.printed is not None
    assert night.printed.verdict == "short"
    assert night.printed.by == night.buy.needed - 63

    # Paper. 20 squares, nine strips of 40 1/2 and two of 20 1/2, the kerb's run with its six joins.
    square = flame_square()
    area = 20 * square**2 + (9 * Fr(81, 2) + 2 * Fr(41, 2)) * Fr(5, 2) + (255 + 6 * Fr(3, 2)) * Fr(3, 2)
    # Plainly: six squares a strip, so four strips, the last with two: the 20 1/2 in ones lie beside them.
    assert (42 // square, 42 - 2 * square >= Fr(41, 2), 2 * Fr(5, 2) <= square) == (6, True, True)
    plain = 4 * square + 9 * Fr(5, 2) + 7 * Fr(3, 2) + squaring
    # Apart: glass 9 strips and one for the two short ones, flames four strips, kerb seven.
    apart = eighths(10 * Fr(5, 2) + squaring) + eighths(4 * square + squaring) + eighths(Fr(21, 2) + squaring)
    paper = bought["Paper"]
    assert eighths(area / 42 + squaring) <= paper.buy.length <= eighths(plain) < apart == paper.separate

    # Ember. 20 squares, 28 cornerstones of 2 in, the binding's 303 in with seven joins; 18 in are in hand.
    in_hand = 18 - squaring
    area = 20 * square**2 + 28 * 4 + (303 + 7 * Fr(9, 4)) * Fr(9, 4)
    # Plainly: out of what is in hand seven strips of binding (15 3/4 in); bought four strips of squares and
    # one of binding, the cornerstones beside the last two squares: three rows of 14.
    assert 7 * Fr(9, 4) <= in_hand
    assert 3 * ((42 - 2 * square) // 2) >= 28
    plain = 4 * square + Fr(9, 4) + squaring
    ember = bought["Ember"]
    assert eighths(area / 42 - in_hand + squaring) <= ember.buy.length <= eighths(plain)
    # Apart, with nothing in hand: two strips of cornerstones, four of squares, eight of binding.
    apart = eighths(4 + squaring) + eighths(4 * square + squaring) + eighths(18 + squaring)
    assert ember.separate == apart > ember.buy.length + 18
    for name, price in (("Night", "11.60"), ("Paper", "10.40"), ("Ember", "12.80")):
        assert bought[name].buy.cost == cost(price, bought[name].buy.length)


def test_fewer_strips_make_a_smaller_street(host: Host) -> None:
    project = read(NAME)
    after = work_out(host, set_given(project, project.tab("Strips in hand").key, "precuts", 10))
    # 30 lanterns: 7 × 4 is 51 × 52 1/2, near square and tall; 6 × 5 is 43 1/2 × 66. Borders add 10 each way.
    assert (after["Street"]["blocks"], after["Glass"]["made"], after["Flames"]["made"]) == (28, 28, 28)
    assert (after["Street"]["width"], after["Street"]["height"]) == (51, Fr(105, 2))
    assert (after["Borders"]["width"], after["Borders"]["height"]) == (61, Fr(125, 2))
    assert after["Binding"]["length"] == 2 * (Fr(123, 2) + 63) + 12
