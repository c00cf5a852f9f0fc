"""Whole published patterns in straight rows, number by number, against our own arithmetic.

Every number that a calculator of ours answers is checked: as printed, or, where a pattern prints a generous
yardage or count, that it is enough for what ours takes. Each other number has its reason. What is expected is
read from the file; what print leaves open stands in the table. Squaring is not counted, as print does not.
"""

from fractions import Fraction
from typing import Any

import pytest
from pattern_quilt import (
    BACKED,
    BATTED,
    BORDERED,
    BOUND,
    CHOSEN,
    FABRICS,
    SEAMS,
    SIZE,
    Pattern,
    Quilt,
    Stated,
    backing_inches,
    binding_strips,
    binding_yards,
    blocks,
    border_cut,
    border_lengths,
    border_strips,
    cornerstones,
    count,
    each,
    fabrics,
    finished,
    from_bolt,
    is_on_point,
    of_tens,
    printed_input,
    read,
    sash_cut,
    sash_inches,
    short_sashes,
    size_of,
    squares,
)  # fmt: skip

from boltend.core.contract import Settings
from boltend.core.values import up
from boltend.testing import work
from boltend_borders_binding.binding import binding
from boltend_borders_binding.borders import borders
from boltend_borders_binding.strips import strips_for
from boltend_precut_yield.precut_plan import precut_plan
from boltend_precut_yield.precut_yield import precut_yield
from boltend_precut_yield.precuts import PRECUTS
from boltend_quilt_setting.straight_set import straight_set
from boltend_shared import Case, cases

CASES = {case.id: case for case in cases("pattern") if not is_on_point(case)}
SIDES = ("width", "height")


def strips_of_a_fat_quarter(q: Quilt) -> object:
    """The printed strips, if one whole set of them comes out of one fat quarter."""
    widths = q.case.expected["strips_per_fq"]
    cuts = [{"width": "21 in", "height": f"{width} in"} for width in widths]
    found = work(precut_plan, tables=[PRECUTS], precut="fat quarter", cuts=cuts).found
    return widths if found["sets_each"] == 1 else None


def forty_two_squares(q: Quilt) -> int:
    """10 in squares for whole and half pieces of brick rows."""
    whole, half = q.inputs["piece_cut"], q.inputs["half_piece_cut"]
    expected = q.case.expected
    return of_tens(f"{whole[0]} in", f"{whole[1]} in", expected["pieces"]) + of_tens(
        f"{half[0]} in", f"{half[1]} in", expected["half_pieces"]
    )


def first_border_and_sashes(q: Quilt) -> int:
    """Strips for the long sashes and the first border in one run."""
    row, join = each(q.bordered)[0], Fraction(5, 2)
    long: Any = q.top.found["long_sash_length"]
    total = count(q.top, "long_sashes") * long + 2 * row["sides_cut"] + 2 * row["ends_cut"]
    return strips_for(total, Fraction(42), join)


def with_sash(q: Quilt, *, all_round: bool, sash: str = "3 in") -> object:
    """The size of a top with or without its outer sash."""
    block = f"{q.inputs['block']} in"
    return size_of(work(
        straight_set, block_width=block, block_height=block, across=q.inputs["across"], down=q.inputs["down"],
        sash=sash, sash_all_round=all_round,
    ))  # fmt: skip


def ozark_size(q: Quilt) -> object:
    """A 1 in inner border, which the note tells of, and the printed outer one."""
    rows = [{"width": "1 in"}, {"width": f"{q.case.expected['border_cut']} in cut"}]
    width, height = (f"{side} in" for side in q.size)
    return size_of(work(borders, top_width=width, top_height=height, borders=rows))


def gems() -> Pattern:
    """One size of a list of five: bindings by the eighth, backings by the quarter of a yard."""
    return Pattern(
        Stated(tail="10 in", join="straight", step="1/4 yd"),
        {"finished": finished, "yards.binding": binding_yards, **BACKED},
        not_ours={"fat_quarters": FABRICS, **fabrics("accent", "background")},
    )


THREE = Stated(overage="3 in")
FOUR = Stated()
PLAIN = Pattern(FOUR, {"finished": finished})

PATTERNS: dict[str, Pattern] = {
    "pat-big-block": Pattern(
        THREE,
        {**SIZE, **BOUND, **BACKED, **BATTED, "binding_strip": printed_input("strip"),
         "block_cut": lambda q: read(f"{q.inputs['block']} in finished")},
        {"yards.blocks": lambda q: squares(q, "8 in finished"), "yards.binding": lambda q: q.binding_inches},
    ),
    "pat-crib": Pattern(
        THREE,
        {**SIZE, **BOUND, **BACKED, **BATTED, "sashes": short_sashes, "sash_cut": sash_cut,
         "cornerstones": cornerstones},
        {"yards.plaid sashing": sash_inches},
        fabrics("pink prints", "turquoise", "green", "pink floral", "brown"),
    ),
    "pat-pastoral": Pattern(
        FOUR,
        {**SIZE, **BOUND, **BACKED, **BATTED, "border_cut": border_cut, "border_lengths": border_lengths},
        {"yards.outer border + binding": lambda q: q.strips(1) + q.binding_inches},
        fabrics("toile", "black dot", "red floral", "red print"),
    ),
    "pat-neutral": Pattern(FOUR, {**SIZE, **BACKED, **BATTED, "strips_per_fq": strips_of_a_fat_quarter}),
    # rows of 11 pieces, cut 5 × 10 in, so 4 1/2 × 9 1/2 in finished
    "pat-scrappy-chic": Pattern(
        Stated(grid=("5 in cut", "10 in cut", 11, 7)),
        {"finished": finished, **BOUND, **BATTED, "yards.binding": binding_yards},
        {"yards.backing": backing_inches},
        {"pieces": "Checked with the half pieces against the 42 squares, below.",
         "half_pieces": "Checked with the pieces against the 42 squares, below."},
    ),
    "pat-one-piece": Pattern(
        Stated(overage="3 in", piecing="each side"),
        {"finished": finished, **BORDERED, **BOUND, **BATTED},
        {"yards.inner": lambda q: q.strips(0), "yards.outer": lambda q: q.strips(1),
         "yards.backing": backing_inches},
        fabrics("green", "brown", "brown paisley"),
    ),
    # straight joins: its 294 in of outer border are 7 strips of 42 in without any
    "pat-fast-flowers": Pattern(
        Stated(join="straight"),
        {**SIZE, **BATTED, "border_cut": border_cut, "outer_strips": lambda q: each(q.bordered)[1]["strips"]},
        {"binding_strips": lambda q: count(q.bound, "strips"), "yards.outer": lambda q: q.strips(1),
         "yards.inner": lambda q: q.strips(0), "yards.backing": backing_inches},
        {"inner_strips": CHOSEN, **fabrics("frames each of 6", "panel", "brown dot", "squares+binding")},
    ),
    "pat-apr20-chain": Pattern(
        FOUR,
        {"sashes": short_sashes, "sash_cut": sash_cut, "cornerstones": cornerstones, **BORDERED,
         "cornerstone_cut": lambda q: q.pieces("cornerstone").across},
    ),
    # straight joins: its second border, 189 in, takes 5 strips of 40 in only so; overage 6 in
    "pat-mm-51": Pattern(
        Stated(overage="6 in", join="straight", usable=40, strip="2 1/4 in"),
        {**SIZE, **BORDERED, **BOUND, **BACKED, "binding_strip": printed_input("strip"),
         "block_strips": lambda q: squares(q, "12 in") / 12},
        {"yards.blocks": lambda q: squares(q, "12 in"), "yards.border1": lambda q: q.strips(0),
         "yards.border2": lambda q: q.strips(1), "yards.binding": lambda q: q.binding_inches},
        {"block_cut": CHOSEN},
    ),
    "pat-mccalls": Pattern(
        FOUR,
        {"blocks": blocks, "short_sashes": short_sashes, "sash_cut": sash_cut, **BOUND,
         "long_sashes": lambda q: q.top.found["long_sashes"],
         "border2_cut": lambda q: each(q.bordered)[1]["strip_width"],
         "sash_and_border1_strips": first_border_and_sashes},
        {"border2_strips": lambda q: each(q.bordered)[1]["strips"]},
    ),
    # three colours, two strips of each in a block, 1 1/2 × 9 in finished; the binding is the bare perimeter
    "pat-qov": Pattern(
        Stated(tail="0 in"),
        {**SIZE, **BACKED, **BATTED,
         "strip_cut": lambda q: [read("1 1/2 in finished"), read(f"{q.inputs['block']} in finished")],
         "strips_each_colour": lambda q: 2 * count(q.top, "blocks")},
        {"yards.each of 3 colours": lambda q: from_bolt([(Fraction(19, 2), 2, 2 * count(q.top, "blocks"))])},
        {"strips_per_block": CHOSEN, "binding_length_yd": "Finished, without a seam: tested below."},
    ),
    "pat-karen-13": Pattern(
        FOUR, not_ours={"pieced": "No calculator alternates blocks: their sum is tested below.",
                        "plain": "No calculator alternates blocks: their sum is tested below."},
    ),
    "pat-karen-8x10": PLAIN,
    "pat-4h-plain": PLAIN,
    "pat-4h-border": Pattern(
        FOUR, {"finished": finished, "yards.border": lambda q: Settings().buy_up(q.strips(0)) / 36}
    ),
    "pat-4h-both": Pattern(
        Stated(join="straight"),
        {"finished": finished},
        {"yards.sashing + border": lambda q: q.strips(0) + sash_inches(q)},
    ),
    **dict.fromkeys(("pat-gems-baby", "pat-gems-twin", "pat-gems-queen", "pat-gems-king"), gems()),
    "pat-instruct": Pattern(
        Stated(overage="2 in"),
        {"finished": finished, "squares": blocks, "sashes": short_sashes, **BATTED},
        {"yards.sashing": sash_inches, "yards.binding": lambda q: q.binding_inches,
         "yards.backing": backing_inches,
         "yards.cornerstones": lambda q: from_bolt([(2, 2, count(q.top, "cornerstone_count"))])},
    ),
    "pat-sewcan": Pattern(
        Stated(overage="1 in", raw=False),
        {"squares": blocks, **BOUND, "square_cut": lambda q: read("2 in finished"),
         "backing_min": lambda q: [q.backed.found["backing_width"], q.backed.found["backing_height"]]},
    ),
    "pat-saratoga": Pattern(
        FOUR, not_ours={"finished": "No inputs are printed.",
                        "yards_and_inches": "Pairs of inches and yards: tested below."},
    ),
    # the binding adds 1/4 in on each side: our bound size
    "pat-gen-straight": Pattern(
        FOUR, {"blocks": blocks, "finished": lambda q: [q.bound.found[f"bound_{x}"] for x in SIDES]}
    ),
    "pat-delaware": Pattern(
        FOUR,
        {"without_sash": lambda q: with_sash(q, all_round=False, sash="0 in"),
         "with_inner_sash": lambda q: with_sash(q, all_round=False),
         "with_outer_sash": lambda q: with_sash(q, all_round=True)},
    ),
    "pat-ozark": Pattern(
        Stated(grid=("3 in cut", "3 in cut", 20, 20)),
        {"squares": blocks, "center": finished, "finished": ozark_size},
        not_ours={"border_cut": CHOSEN},
    ),
    "pat-ptimes": Pattern(
        FOUR, {"blocks": blocks}, not_ours={"cuts": "Products of a block's own pieces and 12 blocks."}
    ),
}  # fmt: skip

REASONS: dict[str, str] = {
    "pat-vision": "Prints 3 yd of binding where 9 strips take 22 1/2 in. Its size is tested below.",
    "pat-hourglass": "Borders are cut an inch longer than their top, and more strips than the squares need.",
    "pat-chain": "5 pieces of 8 1/2 in to a strip and 8 strips for 338 in want cloth wider than 42 in; its "
    "backing is short too. Tested below.",
    "pat-countryside": "Only its list of materials could be read.",
    "pat-camelot-squared": "Cuts a long sash of 51 1/2 in where its own column measures 48 1/2.",
    "pat-pq-bom": "Cuts three long sashes where three rows have two between them; a size of 'about' 60 in.",
    "pat-4h-sash": "1 yd of sashing where 6 or 7 strips take 1/2 yd. Its size is tested below.",
    "pat-musings": "Prints a centre of 31 1/2 in where 7 × 4 1/2 + 1/2 is 32; its binding strips are SHORT: "
    "160 in for the 170 that it asks. Tested below.",
    "pat-stumbles": "Only a part of it could be read.",
    "pat-polly": "Borders of 5, 5, 5, 5 strips where 42 in take 4, 4, 5, 5. Tested below.",
    "pat-andy": "Border strips of 36 3/4 in where 3 × 12 + 1/2 is 36 1/2. Tested below.",
    "pat-brackman-sq": "Its size is right only if two inner borders make 2 in together. Tested below.",
    "pat-gen-sash": "83 1/2 in is 12 blocks wide, 13 are printed. Tested below.",
}


def quilt(key: str) -> Quilt:
    """A pattern with what is stated for it."""
    return Quilt(CASES[key], PATTERNS[key].said if key in PATTERNS else FOUR)


def printed(case: Case) -> dict[str, Any]:
    """What a pattern prints, each fabric's yards by themselves."""
    yards = {f"yards.{name}": value for name, value in case.expected.get("yards", {}).items()}
    return {**{key: value for key, value in case.expected.items() if key != "yards"}, **yards}


def normal(value: object) -> object:
    """A printed value for comparing: exact fractions, lists within."""
    if isinstance(value, list | tuple):
        return [normal(item) for item in value]
    return Fraction(value) if isinstance(value, str | int) else value


def named(case: Case) -> str:
    """A test's name: the case and where it was printed."""
    return f"{case.id} ({case.source.title}, {case.source.publisher}, {case.source.year})"


AGREEING = [case for case in CASES.values() if case.agrees]


@pytest.mark.parametrize("case", AGREEING, ids=named)
def test_arithmetic_gives_what_is_printed(case: Case) -> None:
    pattern, q, said = PATTERNS[case.id], quilt(case.id), printed(case)
    assert {key: normal(ours(q)) for key, ours in pattern.exact.items()} == {
        key: normal(said[key]) for key in pattern.exact
    }


@pytest.mark.parametrize("case", [c for c in AGREEING if PATTERNS[c.id].enough], ids=named)
def test_what_is_printed_is_enough_for_ours(case: Case) -> None:
    pattern, q, said = PATTERNS[case.id], quilt(case.id), printed(case)
    for key, ours in pattern.enough.items():
        has = Fraction(said[key]) * (36 if key.startswith("yards.") else 1)
        needs = ours(q)
        assert 0 < needs <= has, key


def test_every_number_of_every_agreeing_pattern_is_checked_or_has_its_reason() -> None:
    assert {case.id for case in AGREEING} == set(PATTERNS)
    assert {case.id for case in CASES.values() if not case.agrees} == set(REASONS)
    for case in AGREEING:
        pattern = PATTERNS[case.id]
        kept = [*pattern.exact, *pattern.enough, *pattern.not_ours]
        assert sorted(kept) == sorted(printed(case)), case.id


def test_forty_two_squares_make_the_pieces_of_the_brick_rows() -> None:
    q = quilt("pat-scrappy-chic")
    assert forty_two_squares(q) <= PRECUTS.row("10 in square pack")["pieces"]  # type: ignore[operator]  # a count


def test_a_binding_of_the_bare_finished_perimeter() -> None:
    q = quilt("pat-qov")
    found: Any = work(
        binding, settings={"seam": "0 in"}, width=q.size[0], height=q.size[1], tail="0 in"
    ).found
    assert found["length"] / 36 == q.case.expected["binding_length_yd"]


def test_alternating_blocks_add_up_and_their_size_is_the_collectors() -> None:
    q = quilt("pat-karen-13")
    assert q.case.expected["pieced"] + q.case.expected["plain"] == q.top.found["blocks"]
    assert q.size == q.case.computed["finished"]


def test_yards_printed_with_their_inches_are_enough() -> None:
    for _, yards, inches in CASES["pat-saratoga"].expected["yards_and_inches"]:
        assert up(Fraction(inches), Fraction(9, 2)) <= 36 * Fraction(yards)


@pytest.mark.parametrize("key", ["pat-apr20-chain", "pat-mccalls"])
def test_sizes_that_the_collector_worked_out(key: str) -> None:
    q = quilt(key)
    raw = q.case.computed.get("finished_raw")
    ours = [side + SEAMS for side in q.size] if raw else q.size
    assert ours == (raw or q.case.computed["finished"])


@pytest.mark.parametrize("key", ["pat-vision", "pat-4h-sash", "pat-chain"])
def test_sizes_of_patterns_that_differ_elsewhere(key: str) -> None:
    q = quilt(key)
    assert q.printed_as == q.case.expected["finished"]


def test_a_pattern_that_wants_wider_cloth() -> None:
    q = quilt("pat-chain")
    assert short_sashes(q) == q.case.expected["sashes"]
    assert border_strips(q) == q.case.computed["border_strips_at_42"] > q.case.expected["border_strips"]
    assert binding_strips(q) == q.case.computed["binding_strips_at_42"] > q.case.expected["binding_strips"]
    strips, pieces = q.case.expected["cuts"]["8.5"]
    long = work(precut_yield, precut_width="42 in", precut_length="2 1/2 in", piece_width="8 1/2 in",
                piece_height="2 1/2 in", pieces_wanted=pieces)  # fmt: skip
    assert count(long, "precuts_needed") == q.case.computed["strips_8_5_at_42"] > strips


def test_binding_strips_that_are_short() -> None:
    q = quilt("pat-musings")
    assert [side + SEAMS for side in q.size] == q.case.computed["center_raw"]
    strips = q.case.expected["binding_strips"]
    assert strips_for(Fraction(q.case.expected["binding_needed"]), Fraction(40), Fraction(0)) > strips


def test_borders_that_print_makes_longer_or_takes_more_of() -> None:
    andy, polly = quilt("pat-andy"), quilt("pat-polly")
    row = {"width": "3 in", "corners": "cornerstones"}
    found = work(
        borders, top_width=andy.top.found["width"], top_height=andy.top.found["height"], borders=[row]
    )
    assert each(found)[0]["sides_cut"] == andy.case.computed["border_len"]
    assert size_of(found) == andy.case.expected["finished"]
    assert size_of(polly.bordered) == polly.case.computed["finished"]
    ours: Any = border_strips(polly)
    assert all(
        mine <= theirs for mine, theirs in zip(ours, polly.case.expected["border_strips"], strict=True)
    )
    assert ours != polly.case.expected["border_strips"]


def test_sizes_that_print_gets_wrong() -> None:
    frosting, sash = quilt("pat-brackman-sq"), quilt("pat-gen-sash")
    assert frosting.size == frosting.case.expected["center"]
    rows = [{"width": "2 in"}, {"width": "2 in"}, {"width": "9 in"}]
    found = work(borders, top_width=frosting.size[0], top_height=frosting.size[1], borders=rows)
    assert size_of(found) == frosting.case.computed["finished_if_two_2in_borders"]
    assert [sash.bound.found[f"bound_{x}"] for x in SIDES] == sash.case.computed["finished"]
    assert sash.case.computed["finished"] != sash.case.expected["finished"]
