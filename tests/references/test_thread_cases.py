"""Published figures of the lockstitch and of thread numbers, against our own; read from the file when run.

Other stitches are no business of ours, but where print gives one whose thread goes through the layers as the
lockstitch's does, that part (2·T·S, for both threads) is held against ours, and only the base is print's.
"""

import re
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from thread_rows import ROWS, named

from boltend.core.values import KINDS, Notation, NotationError, ThreadNumber
from boltend.core.values.kinds_thread import tex
from boltend.plugin import nearest
from boltend.testing import Worked, work
from boltend_quilting_thread.piecing import piecing_thread
from boltend_quilting_thread.quilting import quilting_thread
from boltend_quilting_thread.threads import THREADS
from boltend_shared import standards

POUND = Fraction("453.59237")  # grams, NIST Handbook 44, appendix C
YARD = Fraction("0.9144")  # metres, the same


def decimal(value: Fraction | int) -> str:
    """A printed decimal as it would be typed."""
    exact = Fraction(value)
    return f"{Decimal(exact.numerator) / Decimal(exact.denominator):f}"


def both(worked: Worked) -> Fraction:
    """Inches of both threads, before they are rounded."""
    exact: Any = worked.unrounded
    return Fraction(exact["top_thread"] + exact["bobbin_thread"])


def ratio(per_inch: Fraction | int, thickness: Fraction | int) -> Fraction:
    """Thread for an inch of seam, above and below, as the piecing has it without waste."""
    seam = {"seam_length": "100 in", "waste": "0 %", "stitches_per_inch": decimal(per_inch)}
    return both(work(piecing_thread, thickness=f"{decimal(thickness)} in", **seam)) / 100


def unpicked(path: str, top: Fraction, bobbin: Fraction, waste: Fraction | int = 0) -> Worked:
    """Thread for a path, by what was unpicked."""
    return work(
        quilting_thread, width="10 in", height="10 in", pattern="other", path=path,
        unpicked_top=decimal(top), unpicked_bobbin=decimal(bobbin),
        waste=f"{decimal(100 * Fraction(waste))} %",
    )  # fmt: skip


def near(ours: Fraction, printed: Fraction | int, tolerance: Fraction | float) -> None:
    assert abs(ours - printed) <= tolerance, f"{float(ours)}, printed {float(printed)}"


# --- the lockstitch


def base(stitch: str) -> int:
    """What a stitch takes of thread laid flat, by the file's formula for it: 3 of "3 + 2*T*S"."""
    plain = re.fullmatch(r"(\d) \+ 2\*T\*S", standards()["lockstitch"]["formula"]["family"][stitch])
    assert plain is not None
    return int(plain[1])


def through_the_layers(row: Any) -> None:
    inputs = row["inputs"]
    drawn = ratio(inputs["S_per_in"], inputs["T_in"]) - 2
    near(base(row["stitch"]) + drawn, row["expected"]["ratio"], row["tolerance"])


def ordinary_seam(row: Any) -> None:
    # The maker states no thickness: it is the seam of A01, 0.025 in at 10 an inch.
    inputs = ROWS["thread_check/A01"]["inputs"]
    worked = work(
        piecing_thread, seam_length="1 in", waste="0 %", stitches_per_inch=decimal(inputs["S_per_in"]),
        thickness=f"{decimal(inputs['T_in'])} in",
    )  # fmt: skip
    top: Any = worked.unrounded["top_thread"]
    assert both(worked) == row["expected"]["total"]
    assert top / both(worked) == row["expected"]["needle_share"]


def example_of_220_cm(row: Any) -> None:
    half = row["inputs"]["ratio"] / 2
    worked = unpicked(f"{row['inputs']['seam_cm']} cm", half, half)
    exact: Any = worked.unrounded
    in_cm = {name: exact[name] * Fraction("2.54") for name in ("top_thread", "bobbin_thread")}
    assert in_cm == {
        "top_thread": row["expected"]["needle_cm"],
        "bobbin_thread": row["expected"]["bobbin_cm"],
    }
    assert sum(in_cm.values()) == row["expected"]["total_cm"]


def unravelled_15_cm(row: Any) -> None:
    inputs, expected = row["inputs"], row["expected"]
    rates = [inputs[key] / inputs["sample_cm"] for key in ("needle_cm", "looper_cm")]
    # The page goes on with factors of one decimal.
    rounded = [nearest(rate, Fraction(1, 10)) for rate in rates]
    assert rounded == [expected["needle_factor"], expected["looper_factor"]]
    seam = f"{inputs['seam_cm']} cm"
    assert both(unpicked(seam, *rounded)) * Fraction("2.54") == expected["total_cm"]
    assert both(unpicked(seam, *rounded, inputs["waste"])) * Fraction("2.54") == expected["with_waste_cm"]


def unravelled_3_in(row: Any) -> None:
    inputs, expected = row["inputs"], row["expected"]
    rates = [Fraction(inputs[key], inputs["sample_in"]) for key in ("needle_in", "looper_in")]
    seam = f"{decimal(nearest(Fraction(inputs['seam_in'], 36), Fraction(1, 100)))} yd"  # the page's 1.17 yd
    rates = [nearest(rate, Fraction(1, 10**6)) for rate in rates]  # 8/3 has no end as a decimal
    exact: Any = unpicked(seam, *rates).unrounded
    top, bobbin = exact["top_thread"] / 36, exact["bobbin_thread"] / 36
    near(top, expected["needle_yd"], row["tolerance"])
    near(bobbin, expected["looper_yd"], row["tolerance"])
    near(top + bobbin, expected["total_yd"], row["tolerance"])
    waste = both(unpicked(seam, *rates, inputs["waste"])) / 36
    near(waste, expected["with_waste_yd"], row["tolerance"])


def unravelled_beside_the_chart(row: Any) -> None:
    sample, chart = ROWS["thread_check/A14"]["inputs"], ROWS["thread_check/A08"]
    rates = [
        Fraction(sample[key] * 10**6 // sample["sample_in"], 10**6) for key in ("needle_in", "looper_in")
    ]
    measured = both(unpicked("1 in", *rates))
    near(measured, row["inputs"]["measured_ratio"], Fraction(1, 1000))
    reckoned = base("401") - 2 + ratio(chart["inputs"]["S_per_in"], chart["inputs"]["T_in"])
    near(measured / reckoned, row["expected"]["measured_over_chart"], row["tolerance"])


def thickness_of_a_ratio(row: Any) -> None:
    inputs = row["inputs"]
    ours = ratio(inputs["S_per_in"], row["expected"]["T_in"])
    near(ours, inputs["ratio"], 2 * inputs["S_per_in"] * row["tolerance"])


def in_metric(row: Any) -> None:
    inputs = row["inputs"]
    worked = work(
        piecing_thread, units="centimetres", seam_length="254 cm", waste="0 %",
        stitches_per_inch=f"{decimal(inputs['S_per_cm'])} per cm", thickness=f"{decimal(inputs['T_cm'])} cm",
    )  # fmt: skip
    near(both(worked) / 100, row["expected"]["ratio"], row["tolerance"])


def with_waste(row: Any) -> None:
    half = row["inputs"]["ratio"] / 2
    worked = unpicked(f"{row['inputs']['seam_yd']} yd", half, half, row["inputs"]["waste"])
    near(both(worked) / 36, row["expected"]["total_yd"], row["tolerance"])


def formula(text: str, per_inch: int, thickness: Fraction) -> Fraction:
    """The file's formula, worked out: "2 + 2*T*S"."""
    plain = re.match(r"(\d) \+ (?:(\d)\*)?T\*S", text)
    assert plain is not None
    return int(plain[1]) + int(plain[2] or 1) * thickness * per_inch


def both_threads(text: Any) -> None:
    assert formula(text, 12, Fraction(1, 20)) == ratio(12, Fraction(1, 20))


def one_thread(text: Any) -> None:
    assert "(balanced)" in text
    assert 2 * formula(text, 12, Fraction(1, 20)) == ratio(12, Fraction(1, 20))


def other_base(text: Any) -> None:
    shown = next(
        key for key, value in standards()["lockstitch"]["formula"]["family"].items() if value == text
    )
    assert formula(text, 12, Fraction(1, 20)) - base(shown) == ratio(12, Fraction(1, 20)) - 2


def type_301(text: Any) -> None:
    both_threads(standards()["lockstitch"]["formula"]["family"][text])


def means_what_it_says(text: Any) -> None:
    """T and S in one unit of length: a double of one and a half of the other is the same seam."""
    assert "per unit length" in text or "same length unit" in text
    assert ratio(12, Fraction(1, 20)) == ratio(6, Fraction(1, 10))


def implied_thickness(value: Any) -> None:
    per_cm = standards()["lockstitch"]["ratios"]["stated_density_per_cm"]
    worked = work(
        piecing_thread, units="centimetres", seam_length="100 cm", waste="0 %",
        stitches_per_inch=f"{per_cm} per cm", thickness=f"{decimal(value)} mm",
    )  # fmt: skip
    printed = standards()["lockstitch"]["ratios"]["coats_301"]
    near(both(worked) * Fraction("2.54") / 100, printed, Fraction(1, 1000))


def grid(values: Any) -> None:
    table = standards()["lockstitch"]["grid_derived"]
    assert values in (table["S_per_in"], table["T_in"], table["ratio"])
    ours = [[ratio(s, t) for s in table["S_per_in"]] for t in table["T_in"]]
    assert [[nearest(cell, Fraction(1, 100)) for cell in row] for row in ours] == table["ratio"]


def our_waste(percents: Any) -> None:
    default = quilting_thread.spec.given("waste")
    assert default is not None
    assert KINDS["percent"].read(str(default.default), Notation()) == percents[0]


STITCHES: dict[str, Callable[[Any], None]] = {
    **{f"thread_check/A{n:02}": through_the_layers for n in (1, 2, 3, 4, 5, 6, 7, 8, 16, 17)},
    "thread_check/A09": ordinary_seam,
    "thread_check/A10": example_of_220_cm,
    "thread_check/A13": unravelled_15_cm,
    "thread_check/A14": unravelled_3_in,
    "thread_check/A15": unravelled_beside_the_chart,
    "thread_check/A18": thickness_of_a_ratio,
    "thread_check/A19": in_metric,
    "thread_check/A20": with_waste,
    "lockstitch/formula/stitch": type_301,
    "lockstitch/formula/ratio": both_threads,
    "lockstitch/formula/needle": one_thread,
    "lockstitch/formula/bobbin": one_thread,
    "lockstitch/formula/T": means_what_it_says,
    "lockstitch/formula/S": means_what_it_says,
    "lockstitch/formula/family/101": other_base,
    "lockstitch/formula/family/301": both_threads,
    "lockstitch/formula/family/401": other_base,
    "lockstitch/ratios/coats_301": lambda value: near(ratio(10, Fraction(1, 40)), value, 0),
    "lockstitch/ratios/coats_301_needle_to_bobbin": lambda text: ordinary_seam(
        {"expected": {"total": Fraction(5, 2), "needle_share": Fraction(*map(int, text.split(":"))) / 2}}
    ),
    "lockstitch/ratios/stated_density_per_cm": lambda _: implied_thickness(
        standards()["lockstitch"]["ratios"]["implied_thickness_mm_at_7_per_cm"]
    ),
    "lockstitch/ratios/implied_thickness_mm_at_7_per_cm": implied_thickness,
    "lockstitch/waste/apparelscience_percent": our_waste,
    **{f"lockstitch/grid_derived/{name}": grid for name in ("S_per_in", "T_in", "ratio")},
}  # fmt: skip


@pytest.mark.outside_check("quilting_thread", "piecing_thread", against="published")
@pytest.mark.parametrize("key", STITCHES, ids=named)
def test_a_stitch_takes_what_is_printed(key: str) -> None:
    STITCHES[key](ROWS[key])


# --- thread numbers


def number(text: str) -> ThreadNumber:
    """A thread number as a person types it."""
    read: ThreadNumber = KINDS["thread_number"].read(text, Notation())
    return read


def metres_a_gram(thread: ThreadNumber) -> Fraction:
    return 1000 / tex(thread)


def yards_a_pound(thread: ThreadNumber) -> Fraction:
    return metres_a_gram(thread) * POUND / YARD


def typed(inputs: Any) -> ThreadNumber:
    """The number of a check row: which name stands in it says the convention."""
    names = {"Ne": "Ne", "Ne_single": "Ne", "Nm_single": "Nm", "tex": "tex", "denier": "den", "wt": "wt Nm"}
    ((said, value),) = ((names[key], value) for key, value in inputs.items() if key in names)
    plies = inputs.get("plies", 1)
    if plies == 1 or f"{said} {plies} ply" not in {"Ne 2 ply", "Ne 3 ply", "Nm 2 ply", "Nm 3 ply"}:
        return number(f"{decimal(value)} {said}")
    return number(f"{decimal(value)} {said} {plies} ply")


def weighs(row: Any) -> None:
    inputs, expected = row["inputs"], row["expected"]
    thread = typed(inputs)
    # Four strands, or two of a number by mass, are no convention here: so many of one strand.
    strands = inputs.get("plies", 1) if "ply" not in thread.convention else 1
    mass = strands * tex(thread)
    ours = {
        "tex": mass,
        "g_per_km": mass,
        "denier_total": 9 * mass,
        "km_per_kg": 1000 / mass,
        "m_per_g": 1000 / mass,
        "yd_per_lb": yards_a_pound(thread),
        "ticket": 3000 / mass,
    }
    printed = {key: value for key, value in expected.items() if not key.endswith("_g")}
    for key, value in printed.items():
        near(ours[key], value, Fraction(1, 2 * 10 ** places(value)))
    if "computed_g" in expected:
        grams = mass * inputs["length_m"] / 1000
        near(grams, expected["computed_g"], Fraction(1, 100))
        assert grams == grams_on_our_spool(inputs)
        near(grams, expected.get("label_g", grams), grams * Fraction(25, 1000))  # a label is a whole number


def places(value: Fraction | int) -> int:
    return len(decimal(value).partition(".")[2])


def grams_on_our_spool(inputs: Any) -> Fraction:
    """The same spool as a row of our table: its length times its number."""
    row: Any = THREADS.row(f"cotton {inputs['Ne']}/{inputs['plies']}, {inputs['length_m']} m")
    grams = tex(row["number"]) * row["length"] * Fraction("0.0254") / 1000
    return Fraction(grams)


def defines(convention: str, length_m: Fraction, mass_g: Fraction) -> Callable[[Any], None]:
    """A definition: so many metres of a thread of number 1 weigh so much; the figure is the text's."""

    def check(text: Any) -> None:
        figure = next(iter(re.findall(r"\d+", text)), "1")
        metres = int(figure) * length_m
        assert tex(number(f"1 {convention}")) * metres / 1000 == mass_g

    return check


def exact_ne(_: Any) -> None:
    table = standards()["numbering"]
    exact = Fraction(table["tex_from_Ne_exact_numerator"], table["tex_from_Ne_exact_denominator"])
    assert tex(number("1 Ne")) == exact
    assert exact != Fraction(5831, 10)


def plies_of(text: Any) -> None:
    assert "plies" in text
    for plies in (2, 3):
        assert tex(number(f"60 Ne {plies} ply")) == plies * tex(number("60 Ne"))  # single tex × plies
        assert tex(number(f"60 Ne {plies} ply")) == tex(number(f"{60 // plies} Ne"))  # single Ne ÷ plies


def ticket(text: Any) -> None:
    assert text.startswith("3 x resultant Nm")
    assert 3000 / tex(number("80 Nm 2 ply")) == 3 * Fraction(80, 2)


def ambiguous(key: str, convention: str) -> Callable[[Any], None]:
    def check(printed: Any) -> None:
        numbers = standards()["wt_ambiguity"]["number"]
        ours = [tex(number(f"{n} {convention}")) for n in numbers]
        assert [nearest(mass, Fraction(1, 100)) for mass in ours] == printed, key

    return check


def asked(numbers: Any) -> None:
    for bare in numbers:
        with pytest.raises(NotationError) as caught:
            number(f"{bare} wt")
        masses = {tex(number(offer)) for offer in caught.value.offers}
        assert len(caught.value.offers) == len(masses) == 3  # three threads: it asks which


NUMBERS: dict[str, Callable[[Any], None]] = {
    **{f"numbering_check/B{n:02}": weighs for n in range(1, 20)},
    "numbering/tex": defines("tex", Fraction(1), Fraction(1)),
    "numbering/decitex": defines("dtex", Fraction(1), Fraction(1)),
    "numbering/denier": defines("den", Fraction(1), Fraction(1)),
    "numbering/Ne": defines("Ne", YARD, POUND),
    "numbering/Nm": defines("Nm", Fraction(1), Fraction(1000)),
    "numbering/wt": defines("wt Nm", Fraction(1000), Fraction(1000)),
    "numbering/tex_from_Ne_exact_numerator": exact_ne,
    "numbering/tex_from_Ne_exact_denominator": exact_ne,
    "numbering/tex_from_Ne": lambda value: near(tex(number("1 Ne")), value, Fraction(1, 10**10)),
    "numbering/coats_prints": lambda value: near(tex(number("1 Ne")), value, Fraction(5, 1000)),
    "numbering/den_from_Ne": lambda value: near(9 * tex(number("1 Ne")), value, Fraction(1, 10**10)),
    "numbering/Nm_from_Ne": lambda value: near(metres_a_gram(number("1 Ne")), value, Fraction(1, 10**10)),
    "numbering/tex_from_Nm": lambda value: near(tex(number("1 Nm")), value, 0),
    "numbering/tex_from_denier": lambda text: near(
        tex(number("1 den")), 1 / Fraction(text.rpartition("/")[2]), 0
    ),
    "numbering/ply_rule_indirect": plies_of,
    "numbering/ply_rule_direct": plies_of,
    "numbering/metric_ticket": ticket,
    "wt_ambiguity/number": asked,
    "wt_ambiguity/tex_if_wt_km_per_kg": ambiguous("wt", "wt Nm"),
    "wt_ambiguity/tex_if_Ne_2ply": ambiguous("2 ply", "wt Ne 2 ply"),
    "wt_ambiguity/tex_if_Ne_3ply": ambiguous("3 ply", "wt Ne 3 ply"),
}


@pytest.mark.parametrize("key", NUMBERS, ids=named)
def test_a_number_weighs_what_is_printed(key: str) -> None:
    NUMBERS[key](ROWS[key])
