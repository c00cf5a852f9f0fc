"""Published colour differences and contrasts of text, read from the file of standards when the test runs."""

import math
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend_fabric_mix.colours import FINEST, Lab, ciede2000, differences, lab_of
from boltend_shared import source_line, standards

PAIRS: list[Any] = standards()["ciede2000_pair"]
HOW: Any = standards()["ciede2000"]
WCAG: Any = standards()["wcag"]


def lab(row: list[Fraction]) -> Lab:
    lightness, a, b = map(float, row)
    return lightness, a, b


def pair_named(row: Any) -> str:
    return f"pair {row['n']} ({source_line(HOW['source'])})"


@pytest.mark.parametrize("row", PAIRS, ids=pair_named)
def test_a_published_pair_in_both_orders(row: Any) -> None:
    one, other = lab(row["lab1"]), lab(row["lab2"])
    assert abs(ciede2000(one, other) - row["de00"]) <= HOW["tolerance"]
    assert abs(ciede2000(other, one) - row["de00"]) <= HOW["tolerance"]


def test_all_pairs_are_there_and_ours_is_told_as_finely() -> None:
    assert [row["n"] for row in PAIRS] == list(range(1, 35))
    assert HOW["tolerance"] == FINEST
    assert (HOW["kL"], HOW["kC"], HOW["kH"]) == (1, 1, 1)  # `ciede2000` takes no others


def test_pair_14_is_the_data_sets_and_not_the_misprint() -> None:
    """The file warns of a copy that has 0.00010 where the data have 0.0010."""
    (row,) = (row for row in PAIRS if row["n"] == 14)
    assert row["lab2"] == [50, Fraction("0.001"), Fraction("-2.49")]
    assert "4.8045 to 4.7461" in HOW["caution_14"]
    assert row["de00"] == Fraction("4.8045")


def formula(one: Lab, other: Lab) -> float:
    """CIEDE2000 written from the paper, with 180° told by a product and not by two arctangents."""
    (l1, a1, b1), (l2, a2, b2) = one, other
    mean_c = (math.hypot(a1, b1) + math.hypot(a2, b2)) / 2
    g = 0.5 * (1 - math.sqrt(mean_c**7 / (mean_c**7 + 25.0**7)))
    a1, a2 = a1 * (1 + g), a2 * (1 + g)
    c1, c2 = math.hypot(a1, b1), math.hypot(a2, b2)
    h1, h2 = (math.degrees(math.atan2(b, a)) % 360 for a, b in ((a1, b1), (a2, b2)))
    cross, dot = a1 * b2 - a2 * b1, a1 * a2 + b1 * b2
    opposite = dot < 0 and abs(cross) <= 1e-9 * c1 * c2
    delta_h = h2 - h1
    mean_h = (h1 + h2) / 2
    if not opposite and abs(delta_h) > 180:
        delta_h += -360 if delta_h > 0 else 360
        mean_h += 180 if h1 + h2 < 360 else -180
    if not c1 * c2:
        delta_h, mean_h = 0.0, h1 + h2
    big_h = 2 * math.sqrt(c1 * c2) * math.sin(math.radians(delta_h) / 2)
    mean_l, mean_c = (l1 + l2) / 2, (c1 + c2) / 2

    def cos(degrees: float) -> float:
        return math.cos(math.radians(degrees))

    t = 1 - 0.17 * cos(mean_h - 30) + 0.24 * cos(2 * mean_h) + 0.32 * cos(3 * mean_h + 6)
    t -= 0.20 * cos(4 * mean_h - 63)
    turn = 30 * math.exp(-(((mean_h - 275) / 25) ** 2))
    s_l = 1 + 0.015 * (mean_l - 50) ** 2 / math.sqrt(20 + (mean_l - 50) ** 2)
    s_c, s_h = 1 + 0.045 * mean_c, 1 + 0.015 * mean_c * t
    r_t = -2 * math.sqrt(mean_c**7 / (mean_c**7 + 25.0**7)) * math.sin(math.radians(2 * turn))
    light, chroma, hue = (l2 - l1) / s_l, (c2 - c1) / s_c, big_h / s_h
    return math.sqrt(light**2 + chroma**2 + hue**2 + r_t * chroma * hue)


@pytest.mark.parametrize("row", PAIRS, ids=pair_named)
def test_the_tests_own_formula_gives_the_published_pair(row: Any) -> None:
    assert abs(formula(lab(row["lab1"]), lab(row["lab2"])) - row["de00"]) <= HOW["tolerance"]


THOUSANDTHS = st.integers(-120_000, 120_000).map(lambda n: n / 1000)
LABS = st.tuples(st.integers(0, 100_000).map(lambda n: n / 1000), THOUSANDTHS, THOUSANDTHS)


@settings(max_examples=200, deadline=None)
@given(LABS, LABS)
def test_any_two_colours_have_the_formulas_difference(one: Lab, other: Lab) -> None:
    assert abs(float(ciede2000(one, other)) - formula(one, other)) <= 1e-4
    assert ciede2000(one, other) == ciede2000(other, one)


@settings(max_examples=200, deadline=None)
@given(LABS, st.integers(1, 40).map(lambda n: n / 8), st.floats(0, 100))
def test_opposite_hues_never_flip(one: Lab, times: float, lightness: float) -> None:
    """At 180° the last bit of a float may not choose, at any scale and in either order."""
    other = (lightness, -one[1] * times, -one[2] * times)
    assert abs(float(ciede2000(one, other)) - formula(one, other)) <= 1e-4
    assert ciede2000(one, other) == ciede2000(other, one)


def test_differences_of_colours_are_those_of_their_coordinates() -> None:
    colours = ["#1f4e79", "#f2efe6", "#1f4e79", "#a3471f"]
    apart = differences(colours)
    labs = [lab_of(colour) for colour in colours]
    for i, one in enumerate(labs):
        for j, other in enumerate(labs):
            assert apart[i][j] == ciede2000(one, other)
    assert apart[0][2] == 0


# --- contrast of text (W3C)

NO_CODE_OF_OURS = (
    "No code of ours reckons the contrast of text: the shell's colours are its theme's and the terminal's, "
    "and its screens are held to read without colour. The rows hold coloraide, by which we convert colours."
)


def contrast_named(row: Any) -> str:
    return f"{row['a']} on {row['b']} ({source_line(WCAG['source'])}; {source_line(row['source'])})"


def printed_contrast(a: str, b: str) -> float:
    """The ratio by the printed constants."""

    def luminance(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        least = float(WCAG["threshold_linear"])
        red, green, blue = (p / 12.92 if p <= least else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    light, dark = sorted((luminance(a), luminance(b)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("row", standards()["wcag_check"], ids=contrast_named)
def test_the_contrast_of_text_by_the_library_that_we_use(row: Any) -> None:
    from coloraide import Color

    assert NO_CODE_OF_OURS
    assert abs(printed_contrast(row["a"], row["b"]) - row["ratio"]) < 5e-5
    # coloraide has longer coefficients than print, the file says: up to 2 in 10 000 off
    assert abs(Color(row["a"]).contrast(row["b"], method="wcag21") / row["ratio"] - 1) < 2e-4


def test_rows_on_either_side_of_a_limit_are_told_apart() -> None:
    ratios = {(row["a"], row["b"]): row["ratio"] for row in standards()["wcag_check"]}
    assert ratios["#ffffff", "#777777"] < WCAG["aa_text"] <= ratios["#ffffff", "#767676"]
    assert ratios["#ffffff", "#959595"] < WCAG["aa_large"] <= ratios["#ffffff", "#949494"]
    assert WCAG["aa_ui"] == WCAG["aa_large"]
    assert ratios["#ffffff", "#595959"] >= WCAG["aaa_text"] > WCAG["aaa_large"] == WCAG["aa_text"]


def test_the_two_thresholds_in_print_give_the_same_for_every_byte() -> None:
    """0.04045 and the older 0.03928 part nothing that a byte can hold."""
    old, new = WCAG["threshold_old_text"], WCAG["threshold_linear"]
    assert [n for n in range(256) if old < Fraction(n, 255) <= new] == []
