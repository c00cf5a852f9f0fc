"""Published spools, bobbins, paths, stitches and spacings, against our own; read from the file when run.

Here too stands the test that every row of these tables runs or has its reason in `thread_rows.REASONS`.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from math import pi
from typing import Any

import pytest
from test_thread_cases import NUMBERS, STITCHES, decimal, near, ratio
from thread_rows import LISTS, REASONS, ROWS, SINGLE, named

from boltend.core.values import KINDS, Notation
from boltend.plugin import Cannot, nearest
from boltend.testing import Worked, work
from boltend_backing_batting.battings import BATTINGS
from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.lockstitch import stitches_an_inch
from boltend_quilting_thread.quilting import quilting_thread
from boltend_quilting_thread.threads import THREADS
from boltend_shared import standards

METRES = {"m": Fraction(1), "yd": Fraction("0.9144")}
MILLIMETRE = Fraction(5, 127)


def quilted(width: str, height: str, **said: Any) -> Worked:
    thickness = said.pop("thickness", "1/40 in")
    return work(quilting_thread, tables=[BATTINGS], width=width, height=height, thickness=thickness, **said)


def exact(worked: Worked, name: str) -> Fraction:
    value: Any = worked.unrounded[name]
    return Fraction(value)


# --- spools and bobbins

SPOOLS = {
    "Aurifil Mako Ne 50/2 large spool": "cotton 50/2, 1300 m",
    "Aurifil Mako Ne 40/2 large spool": "cotton 40/2, 1000 m",
    "Aurifil Mako Ne 28/2 large spool": "cotton 28/2, 750 m",
    "Aurifil Mako Ne 12/2 large spool": "cotton 12/2, 325 m",
    "cotton 50/2 cone (MasterPiece)": "cotton 50/2 on a cone, 2500 yd",
    "polyester 50/3 cone (So Fine)": "polyester 50/3 on a cone, 3280 yd",
    "poly-wrapped polyester cone (Omni)": "polyester on a cone, 6000 yd",
    "rayon 40 wt spool (Sulky)": "rayon 40 wt, 850 yd",
    "ordinary spool cotton, c. 1912": "small spool, 200 yd",
    "small domestic spool": "small spool, 100 m",
    "cop (range low)": "cop, 1000 m",
    "cop (range high)": "cop, 2500 m",
    "industrial cone (from)": "large cone, 5000 m",
}
"""Spools of the file, and the row of our table that each stands behind."""


def spool(row: Any) -> None:
    ours: Any = THREADS.row(SPOOLS[row["name"]])
    assert ours["length"] * Fraction("0.0254") == row["length"] * METRES[row["unit"]]
    said = re.search(r"([\d.]+) yd", row.get("note", ""))
    if said:
        near(ours["length"] / 36, Fraction(said[1]), Fraction(1, 20))
    # Only a name that says how it is counted makes a number: Ne, each of two plies.
    counted = re.search(r"Ne (\d+)/2", row["name"])
    assert (ours["number"] is None) == (counted is None)
    if counted:
        assert (ours["number"].value, ours["number"].convention) == (int(counted[1]), "Ne 2 ply")


CLASSES = {"class_15_A": "class 15", "L": "L", "M": "M"}


def bobbin(row: Any) -> None:
    ours: Any = BOBBINS.row(CLASSES[row["style"]])
    assert ours["diameter"] == row["diameter_mm"] * MILLIMETRE
    assert ours["width"] == row["width_mm"] * MILLIMETRE


def room(style: str) -> float:
    """Cubic millimetres for thread, by the file's assumption."""
    (row,) = (row for row in standards()["bobbin"] if row["style"] == style)
    said = standards()["bobbin_capacity"]["relative_volume_assumes"]
    core, flange, share = map(float, re.findall(r"[\d.]+", said))
    outer = share / 100 * float(row["diameter_mm"]) / 2
    return pi * (outer**2 - (core / 2) ** 2) * (float(row["width_mm"]) - 2 * flange)


def relative(style: str) -> Callable[[Any], None]:
    def check(printed: Any) -> None:
        near(Fraction(room(style) / room("L")), printed, Fraction(5, 1000))
        ours: Any = [BOBBINS.row(CLASSES[one])["holds"] for one in (style, "L")]
        near(ours[0] / ours[1], printed, Fraction(1, 100))

    return check


def careful_end(name: str) -> Callable[[Any], None]:
    def check(printed: Any) -> None:
        holds: Any = BOBBINS.row(name)["holds"]
        assert holds / 36 == min(printed)

    return check


# --- paths and thread a square foot


def path_of(sets: int, pattern: str) -> Callable[[Any], None]:
    def check(text: Any) -> None:
        area, spacing = 40 * 30, Fraction(5, 4)
        assert re.sub(r"[a-z =]+", "", text) == ("/" if sets == 1 else f"{sets}*/")
        path = exact(quilted("40 in", "30 in", pattern=pattern, spacing="1 1/4 in"), "path")
        assert path == sets * area / spacing

    return check


def lengths(rows: Any) -> None:
    assert rows
    for row in rows:
        spacing = f"{decimal(row['spacing_in'])} in"
        for width in (60, 40, 75):
            height = f"{row['area_in2'] // width} in"
            for pattern, sets in (
                ("parallel lines", 1),
                ("meander", 1),
                ("square grid", 2),
                ("diagonal grid", 2),
            ):
                ours = exact(quilted(f"{width} in", height, pattern=pattern, spacing=spacing), "path") / 36
                near(ours, sets * row["length_yd"], Fraction(1, 10_000) * sets)


FEET = {"crib": (39, 54), "twin": (65, 88), "queen": (86, 93), "king": (104, 93)}
"""The quilt sizes that the file's densities rest on (its note)."""
ORDINARY = {"stitches_per_inch": "10", "thickness": "1/40 in", "waste": "0 %"}
"""1.25 of thread for each inch, as the file has it."""


def band(bed: str) -> Callable[[Any], None]:
    """The working's yards a square foot, for a quilt of that bed that takes the printed yards."""

    def check(printed: Any) -> None:
        assert f"{FEET[bed][0]}x{FEET[bed][1]}" in standards()["quilt_thread_density_derived"]["note"]
        (row,) = (row for row in standards()["quilt_thread_yards"] if row["year"] == 2006)
        for yards, a_foot in zip(row[bed], printed, strict=True):
            path = Fraction(yards) / Fraction(5, 4)
            width, height = (f"{side} in" for side in FEET[bed])
            worked = quilted(width, height, pattern="other", path=f"{decimal(path)} yd", **ORDINARY)
            assert exact(worked, "top_thread") / 36 == yards
            said = re.search(
                r"That is (?:≈ )?([\d.]+) yd of top thread a square foot", " ".join(worked.working)
            )
            assert said is not None
            # Of two roundings of a number, the file's and ours, one may go up and the other down.
            near(Fraction(said[1]), a_foot, Fraction(1, 10))

    return check


def said_in_the_band(word: str) -> Callable[[Any], None]:
    def check(printed: Any) -> None:
        words = " ".join(quilted("60 in", "72 in", pattern="meander", spacing="2 in").working)
        figures = re.search(
            r"about (?P<light>\d+) yd .*light, (?P<medium>\d+) medium, (?P<heavy>\d+) heavy", words
        )
        assert figures is not None
        assert int(figures[word]) == printed

    return check


def spacing_of(column: int) -> Callable[[Any], None]:
    """Parallel lines that far apart take the densest and the lightest bed's top thread."""

    def check(printed: Any) -> None:
        beds = standards()["quilt_thread_density_derived"]["top_yd_per_sqft"].values()
        densities = sorted((bed[column] for bed in beds), reverse=True)
        for a_foot, spacing in zip((densities[0], densities[-1]), printed, strict=True):
            gap = 5 / Fraction(a_foot)  # 144 sq in ÷ gap × 1.25 ÷ 36 yd
            worked = quilted("12 in", "12 in", pattern="parallel lines", spacing=f"{decimal(spacing)} in",
                             **ORDINARY)  # fmt: skip
            near(exact(worked, "top_thread") / 36, 5 / Fraction(spacing), Fraction(0))
            near(gap, spacing, Fraction(1, 100))

    return check


def a_thread_makers_table(row: Any) -> None:
    """A quilt quilted that densely is found to take it; "double it if the same thread is in the bobbin"."""
    assert "top only; double it" in row["thread"]
    for bed in FEET:
        for yards in row.get(bed, row.get("lap_crib")):
            path = f"{decimal(Fraction(yards) / Fraction(5, 4))} yd"
            worked = quilted("60 in", "72 in", pattern="other", path=path, spool_length="10 yd", **ORDINARY)
            assert exact(worked, "top_thread") == exact(worked, "bobbin_thread") == 36 * yards
            assert worked.found["spools"] == 2 * yards / 10


# --- stitches, speed, spacing


def usual_stitches(printed: Any) -> None:
    """Figures of a long-arm maker: our default lies among them, and our advice spans them."""
    lowest, highest = (min(printed), max(printed)) if isinstance(printed, list) else (printed, printed)
    with pytest.raises(Cannot) as caught:
        stitches_an_inch(KINDS["rate"].read("0", Notation(), "per in"))
    least, most = map(int, re.findall(r"\d+", caught.value.way_out)[:2])
    assert least <= lowest <= highest <= most


def our_default(printed: Any) -> None:
    usual_stitches(printed)
    default = quilting_thread.spec.given("stitches_per_inch")
    assert default is not None
    assert int(str(default.default)) in printed


def stitches_of(length_mm: Fraction) -> Fraction:
    """Stitches an inch, as the notation makes them of stitches a centimetre."""
    typed = f"{10 / Fraction(length_mm)} per cm"
    return Fraction(KINDS["rate"].read(typed, Notation(), "per in").value)


def per_inch(text: Any) -> None:
    over, under = text.split("/")
    assert under == "mm"
    assert stitches_of(Fraction(4)) == Fraction(over) / 4


def examples(rows: Any) -> None:
    assert rows
    for row in rows:
        spi = row["spi"]
        if (10 / row["mm"]).denominator == 1:  # 3 mm is 3 1/3 a centimetre, an inch's 8.4666… has no end
            near(stitches_of(row["mm"]), spi, Fraction(1, 10_000))
        near(Fraction("25.4") / row["mm"], spi, Fraction(1, 10_000))


def minutes(path_in: int, stitches: int, speed: int) -> Fraction:
    worked = quilted("60 in", "72 in", pattern="other", path=f"{path_in} in",
                     stitches_per_inch=str(stitches), speed=str(speed))  # fmt: skip
    return exact(worked, "hours")


def minutes_formula(text: Any) -> None:
    assert text.startswith("path_in * SPI / SPM")
    assert minutes(3600, 8, 5500) == Fraction(3600 * 8, 5500)


def industrial(text: Any) -> None:
    stitches, speed = map(int, re.findall(r"\d+", text))
    assert speed == standards()["stitch_speed"]["industrial_lockstitch_spm"]
    assert minutes(speed, stitches, speed) == stitches  # at that speed a stitch of every inch takes a minute


def domestic(printed: Any) -> None:
    assert f"some {printed} a minute" in " ".join((quilting_thread.__doc__ or "").split())
    assert minutes(printed, 10, printed) == 10


def stipple(printed: Any) -> None:
    """Spacings that are in use are within our limits, and a meander of that gap is A/g."""
    for gap in printed if isinstance(printed, list) else [printed]:
        worked = quilted("12 in", "12 in", pattern="meander", spacing=f"{decimal(gap)} in")
        assert exact(worked, "path") == 144 / Fraction(gap)


GAPS = {
    "needle-punched with scrim": "cotton, with scrim",
    "without scrim": "cotton, without scrim",
    "old-style unstabilised cotton": "cotton, not stabilised",
    "80/20 cotton-polyester": "cotton and polyester, 80/20",
    "polyester": "polyester",
    "wool": "wool",
    "Hobbs Tuscany 80/20 cotton-wool": "cotton and wool, 80/20",
    "Quilters Dream Green (recycled polyester)": "recycled polyester",
}
"""Battings of the file, and the row of the table that each stands behind."""


def gap(row: Any) -> None:
    """Quilting is warned of beyond the careful end of what is printed, and not before."""
    name, widest = GAPS[row["material"]], Fraction(min(row["max_spacing_in"]))
    for spacing, warned in ((widest, False), (widest + Fraction(1, 16), True)):
        worked = quilted("60 in", "72 in", pattern="parallel lines", spacing=f"{spacing} in", batting=name)
        assert any(f"is too far for “{name}”" in said for said in worked.cautions) == warned


def unpressed_cotton(printed: Any) -> None:
    """The file's grid has the ratio for that thickness; the trade's arithmetic names it as too much."""
    table = standards()["lockstitch"]["grid_derived"]
    row = table["ratio"][table["T_in"].index(printed)]
    assert ratio(10, printed) == row[table["S_per_in"].index(10)] == Fraction("4.5")


SUPPLIES: dict[str, Callable[[Any], None]] = {
    **{f"put_up/{name}": spool for name in SPOOLS},
    **{f"bobbin/{style}": bobbin for style in CLASSES},
    "bobbin_capacity/L_prewound_yd": careful_end("L"),
    "bobbin_capacity/M_prewound_yd_derived": careful_end("M"),
    "bobbin_capacity/class15_prewound_yd_derived": careful_end("class 15"),
    **{f"bobbin_capacity/relative_volume_to_L/{style}": relative(style) for style in CLASSES},
    **{f"quilt_thread_yards/{year}": a_thread_makers_table for year in (2006, 2011)},
    **{f"quilt_thread_density_derived/top_yd_per_sqft/{bed}": band(bed) for bed in FEET},
    **{
        f"quilt_thread_density_derived/rule_of_thumb_top_yd_per_sqft/{word}": said_in_the_band(word)
        for word in ("light", "medium", "heavy")
    },
    **{
        f"quilt_thread_density_derived/parallel_line_spacing_in_if_top_factor_1_25/{word}": spacing_of(column)
        for column, word in enumerate(("light", "medium", "heavy"))
    },
    "line_length/parallel": path_of(1, "parallel lines"),
    "line_length/crosshatch": path_of(2, "square grid"),
    "line_length/check": lengths,
    "stitch_density/average_longarm_spi": our_default,
    "stitch_density/heavy_cotton_spi": usual_stitches,
    "stitch_density/heirloom_spi": usual_stitches,
    "stitch_density/regulator_choices_seen": our_default,
    "stitch_density/spi_from_mm": per_inch,
    "stitch_density/examples": examples,
    "stitch_speed/domestic_spm": domestic,
    "stitch_speed/industrial_lockstitch_spm": lambda _: industrial(
        standards()["stitch_speed"]["industrial_example"]
    ),
    "stitch_speed/industrial_example": industrial,
    "stitch_speed/minutes": minutes_formula,
    "quilting_spacing/stipple_traditional_in": stipple,
    "quilting_spacing/stipple_in": stipple,
    **{f"batting_spacing/{material}": gap for material in GAPS},
    "batting_loft_in/cotton": unpressed_cotton,
}


@pytest.mark.parametrize("key", SUPPLIES, ids=named)
def test_supplies_and_paths_are_what_is_printed(key: str) -> None:
    SUPPLIES[key](ROWS[key])


def test_every_row_runs_or_has_its_reason() -> None:
    runs = [*STITCHES, *NUMBERS, *SUPPLIES]
    assert len(runs) == len(set(runs))
    assert set(runs) | set(REASONS) == set(ROWS)
    assert set(runs).isdisjoint(REASONS)


def test_no_table_of_thread_is_left_out() -> None:
    """By their names: whatever the file has of stitches, thread, bobbins, lines or quilting is looked at."""
    words = (
        "stitch",
        "thread",
        "number",
        "wt_",
        "put_up",
        "bobbin",
        "line_length",
        "quilting",
        "spacing",
        "loft",
    )
    tables = {name for name in standards() if any(word in name for word in words)}
    assert tables == {*LISTS, *SINGLE}


def test_every_thread_and_bobbin_of_ours_stands_behind_a_row() -> None:
    assert set(SPOOLS.values()) == set(THREADS.rows)
    assert set(CLASSES.values()) == set(BOBBINS.rows)
    assert set(GAPS.values()) == {name for name in BATTINGS.rows if BATTINGS.row(name)["quilting_gap"]}


def test_the_bobbins_thread_is_a_printed_one() -> None:
    """The capacity's own source names no thread; the one assumed is the bobbin thread of another."""
    (row,) = (row for row in standards()["numbering_check"] if "bobbin thread" in row.get("note", ""))
    for name in BOBBINS.rows:
        thread: Any = BOBBINS.row(name)["number"]
        assert (thread.value, thread.convention) == (row["inputs"]["wt"], "wt Nm")
    assert nearest(row["expected"]["m_per_g"], 1) == 70
