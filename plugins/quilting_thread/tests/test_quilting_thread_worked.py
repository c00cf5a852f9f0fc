"""Quilting and piecing thread by hand: what is found, what is bought, what is warned of, what is refused."""

from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.plugin import Cannot, Price, Table
from boltend.testing import Worked, work
from boltend_backing_batting.battings import BATTINGS
from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.piecing import piecing_thread
from boltend_quilting_thread.quilting import quilting_thread
from boltend_quilting_thread.threads import THREADS

TABLES = [THREADS, BOBBINS, BATTINGS]
QUILT: dict[str, Any] = {
    "width": "60 in", "height": "72 in",
    "pattern": "parallel lines", "spacing": "2 in", "thickness": "1/16 in",
}  # fmt: skip
FULL: dict[str, Any] = {**QUILT, "thread": "cotton 50/2, 1300 m", "bobbin": "L", "speed": "600"}
YARD, METRE = 36, Fr(5000, 127)


def quilt(**said: Any) -> Worked:
    tables = said.pop("tables", TABLES)
    return work(
        quilting_thread, tables=tables, **{k: v for k, v in {**FULL, **said}.items() if v is not None}
    )


def piece(**said: Any) -> Worked:
    given: dict[str, Any] = {"seam_length": "100 yd", "thickness": "0.025 in", **said}
    return work(piecing_thread, tables=TABLES, **given)


def yd(worked: Worked, name: str) -> Fr:
    value: Any = worked.unrounded[name]
    return value / YARD


def warned(worked: Worked, words: str) -> bool:
    return any(words in said for said in worked.cautions)


def test_quilting_by_hand() -> None:
    worked = quilt()
    # 60 × 72 ÷ 2 = 2160 in = 60 yd; 1 + 1/16 × 10 = 1.625, low 1.3125, high 1.9375; 10 % waste.
    assert yd(worked, "path") == 60
    assert yd(worked, "top_thread") == yd(worked, "bobbin_thread") == Fr("107.25")
    assert yd(worked, "top_thread_low") == Fr("86.625")
    assert yd(worked, "top_thread_high") == Fr("127.875")
    found: Any = worked.found
    shown = [found[f"top_thread{end}"] / YARD for end in ("", "_low", "_high")]
    assert shown == [108, 86, 128]
    assert found["spools"] == 1  # 216 yd of 1421.7
    assert found["bobbins"] == 2  # 130 yd of 14.29 tex is 78.6 yd of 23.62 tex; 108 ÷ 78.6 is 1.4
    assert found["hours"] == 36  # minutes: 2160 × 10 ÷ 600


@pytest.mark.parametrize(
    ("said", "yards"),
    [
        ({"pattern": "square grid"}, 120),
        ({"pattern": "diagonal grid"}, 120),
        ({"pattern": "meander"}, 60),
        ({"pattern": "in the ditch", "ditch_length": "45 yd"}, 45),
        ({"pattern": "in the ditch", "ditch_length": "45 yd", "spacing": None}, 45),
        ({"pattern": "in the ditch", "ditch_length": "0 in"}, 0),
        ({"pattern": "other", "path": "80 yd"}, 80),
        ({"pattern": "square grid", "path": "80 yd"}, 80),
        ({"pattern": "square grid", "path": "80 yd", "spacing": None}, 80),
        ({"margin": "15 %"}, 69),
        ({"pattern": "other", "path": "80 yd", "margin": "5 %"}, 84),
    ],
)
def test_the_path_by_pattern(said: dict[str, Any], yards: int) -> None:
    worked = quilt(**said)
    assert yd(worked, "path") == yards
    assert yd(worked, "top_thread") == yards * Fr("1.7875")


@pytest.mark.parametrize(
    ("said", "blamed"),
    [
        ({"spacing": None}, "spacing"),
        ({"pattern": "meander", "spacing": None}, "spacing"),
        ({"pattern": "in the ditch"}, "ditch_length"),
        ({"pattern": "other"}, "path"),
        ({"unpicked_top": "0.9"}, "unpicked_top"),
        ({"unpicked_bobbin": "0.9"}, "unpicked_bobbin"),
        ({"stitches_per_inch": "0"}, "stitches_per_inch"),
        ({"stitches_per_inch": "101"}, "stitches_per_inch"),
        ({"speed": "0"}, "speed"),
        ({"width": "10000 in", "height": "10000 in", "spacing": "1/16 in"}, "spacing"),
        ({"pattern": "other", "path": "9000000 in"}, "path"),
        ({"pattern": "in the ditch", "ditch_length": "9000000 in"}, "ditch_length"),
        ({"thread_number": "0.00001 Ne"}, "thread_number"),
        ({"thread_number": "40 wt"}, "thread_number"),
        ({"thread_number": "50/2"}, "thread_number"),
    ],
)
def test_what_is_refused_and_by_which_given(said: dict[str, Any], blamed: str) -> None:
    with pytest.raises(Cannot) as caught:
        quilt(**said)
    assert caught.value.given == blamed


def test_the_least_and_the_most_stitches_and_the_slowest_speed() -> None:
    for stitches in ("1", "100", "0.5"):
        assert yd(quilt(stitches_per_inch=stitches), "top_thread") == 66 * (1 + Fr(stitches) / 16)
    assert quilt(speed="1").found["hours"] == 21_600


def test_as_much_thread_as_is_worked_out() -> None:
    flat: dict[str, Any] = {"pattern": "other", "thickness": "0 in", "waste": "0 %"}
    assert yd(quilt(**flat, path="250000 yd"), "top_thread") == 250_000
    with pytest.raises(Cannot, match="more than 250,000 yards"):
        quilt(**flat, path="250001 yd")


def test_the_spools_at_both_ends_are_for_the_yards_shown() -> None:
    # low 86 yd of each thread, high 128: two spools of 86 hold the low figures, two of 127 not the high ones.
    assert any("At the low figures 2," in said for said in quilt(spool_length="86 yd").working)
    assert any("at the high ones 3." in said for said in quilt(spool_length="127 yd").working)


def test_the_time_to_a_tenth_of_a_minute() -> None:
    assert any("÷ 700 a minute = ≈ 30.9 min" in said for said in quilt(speed="700").working)


def test_a_weight_without_its_convention_is_asked_for() -> None:
    with pytest.raises(Cannot, match=r"40 wt Nm.*40 wt Ne 2 ply.*40 wt Ne 3 ply"):
        quilt(thread_number="40 wt")


def test_a_usual_thickness_stands_so_that_there_is_an_answer_at_once() -> None:
    # 1.5 mm are 0.05906 in: 60 yd · (1 + 0.5906) · 1.1 = 104.98 yd of each; 100 yd · 1.3 · 1.1 = 143 yd.
    said = {"width": "60 in", "height": "72 in", "pattern": "parallel lines", "spacing": "2 in"}
    plain = work(quilting_thread, tables=TABLES, **said).found
    assert plain["top_thread"] == plain["bobbin_thread"] == 105 * 36
    assert work(piecing_thread, seam_length="100 yd").found["top_thread"] == 143 * 36
    changed = work(quilting_thread, tables=TABLES, thickness="1/16 in", **said).found
    assert changed["top_thread"] == 108 * 36  # 60 · 1.625 · 1.1 = 107.25
    assert "common practice, no source" in quilting_thread.spec.given("thickness").help


def test_unpicking_narrows_the_range_and_needs_no_thickness() -> None:
    worked = quilt(thickness=None, unpicked_top="1.5", unpicked_bobbin="1.6 cm per cm")
    assert yd(worked, "top_thread") == 60 * Fr("1.5") * Fr("1.1")
    assert yd(worked, "bobbin_thread") == 60 * Fr("1.6") * Fr("1.1")
    # 4 1/2 in out of 3, each read to 1/16: between 4 7/16 out of 3 1/16 and 4 9/16 out of 2 15/16.
    assert yd(worked, "top_thread_low") == 66 * Fr(71, 49)
    assert yd(worked, "top_thread_high") == 66 * Fr(73, 47)
    assert any("as unpicked" in said for said in worked.working)
    assert not warned(worked, "An estimate")
    assert not warned(worked, "Better than the thickness")


def test_one_thread_unpicked_leaves_the_other_to_the_thickness() -> None:
    worked = quilt(unpicked_top="1.5")
    assert yd(worked, "top_thread") == 99
    assert yd(worked, "bobbin_thread") == Fr("107.25")
    assert warned(worked, "An estimate")
    assert any("bobbin thread: 1 + thickness" in said for said in worked.working)
    other = quilt(unpicked_bobbin="1.5")
    assert (yd(other, "top_thread"), yd(other, "bobbin_thread")) == (Fr("107.25"), 99)


def test_the_working_says_what_the_range_rests_on() -> None:
    said = " ".join(quilt().working)
    assert "Low with half the thickness: ≈ 1.313; high with one and a half times: ≈ 1.938" in said
    assert "1 + 1/16 in × 10 per in = 1.625" in said
    assert "3.6 yd of top thread a square foot" in said  # 107.25 yd on 30 sq ft
    assert warned(quilt(), "rests on the thickness under the needle and a balanced tension")


def test_spools_hold_both_threads_as_shown() -> None:
    worked = quilt(thread="small spool, 100 m")
    # 108 + 108 yd = 197.5 m: 2 spools; 128 + 128 yd = 234.1 m: 3.
    assert worked.found["spools"] == 2
    (goods,) = worked.answer.goods
    assert (goods.name, goods.amount, goods.unit) == ("thread, small spool, 100 m", 2, "spool")
    assert goods.price_each is None
    assert goods.part == Fr("1.975104")  # 216 · 0.9144 m of 100
    (piecing,) = piece(thread="small spool, 100 m").answer.goods
    assert piecing.name == goods.name
    assert warned(worked, "At the high figures it takes 3 spools, not 2")
    assert quilt(thread="small spool, 100 m", spool_length="36 yd").found["spools"] == 6
    assert quilt(thread=None, spool_length="216 yd").found["spools"] == 1
    assert quilt(thread=None, spool_length="215 yd").found["spools"] == 2


def test_without_a_thread_or_a_bobbin_it_says_so_and_guesses_nothing() -> None:
    worked = quilt(thread=None, bobbin=None, speed=None)
    found = worked.found
    assert (found["spools"], found["bobbins"], found["hours"]) == (None, None, None)
    assert worked.answer.goods == []
    # 107.25 yd up to 108 of each thread: 216 yd.
    assert warned(worked, "with 200 yd on each it would be 2, with 500 yd 1")
    assert not warned(worked, "bobbin")
    # Nobody asked for the time; the estimate and what is better are one caution.
    assert not warned(worked, "minute")
    assert len([said for said in worked.cautions if "estimate" in said or "unpick" in said]) == 1


def test_a_thread_of_an_unsaid_convention_counts_no_bobbins() -> None:
    worked = quilt(thread="rayon 40 wt, 850 yd")
    assert worked.found["spools"] == 1
    assert worked.found["bobbins"] is None
    assert warned(worked, "“rayon 40 wt, 850 yd” is not known with its convention")
    for number, bobbins in (("40 wt Nm", 2), ("40 wt Ne 3 ply", 3)):  # 25 and 44.3 tex: 74.3 and 41.9 yd
        assert quilt(thread="rayon 40 wt, 850 yd", thread_number=number).found["bobbins"] == bobbins


def test_the_number_that_is_given_speaks_over_the_rows() -> None:
    assert quilt(thread_number="70 wt Nm").found["bobbins"] == 1  # 130 yd: the bobbin's own thread


OWN = Table(
    "threads",
    THREADS.columns,
    {
        "shop's": {"number": "40 wt Nm", "length": "500 m", "price": "7.50", "source": "invented"},
        "by the metre": {"length": "500 m", "price": "0.10 per metre", "source": "invented"},
        "an inch": {"number": "50 Ne 2 ply", "length": "1 in", "source": "invented"},
        "a scrap": {"length": "1/2 in", "source": "invented"},
        "of lead": {"number": "0.00001 Ne", "length": "500 m", "source": "invented"},
        "bare": {"source": "invented"},
    },
)
OWN_BOBBINS = Table(
    "bobbins",
    BOBBINS.columns,
    {
        "wound by me": {"holds": "60 yd", "number": "50 Ne 2 ply", "source": "invented"},
        "a turn": {"holds": "1 in", "number": "50 Ne 2 ply", "source": "invented"},
        "unsaid": {"holds": "60 yd", "source": "invented"},
        "empty": {"holds": "0 yd", "number": "50 Ne 2 ply", "source": "invented"},
    },
)


def own(**said: Any) -> Worked:
    return quilt(tables=[OWN, OWN_BOBBINS, BATTINGS], **{"bobbin": None, **said})


def test_a_persons_own_rows() -> None:
    assert own(thread="shop's").answer.goods[0].price_each == Price(Fr(15, 2), "USD")
    assert own(thread="by the metre").answer.goods[0].price_each is None  # no price of a spool
    assert own(thread="bare").found["spools"] is None
    worked = own(thread="shop's", thread_number="50 Ne 2 ply", bobbin="wound by me")
    assert worked.found["bobbins"] == 2  # 108 ÷ 60, of its own thread
    inches = own(thread="an inch", bobbin="a turn").found  # the least that is taken
    assert (inches["spools"], inches["bobbins"]) == (216 * 36, 108 * 36)


@pytest.mark.parametrize(
    ("said", "blamed"),
    [
        ({"thread": "a scrap"}, "thread"),
        ({"thread": "of lead", "bobbin": "wound by me"}, "thread"),
        ({"thread": "shop's", "bobbin": "unsaid"}, "bobbin"),
        ({"thread": "shop's", "bobbin": "empty"}, "bobbin"),
    ],
)
def test_rows_that_say_nothing_of_use(said: dict[str, Any], blamed: str) -> None:
    with pytest.raises(Cannot) as caught:
        own(**said)
    assert caught.value.given == blamed


@pytest.mark.parametrize("name", [name for name in BATTINGS.rows if BATTINGS.row(name)["quilting_gap"]])
def test_the_widest_gap_of_every_batting_is_respected(name: str) -> None:
    gap: Any = BATTINGS.row(name)["quilting_gap"]
    said: dict[str, Any] = {"batting": name, "width": "200 in", "height": "200 in"}
    for pattern in ("parallel lines", "square grid", "diagonal grid"):
        assert not warned(quilt(**said, pattern=pattern, spacing=gap), f"“{name}”")
        assert warned(quilt(**said, pattern=pattern, spacing=gap + Fr(1, 16)), f"is too far for “{name}”")
    ditch = {**said, "pattern": "in the ditch", "ditch_length": "45 yd"}
    assert warned(quilt(**ditch, spacing=None), "Measure the widest gap")
    assert warned(quilt(**ditch, spacing=gap + 1), "is too far")
    assert not warned(quilt(**ditch, spacing=gap), name)


def test_a_meanders_widest_gap_may_be_too_wide_where_its_mean_is_not() -> None:
    said: dict[str, Any] = {"pattern": "meander", "batting": "wool"}  # 3 in
    assert not warned(quilt(**said, spacing="2 in"), "wool")
    assert warned(quilt(**said, spacing="2 1/16 in"), "widest may be 3 3/32 in")
    assert warned(quilt(**said, spacing="3 1/16 in"), "is too far for “wool”")
    assert warned(quilt(**said, spacing="2 in"), "half as much again")
    assert not warned(quilt(**said, spacing="2 in", path="80 yd"), "half as much again")


def test_a_batting_of_no_known_gap_and_no_batting() -> None:
    assert warned(quilt(batting="bamboo and cotton"), "is not known here")
    assert not warned(quilt(), "apart")


def test_what_is_given_in_vain_or_makes_no_sense_is_said() -> None:
    assert warned(quilt(ditch_length="40 yd"), "“Seams to follow” is not counted")
    assert warned(
        quilt(pattern="in the ditch", ditch_length="40 yd", path="1 yd"), "“Seams to follow” is not counted"
    )
    assert not warned(quilt(pattern="in the ditch", ditch_length="40 yd"), "not counted")
    assert warned(quilt(spacing="61 in"), "further apart than the quilt is wide")
    assert not warned(quilt(spacing="60 in"), "further apart")


def test_piecing_by_hand() -> None:
    worked = piece(thread="small spool, 100 m", thread_number="50 Ne 2 ply", bobbin="L")
    # 100 yd × (1 + 0.025 × 12) × 1.1
    assert yd(worked, "top_thread") == yd(worked, "bobbin_thread") == 143
    assert (yd(worked, "top_thread_low"), yd(worked, "top_thread_high")) == (Fr("126.5"), Fr("159.5"))
    assert worked.found["spools"] == 3  # 286 yd are 261.5 m
    assert worked.found["bobbins"] == 2  # 143 ÷ 78.6
    (goods,) = worked.answer.goods
    assert (goods.name, goods.amount) == ("thread, small spool, 100 m, 50 Ne 2 ply", 3)
    assert warned(worked, "An estimate")


def test_nothing_to_sew_takes_nothing() -> None:
    worked = piece(seam_length="0 in", thread="small spool, 100 m")
    assert (worked.found["top_thread"], worked.found["spools"], worked.answer.goods) == (0, 0, [])


def test_in_centimetres() -> None:
    worked = quilt(
        units="centimetres", width="150 cm", height="180 cm", spacing="5 cm", thickness="1.5",
        stitches_per_inch="4 per cm", speed="600",
    )  # fmt: skip
    # 150 × 180 ÷ 5 = 5400 cm; 1.5 mm × 4 a cm = 0.6; × 1.6 × 1.1 = 95.04 m, low 77.22, high 112.86
    path, top, low, high = (
        worked.unrounded[name] / METRE  # type: ignore[operator]  # a length
        for name in ("path", "top_thread", "top_thread_low", "top_thread_high")
    )
    assert (path, top, low, high) == (54, Fr("95.04"), Fr("77.22"), Fr("112.86"))
    assert worked.found["top_thread"] == 96 * METRE
    assert worked.found["top_thread_low"] == 77 * METRE
    assert worked.found["hours"] == 36  # 5400 × 4 ÷ 600
    said = " ".join(worked.working)
    assert "1 + 0.15 cm × 4 per cm = 1.6" in said
    assert "54 m × 1.6" in said
    assert "54 m × 4 per cm ÷ 600 a minute = 36 min" in said


def test_stitches_stay_to_the_inch_in_a_metric_project() -> None:
    bare: Any = quilt(units="centimetres", stitches_per_inch="8").unrounded
    said: Any = quilt(units="centimetres", stitches_per_inch="8 per in").unrounded
    assert bare["top_thread"] == said["top_thread"]
    assert quilt(units="centimetres").unrounded["top_thread"] == quilt().unrounded["top_thread"]


@settings(max_examples=120, deadline=None)
@given(
    pattern=st.sampled_from(["parallel lines", "square grid", "diagonal grid", "meander"]),
    sides=st.tuples(st.integers(8, 960), st.integers(8, 960)),
    spacing=st.integers(2, 80),
    thick=st.integers(0, 32),
    waste=st.integers(0, 40),
    unpicked=st.none() | st.integers(48, 100),
)
def test_what_holds_of_any_quilt(
    pattern: str, sides: tuple[int, int], spacing: int, thick: int, waste: int, unpicked: int | None
) -> None:
    worked = quilt(
        pattern=pattern, width=Fr(sides[0], 8), height=Fr(sides[1], 8), spacing=Fr(spacing, 8),
        thickness=Fr(thick, 64), waste=f"{waste} %",
        unpicked_top=None if unpicked is None else f"{unpicked / 48:.4f}",
    )  # fmt: skip
    found, exact = worked.found, worked.unrounded
    for thread in ("top_thread", "bobbin_thread"):
        low, mid, high = (exact[f"{thread}{end}"] for end in ("_low", "", "_high"))
        assert exact["path"] <= low <= mid <= high  # type: ignore[operator]  # lengths
    both: Any = found["top_thread"] + found["bobbin_thread"]  # type: ignore[operator]  # lengths
    spools: Any = found["spools"]
    assert (spools - 1) * 1300 * METRE < both <= spools * 1300 * METRE
    doubled = quilt(
        pattern=pattern, width=Fr(sides[0], 4), height=Fr(sides[1], 8), spacing=Fr(spacing, 8),
        thickness=Fr(thick, 64), waste=f"{waste} %",
    )  # fmt: skip
    assert doubled.unrounded["bobbin_thread"] == 2 * exact["bobbin_thread"]  # type: ignore[operator]  # a length
