"""Short Measure worked by hand: blocks that came out short, a pieced border that must fit, and all else.

The arithmetic stands beside each comparison, from the trade's rules; no number comes from Boltend's output.
"""

from collections.abc import Iterator
from fractions import Fraction as Fr

import pytest

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
    nearest,
    on_a_bobbin,
    read,
    rows,
    strips_one_by_one,
    thread,
    up,
    work_out,
)

NAME = "short-measure"
FINE = Fr(1, 16)
SPOOL = 300 * METRE
BOBBIN = on_a_bobbin(130, 50)  # L: some 78 1/2 yd of the chalk cotton
TRIMMED = Fr(49, 4)
BLOCK = Fr(47, 4)
TOP = (Fr(103, 2), Fr(259, 4))


@pytest.fixture(scope="module")
def host() -> Iterator[Host]:
    with Host.load() as loaded:
        yield loaded


@pytest.fixture(scope="module")
def found(host: Host) -> Founds:
    return work_out(host, read(NAME))


def test_swapped_blocks(found: Founds) -> None:
    # Of the twenty two measure 12 1/4, five 12 3/8, eleven 12 1/2 and two 12 5/8: seven short, two long.
    # Trimmed to the smallest they finish at 11 3/4; a coping strip round it would be an eighth.
    assert 2 + 5 + 11 + 2 == 20
    assert TRIMMED - 2 * S == BLOCK
    assert found["Swapped blocks"] == {
        "trim_to": TRIMMED, "finished_size": BLOCK, "short": 2 + 5, "long": 2,
        "coping_strip": (Fr(25, 2) - TRIMMED) / 2, "spread": Fr(3, 8),
    }  # fmt: skip


def test_swap_set(found: Founds) -> None:
    # 4 · 11 3/4 + 3 · 1 1/2 = 51 1/2 by 5 · 11 3/4 + 4 · 1 1/2 = 64 3/4. Full blocks would have made 52 1/2.
    sash = Fr(3, 2)
    assert (4 * BLOCK + 3 * sash, 5 * BLOCK + 4 * sash) == TOP
    # Six joins in each of five rows of 12 1/4 and four sash rows of 2; eight seams of 52 between nine rows.
    raw = 6 * 5 * TRIMMED + 6 * 4 * 2 + 8 * 52
    ditch = 6 * 5 * BLOCK + 6 * 4 * sash + 8 * TOP[0]
    assert (raw, ditch) == (Fr(1663, 2), Fr(1601, 2))
    assert found["Swap set"] == {
        "width": TOP[0], "height": TOP[1], "blocks": 20, "sashes_down": 3 * 5, "sashes_across": 4 * 4,
        "long_sashes": 0, "long_sash_length": None, "joins": 0, "cornerstone_count": 3 * 4,
        "seam_length": raw, "ditch_length": ditch, "raw_width": TOP[0] + 2 * S, "raw_height": TOP[1] + 2 * S,
    }  # fmt: skip


def test_will_it_fit(found: Founds) -> None:
    # Spacers of 1 to 4 in by eighths that make threes. Across 51 1/2 + 2x: 54 with 1 1/4, 57 with 2 3/4. Down
    # 64 3/4 + 2y: 66 would want 5/8, too narrow; 69 with 2 1/8, 72 with 3 5/8. The narrowest: 1 1/4 and
    # 2 1/8, 18 and 23 triangles. The border is 3 in: 60 × 75.
    steps = [1 + Fr(n, 8) for n in range(25)]
    across = [x for x in steps if (TOP[0] + 2 * x) % 3 == 0]
    down = [y for y in steps if (TOP[1] + 2 * y) % 3 == 0]
    assert (across, down) == ([Fr(5, 4), Fr(11, 4)], [Fr(17, 8), Fr(29, 8)])
    exact = sorted((max(x, y), abs(x - y), x, y) for x in across for y in down)
    got = dict(found["Will it fit"])
    names = ("spacer_sides", "spacer_ends", "left_over_across", "left_over_down")
    assert rows(got, "choices", *names)[: len(exact)] == [(x, y, 0, 0) for _, _, x, y in exact]
    assert {**got, "choices": None} == {
        "spacer_sides": Fr(5, 4), "spacer_ends": Fr(17, 8), "repeats_across": 18, "repeats_down": 23,
        "repeats": 82, "repeats_and_corners": 86,
        "left_over_across": 0, "left_over_down": 0, "repeat_used": 3, "width": 54 + 6, "height": 69 + 6,
        "choices": None,
    }  # fmt: skip


def test_spacer(found: Founds) -> None:
    # Sides first: 64 3/4 + 1/2, strips of 1 3/4; ends 51 1/2 + 1/2 + 2 1/2, strips of 2 5/8. Sides 130 1/2
    # in: three strips less two joins are 122 1/2, four less three 162 3/4. Ends 109: 81 3/8, then 120 3/4.
    # 4 · 1 3/4 + 3 · 2 5/8 = 14 7/8: half a yard.
    sides, ends = TOP[1] + 2 * S, TOP[0] + 2 * S + Fr(5, 2)
    assert (sides, ends) == (Fr(261, 4), Fr(109, 2))
    assert strips_one_by_one(2 * sides, 42, Fr(7, 4)) == 4
    assert strips_one_by_one(2 * ends, 42, Fr(21, 8)) == 3
    got = found["Spacer"]
    assert {**got, "each": None} == {
        "width": 54, "height": 69, "sides_cut": sides, "ends_cut": ends, "strips": 7, "have_is": None,
        "length_to_buy": eighths(Fr(119, 8)), "each": None, "buy_alone": 4 * EIGHTH,  # 15 3/8 in, squared
        "raw_width": Fr(109, 2), "raw_height": Fr(139, 2),
    }  # fmt: skip
    assert eighths(Fr(119, 8)) == YARD / 2


def test_teeth(host: Host, found: Founds) -> None:
    # Two edges of 18, two of 23, four corners; the project links the count.
    teeth = 2 * (18 + 23) + 4
    fit = found["Will it fit"]
    assert fit["repeats_and_corners"] == teeth == 86
    # Eight at a time: 2 · 3 + 2 · s(2 + √2) = 7.707, up to 7 3/4. Eleven pairs make 88. Each is sewn on both
    # sides of both diagonals: 4 (7 3/4 · √2 − 1/2) = 41.84.
    square = up(6 + 2 * S * (2 + R2), Fr(1, 8))
    assert square == Fr(31, 4)
    seams = up(11 * 4 * (square * R2 - 2 * S), FINE)
    assert found["Teeth"] == {
        "square": square, "squares": 11, "trim_to": Fr(7, 2), "made": 88, "seam_length": seams
    }  # fmt: skip
    assert seams == 460 + Fr(1, 4)


def test_to_the_size_and_the_last_border(found: Founds) -> None:
    # (68 − 60) / 2 = 4 and (84 − 75) / 2 = 4 1/2.
    got = found["To the size"]
    assert (got["border_1_sides"], got["border_1_ends"]) == (4, Fr(9, 2))
    assert (got["width"], got["height"], got["over_width"], got["over_height"]) == (68, 84, 0, 0)
    # Sides 75 1/2, ends 60 1/2 + 8. Each side by itself, a straight join takes 1/2: two strips reach 83 1/2.
    # Four strips of 4 1/2 and four of 5: 38 in, 9 eighths of a yard.
    sides, ends = 75 + 2 * S, 60 + 2 * S + 8
    assert strips_one_by_one(sides, 42, 2 * S) == strips_one_by_one(ends, 42, 2 * S) == 2
    assert {**found["Last border"], "each": None} == {
        "width": 68, "height": 84, "sides_cut": sides, "ends_cut": ends, "strips": 8, "have_is": None,
        "length_to_buy": 9 * EIGHTH, "each": None, "buy_alone": 9 * EIGHTH,  # 38 1/2 in, squared
        "raw_width": Fr(137, 2), "raw_height": Fr(169, 2),
    }  # fmt: skip
    assert eighths(4 * Fr(9, 2) + 4 * Fr(5)) == 9 * EIGHTH


def test_binding(found: Founds) -> None:
    # Round 68 1/2 × 84 1/2 and 10: 316. Straight joins of 1/2: seven strips are 291, eight 332 1/2. 18 in.
    length = 2 * (Fr(137, 2) + Fr(169, 2)) + 10
    assert length == 316
    assert strips_one_by_one(length, 42, 2 * S) == 8
    assert found["Binding"] == {
        "length": length, "strips": 8, "length_to_buy": 18, "bias_square": None, "have_is": None,
        "buy_alone": eighths(Fr(37, 2)),
        "finished_width": nearest(Fr(1, 3), FINE), "bound_width": Fr(137, 2), "bound_height": Fr(169, 2),
    }  # fmt: skip


def test_backing_and_batting(found: Founds) -> None:
    # 76 1/2 × 92 1/2. Down: 76 / 41 1/2 is 1.8, two; the second of whole checks of 12: 92 1/2 + 96 = 188 1/2.
    # Across: 92 / 41 1/2 is 2.2, three: 76 1/2 + 2 · 84 = 244 1/2. 188 1/2 in is 5 1/4 yd (189).
    got = found["Backing"]
    assert (got["backing_width"], got["backing_height"]) == (Fr(153, 2), Fr(185, 2))
    assert (got["panels"], got["seams_run"], got["panel_length"]) == (2, "down", Fr(185, 2))
    assert got["length_to_buy"] == eighths(Fr(185, 2) + up(Fr(185, 2), Fr(12))) == 189
    got = found["Batting"]
    assert (got["needed_width"], got["needed_height"], got["package"]) == (77, 93, "thick wool pack")


def test_thread(found: Founds) -> None:
    # A square grid of 3 in: 2 · 68 · 84 / 3 = 3808 in, 105.78 yd. T·S = 8/8: twice, and 10 %: 232.71 yd of
    # each, 466 yd in all from spools of 328. Nobody says how fast.
    path = Fr(2 * 68 * 84, 3)
    assert found["Quilting"] == {
        "path": nearest(path, EIGHTH), "hours": None,
        **thread(path, 8, Fr(1, 8), Fr(1, 10), SPOOL, BOBBIN),
    }  # fmt: skip
    quilting = found["Quilting"]
    assert (quilting["top_thread"], quilting["spools"], quilting["bobbins"]) == (233 * YARD, 2, 3)
    for tab, seams, yards in (
        ("Piecing the set", Fr(1663, 2), 34),  # 23.10 · 1.43 = 33.03
        ("Piecing the teeth", 460 + Fr(1, 4), 19),  # 12.78 · 1.43 = 18.28
    ):
        assert found[tab] == thread(seams, 12, Fr(1, 40), Fr(1, 10), SPOOL, BOBBIN)
        assert found[tab]["top_thread"] == yards * YARD


def test_what_to_buy(host: Host) -> None:
    bought = {each.cloth.name: each for each in Pool().lists(Workbook(host, read(NAME))).fabrics}
    squaring = Fr(1, 2)
    # The check: 188 1/2 in and the squaring are 5 1/4 yd to a hair, and not an eighth more. 5 yd are 9 short.
    flannel = bought["Flannel check"]
    assert (flannel.buy.needed, flannel.buy.length) == (189, 189)
    assert flannel.buy.cost == cost("7.90", Fr(189))
    assert flannel.printed is not None
    assert (flannel.printed.verdict, flannel.printed.by) == ("short", 189 - 180)
    # Chalk: teeth 11 squares of 7 3/4, five a strip; the sides' four strips, the ends' three. Plainly: the
    # ends' last 30 1/4 in lie beside the eleventh square. 23 1/4 + 7 + 5 1/4 and the squaring: a yard to a
    # hair. The area alone is 7 eighths.
    square = Fr(31, 4)
    sides_run, ends_run = Fr(261, 2) + 3 * Fr(7, 4), 109 + 2 * Fr(21, 8)
    assert 42 // square == 5
    assert ends_run - 2 * 42 <= 42 - square
    plain = 3 * square + 4 * Fr(7, 4) + 2 * Fr(21, 8) + squaring
    assert plain == YARD
    area = 11 * square**2 + sides_run * Fr(7, 4) + ends_run * Fr(21, 8)
    apart = eighths(3 * square + squaring) + eighths(Fr(119, 8) + squaring)
    chalk = bought["Chalk"]
    assert eighths(area / 42 + squaring) <= chalk.buy.length <= eighths(plain) < apart == chalk.separate
    # Rust: the same 11 squares, 12 cornerstones of 2, the binding's 316 in with seven joins of 1/2. Out of
    # 9 in in hand a strip of five squares; bought two strips, beside the eleventh square four columns of
    # three cornerstones (3 · 2 in of 7 3/4), and the binding's last 25 1/2 in; seven strips of binding.
    run = 316 + 7 * Fr(1, 2) - 7 * 42
    assert run == Fr(51, 2)
    assert square <= 9 - squaring
    assert square + 4 * 2 + run <= 42
    plain = 2 * square + 7 * Fr(9, 4) + squaring
    area = 11 * square**2 + 12 * 4 + (316 + 7 * Fr(1, 2)) * Fr(9, 4)
    apart = eighths(3 * square + squaring) + eighths(2 + squaring) + eighths(18 + squaring)
    rust = bought["Rust"]
    least = eighths(area / 42 - (9 - squaring) + squaring)
    assert least <= rust.buy.length <= eighths(plain) < apart == rust.separate
    # Ink: 31 sashes of 2 × 12 1/4, 21 out of a strip 12 1/4 wide; sides 4 strips of 4 1/2, ends 4 of 5.
    # Beside the ends' 27 in (68 1/2 + 1/2 − 42) lie two sashes each, four; the last six in two strips of 2.
    assert (42 // 2, Fr(49, 4) <= 42 - 27, 2 * 2 <= 5, 21 + 4 + 6) == (21, True, True, 31)
    plain = Fr(49, 4) + 2 * 2 + 4 * Fr(9, 2) + 4 * 5 + squaring
    area = 31 * 2 * Fr(49, 4) + 2 * 76 * Fr(9, 2) + 2 * 69 * 5
    apart = eighths(Fr(49, 4) + 4 * 2 + squaring) + eighths(38 + squaring)
    ink = bought["Ink"]
    assert eighths(area / 42 + squaring) <= ink.buy.length <= eighths(plain) < apart == ink.separate
    assert ink.printed is not None
    assert ink.printed.verdict == "generous"
    for name, price in (("Chalk", "9.80"), ("Rust", "12.20"), ("Ink", "12.60")):
        assert bought[name].buy.cost == cost(price, bought[name].buy.length)


def test_one_thread_for_three_tabs_is_bought_once(host: Host) -> None:
    # 466 yd to quilt, twice 34 and twice 19 to piece, from spools of 300 m, 328.08 yd: 1.42 + 0.21 + 0.12 are
    # 1.74, two spools of 5.40. Each tab by itself would open its own: 2 + 1 + 1.
    goods = Pool().lists(Workbook(host, read(NAME))).goods
    (thread,) = [each for each in goods if "thread" in each.goods.name]
    assert thread.parts == tuple(yards * YARD / SPOOL for yards in (466, 68, 38))
    assert sum(thread.parts) == 572 * YARD / SPOOL < 2
    assert (thread.goods.amount, thread.separate) == (2, 4)
    assert thread.cost is not None
    assert thread.cost.amount == Fr(1080, 100)


def test_a_shorter_block_changes_all_that_follows(host: Host, found: Founds) -> None:
    project = read(NAME)
    sizes = "12 1/2; 12; 12 1/2"
    after = work_out(host, set_given(project, project.tab("Swapped blocks").key, "sizes", sizes))
    # 12 finishes at 11 1/2: 4 · 11 1/2 + 4 1/2 = 50 1/2 by 5 · 11 1/2 + 6 = 63 1/2.
    assert after["Swapped blocks"]["finished_size"] == Fr(23, 2)
    assert (after["Swap set"]["width"], after["Swap set"]["height"]) == (Fr(101, 2), Fr(127, 2))
    # 54 with 1 3/4 at the sides (51 would want 1/4), 66 with 1 1/4 at the ends: 18 and 22. With the teeth
    # 60 × 72; the last border makes it 68 × 84 again, with 4 and 6.
    fit, last = after["Will it fit"], after["To the size"]
    assert (fit["spacer_sides"], fit["spacer_ends"]) == (Fr(7, 4), Fr(5, 4))
    assert (fit["repeats_across"], fit["repeats_down"]) == (18, 22)
    assert (after["Spacer"]["width"], after["Spacer"]["height"]) == (54, 66)
    assert (last["border_1_sides"], last["border_1_ends"]) == (4, 6)
    assert (after["Last border"]["width"], after["Last border"]["height"]) == (68, 84)
    assert after["Binding"] == found["Binding"]
