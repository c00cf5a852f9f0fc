"""Binding: figures worked by hand, and what must hold for any quilt."""

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.plugin import Answer, Cannot, Settings
from boltend.testing import work
from boltend_borders_binding.binding import binding

SIZES = st.integers(8, 1000).map(lambda n: Fraction(n, 8))
LENGTHS = st.fractions(min_value=-100, max_value=10**9, max_denominator=64)
GRAINS = ("crosswise", "lengthwise", "bias")


def bound(**givens: object) -> Answer:
    """A binding from exact values, at the defaults that a person has."""
    usual: dict[str, object] = {
        "fold": "double", "strip_width": Fraction(5, 2), "grain": "crosswise", "join": "diagonal",
        "tail": Fraction(10), "thickness": Fraction(1, 8), "bias_loss": "whole turns",
        "usable_width": Fraction(42), "fabric": None, "have": None, "setting": Settings(),
    }  # fmt: skip
    return binding(**{**usual, **givens})


def bound_or_not(**givens: object) -> Answer | Cannot:
    """A binding, or what it says of itself. Any other exception is a failure of the test."""
    try:
        return bound(**givens)
    except Cannot as cannot:
        return cannot


@pytest.mark.parametrize(("perimeter", "strips"), [(268, 7), (270, 8)])
def test_the_raw_edge_counts(perimeter: int, strips: int) -> None:
    # The trade's arithmetic, section 7: 268 and 10 in fit 7 × 42 − 6 × 2 1/2 = 279 in; 280 in does not.
    side = f"{perimeter // 4} in cut" if perimeter % 4 == 0 else f"{perimeter}/4 in cut"
    worked = work(binding, width=side, height=side)
    assert (worked.found["length"], worked.found["strips"]) == (perimeter + 10, strips)


def test_two_and_a_half_inches_round_an_eighth_finish_at_three_eighths() -> None:
    worked = work(binding, width="60 in", height="80 in")
    # 6 × 3/8 + 2 × 1/8 = 2 1/2
    assert worked.found["finished_width"] == Fraction(3, 8)
    # raw 60 1/2 × 80 1/2: 282 and 10; 8 strips make 318 1/2, 7 make 279
    assert worked.found["length"] == 292
    assert worked.found["strips"] == 8
    assert worked.unrounded["length_to_buy"] == 20
    assert worked.found["length_to_buy"] == Fraction(45, 2)  # 5/8 yd
    assert (worked.found["bound_width"], worked.found["bound_height"]) == (Fraction(121, 2), Fraction(161, 2))
    assert worked.found["bias_square"] is None
    assert worked.cautions == []  # nobody asked for one
    # front 1/4, behind 2 1/2 ÷ 2 − 1/2 − 1/8 = 5/8
    assert any("1/4 in shows in front and 5/8 in behind" in said for said in worked.working)


def test_a_single_fold_holds_four_widths() -> None:
    worked = work(binding, width="60 in", height="80 in", fold="single", strip_width="1 5/8 in")
    assert worked.found["finished_width"] == Fraction(3, 8)  # 4 × 3/8 + 1/8
    # one layer: seam 1/4, front 1/4, round 1/8, behind 3/4, turned under 1/4 make 1 5/8
    assert any("1/4 in shows in front and 3/4 in behind" in said for said in worked.working)


def test_lengthwise_strips_lie_side_by_side() -> None:
    worked = work(binding, width="60 in", height="80 in", grain="lengthwise")
    # 16 strips of 2 1/2 in across 42 in: (292 − 2 1/2) ÷ 16 + 2 1/2 = 20.59 in; 22 1/2 in is bought, and of
    # that length 15 strips make 337 1/2 − 35 = 302 1/2, 14 make 282 1/2
    assert worked.unrounded["length_to_buy"] == Fraction(579, 2) / 16 + Fraction(5, 2)
    assert worked.found["length_to_buy"] == Fraction(45, 2)
    assert worked.found["strips"] == 15


def test_a_bias_binding_comes_from_one_square() -> None:
    worked = work(binding, width="70 1/4 in", height="94 1/4 in", tail="10 in", grain="bias")
    assert worked.found["length"] == 341  # 2 × 70 3/4 + 2 × 94 3/4 + 10
    # 32 ÷ 3.536 is 9 turns of √2 × 31 = 43.84: 394.6 in; 31 gives 8 turns of 42.43: 339.4
    assert worked.found["bias_square"] == 32
    assert worked.found["length_to_buy"] == 36
    assert worked.found["strips"] is None
    assert worked.cautions == ["Bias edges stretch: press, do not pull."]
    assert "one continuous strip" in binding.spec.found("strips").empty
    assert any("stretch" in caution for caution in worked.cautions)
    tenth = work(binding, width="70 1/4 in", height="94 1/4 in", grain="bias", bias_loss="10 %")
    assert tenth.found["bias_square"] == 31  # 341 × 2 1/2 ÷ 0.9 = 947.2; 31² is 961


def test_a_metric_bias_square_is_a_whole_centimetre() -> None:
    worked = work(binding, units="centimetres", width="150 cm", height="200 cm", grain="bias")
    square = worked.found["bias_square"]
    assert isinstance(square, Fraction)
    assert (square * Fraction(127, 50)).denominator == 1
    assert worked.found["bias_square"] == worked.unrounded["bias_square"]


def test_washing_takes_its_share_once() -> None:
    worked = work(
        binding, width="60 in", height="80 in", settings={"prewash_across": "5 %", "prewash_along": "10 %"}
    )
    # 42 in less 5 % is 39.9: 8 strips make 301.7, 7 make 264.3; 20 in ÷ 0.9
    assert worked.found["strips"] == 8
    assert worked.unrounded["length_to_buy"] == Fraction(200, 9)


def test_a_fabric_s_own_width_speaks_unless_the_tab_does() -> None:
    fabrics = {"Ash": {"usable_width": Fraction(108)}}
    said = {"width": Fraction(60), "height": Fraction(80), "fabric": "Ash"}
    # 3 × 108 − 2 × 2 1/2 = 319
    assert bound(**said, setting=Settings(fabrics=fabrics)).found["strips"] == 3
    own = Settings(fabrics=fabrics, fixed=frozenset({"usable_width"}))
    assert bound(**said, setting=own).found["strips"] == 8


@settings(max_examples=100)
@given(
    width=SIZES,
    height=SIZES,
    more=SIZES,
    grain=st.sampled_from(GRAINS),
    loss=st.sampled_from(("whole turns", "10 %")),
)
def test_a_larger_quilt_never_takes_less(
    width: Fraction, height: Fraction, more: Fraction, grain: str, loss: str
) -> None:
    wide = {"usable_width": Fraction(500), "grain": grain, "bias_loss": loss, "strip_width": Fraction(2)}
    small = bound(width=width + 2, height=height + 2, **wide)
    large = bound(width=width + 2 + more, height=height + 2, **wide)
    for name in ("length", "length_to_buy"):
        assert large.found[name] >= small.found[name]  # type: ignore[operator]  # both are lengths here


@settings(max_examples=100)
@given(
    width=SIZES,
    height=SIZES,
    strip=st.integers(8, 40).map(lambda n: Fraction(n, 8)),
    join=st.sampled_from(("diagonal", "straight")),
)
def test_what_is_cut_covers_what_is_wanted(
    width: Fraction, height: Fraction, strip: Fraction, join: str
) -> None:
    wanted = 2 * (width + height) + 14 + 10  # finished and 3 in, so that no strip covers the quilt
    lost = strip if join == "diagonal" else Fraction(1, 2)
    sizes = {"width": width + 3, "height": height + 3, "strip_width": strip, "join": join}
    for grain in ("crosswise", "lengthwise"):
        answer = bound(**sizes, grain=grain)
        strips, buy = answer.found["strips"], answer.found["length_to_buy"]
        assert isinstance(strips, int)
        assert isinstance(buy, Fraction)
        assert answer.found["length"] == wanted
        each = Fraction(42) if grain == "crosswise" else Settings().buy_up(buy)
        assert strips * each - (strips - 1) * lost >= wanted
        assert strips == 1 or (strips - 1) * each - (strips - 2) * lost < wanted
        if grain == "lengthwise":
            assert strips * strip <= 42  # all side by side
        else:
            assert buy == strips * strip


@settings(max_examples=200)
@given(
    width=LENGTHS, height=LENGTHS, strip_width=LENGTHS, tail=LENGTHS, thickness=LENGTHS, usable_width=LENGTHS,
    grain=st.sampled_from(GRAINS), join=st.sampled_from(("diagonal", "straight")),
    fold=st.sampled_from(("double", "single")), bias_loss=st.sampled_from(("whole turns", "10 %")),
    seam=st.fractions(min_value=0, max_value=100, max_denominator=64),
    system=st.sampled_from(("in", "cm")), wash=st.fractions(min_value=-10, max_value=120, max_denominator=8),
)  # fmt: skip
def test_nothing_but_cannot_on_any_given(
    seam: Fraction, system: str, wash: Fraction, **givens: object
) -> None:
    setting = Settings(system=system, seam=seam, prewash_across=wash, prewash_along=wash)  # type: ignore[arg-type]  # sampled from the two
    outcome = bound_or_not(**givens, setting=setting)
    if isinstance(outcome, Cannot):
        assert outcome.given in {*givens, "prewash_across", "prewash_along"}
        assert outcome.why
        assert outcome.way_out
    else:
        assert outcome.found["finished_width"] > 0  # type: ignore[operator]  # a length


@pytest.mark.parametrize(
    ("given", "value"),
    [
        ("strip_width", "1/2 in"), ("strip_width", "200 in"), ("usable_width", "2 in"), ("width", "0 in"),
        ("tail", "-1 in"),
    ],
)  # fmt: skip
def test_what_cannot_be_bound_says_so(given: str, value: str) -> None:
    givens: dict[str, Any] = {"width": "40 in", "height": "40 in", "thickness": "1/4 in", given: value}
    with pytest.raises(Cannot):
        work(binding, **givens)


def test_a_bias_square_wider_than_the_fabric_cannot_be_cut() -> None:
    with pytest.raises(Cannot, match="two squares"):
        work(binding, width="120 in", height="120 in", strip_width="4 in", grain="bias")
