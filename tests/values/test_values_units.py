"""Units against two others: pint with our definitions, and scipy's constants."""

from __future__ import annotations

import subprocess
import sys
import threading
from fractions import Fraction

import pytest
from scipy import constants

from boltend.core.values import (
    KINDS,
    Notation,
    Rate,
    ThreadNumber,
    convert_rate,
    factor,
    read_length,
    shown_unit,
    tex,
    units,
)
from boltend.core.values.kinds_thread import CONVENTIONS

US = Notation()

LENGTHS_IN_METRES = {
    "in": constants.inch,
    "ft": constants.foot,
    "yd": constants.yard,
    "mm": constants.milli,
    "cm": constants.centi,
    "m": 1.0,
}
TIMES_IN_SECONDS = {"s": 1.0, "min": constants.minute, "h": constants.hour}


@pytest.mark.parametrize("unit", units.INCHES)
@pytest.mark.parametrize("into", units.INCHES)
def test_lengths_agree_with_scipy(unit: str, into: str) -> None:
    assert set(units.INCHES) == set(LENGTHS_IN_METRES)
    assert float(factor(unit, into)) == pytest.approx(
        LENGTHS_IN_METRES[unit] / LENGTHS_IN_METRES[into], rel=1e-15
    )
    assert float(factor(f"sq {unit}", f"sq {into}")) == pytest.approx(
        (LENGTHS_IN_METRES[unit] / LENGTHS_IN_METRES[into]) ** 2, rel=1e-15
    )


@pytest.mark.parametrize("unit", units.MINUTES)
def test_times_agree_with_scipy(unit: str) -> None:
    assert float(factor(unit, "min")) == pytest.approx(TIMES_IN_SECONDS[unit] / constants.minute, rel=1e-15)


@pytest.mark.parametrize("table", [units.INCHES, units.SQUARE_INCHES, units.MINUTES])
def test_the_table_agrees_with_pint_exactly(table: dict[str, Fraction]) -> None:
    ureg = units.registry()
    for unit, size in table.items():
        for into, other in table.items():
            one = ureg.Quantity(Fraction(1), unit.replace(" ", "_"))
            converted = one.to(into.replace(" ", "_")).magnitude
            assert isinstance(converted, int | Fraction)
            assert converted == size / other


def test_pound_and_hank_agree_with_scipy() -> None:
    # tex of 1 Ne: grams of 1000 m of a thread of which 840 yd weigh a pound
    grams_a_metre = constants.pound * 1000 / (840 * constants.yard)
    assert float(tex(ThreadNumber(Fraction(1), "Ne"))) == pytest.approx(grams_a_metre * 1000, rel=1e-14)
    assert tex(ThreadNumber(Fraction(1), "Ne")) == Fraction(32399455, 54864)


def test_thread_numbers_by_hand() -> None:
    # tex g/1000 m, dtex g/10000 m, denier g/9000 m, Nm 1000 m/kg (Coats, Bulletin 05, thread numbering)
    assert tex(ThreadNumber(Fraction(250), "dtex")) == 25
    assert tex(ThreadNumber(Fraction(225), "den")) == 25
    assert tex(ThreadNumber(Fraction(40), "Nm")) == 25
    assert tex(ThreadNumber(Fraction(25), "tex")) == 25
    assert tex(ThreadNumber(Fraction(40), "wt Nm")) == 25
    assert float(tex(ThreadNumber(Fraction(40), "wt Ne 2 ply"))) == pytest.approx(29.53, abs=0.005)
    assert float(tex(ThreadNumber(Fraction(40), "wt Ne 3 ply"))) == pytest.approx(44.29, abs=0.005)
    assert tex(ThreadNumber(Fraction(50), "Ne 2 ply")) == tex(ThreadNumber(Fraction(25), "Ne"))
    assert tex(ThreadNumber(Fraction(60), "Nm 3 ply")) == 50


def test_every_convention_has_a_mass() -> None:
    assert all(tex(ThreadNumber(Fraction(40), name)) > 0 for name in CONVENTIONS)


@pytest.mark.parametrize(
    ("a", "b"), [("in", "sq in"), ("in", "lb"), ("sq_in", "min"), ("in", "ell"), ("", "in")]
)
def test_what_does_not_convert_is_said(a: str, b: str) -> None:
    with pytest.raises(ValueError, match="cannot be turned into"):
        factor(a, b)


def test_one_registry_for_many_threads() -> None:
    found: list[object] = []
    threads = [threading.Thread(target=lambda: found.append(units.registry())) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(found) == 8
    assert len({id(registry) for registry in found}) == 1


def test_pint_stays_out_until_it_is_needed() -> None:
    code = (
        "import sys; from boltend.core.values import KINDS, Notation; how = Notation()\n"
        "for name, text in [('cut', '1 yd 4 in'), ('area', '4 sq yd'), ('time', '2 h'), ('rate', '4/cm')]:\n"
        "    kind = KINDS[name]; value = kind.read(text, how); kind.show(value, how); kind.also(value, how)\n"
        "assert 'pint' not in sys.modules\n"
        "KINDS['thread_number'].also(KINDS['thread_number'].read('50 Ne', how), how)\n"
        "assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


@pytest.mark.parametrize("text", ["3.5 inch", "2 yard", "0.125 m", "12.75 cm", "7 ft", "15 mm", "100 in"])
def test_reading_agrees_with_pints_own_parser_where_it_reads_rightly(text: str) -> None:
    theirs = units.registry().parse_expression(text).to("inch").magnitude
    assert isinstance(theirs, int | Fraction)
    assert read_length(text, US) == (theirs, None)


@pytest.mark.parametrize(
    ("unit", "inches", "metric"),
    [("", "in", "cm"), ("in", "in", "cm"), ("ft", "ft", "cm"), ("yd", "yd", "m"), ("cm", "in", "cm"),
     ("m", "yd", "m"), ("mm", "in", "mm"), ("sq yd", "sq yd", "sq m"), ("sq cm", "sq in", "sq cm")],
)  # fmt: skip
def test_the_shown_unit_follows_the_project(unit: str, inches: str, metric: str) -> None:
    assert shown_unit(unit, Notation("in")) == inches
    assert shown_unit(unit, Notation("cm")) == metric


def test_rates_convert_exactly() -> None:
    assert convert_rate(Rate(Fraction(4), "per cm"), "per in") == Rate(Fraction(254, 25), "per in")
    assert convert_rate(Rate(Fraction(60), "per min"), "per hour") == Rate(Fraction(3600), "per hour")
    assert convert_rate(Rate(Fraction(5, 2), "cm per in"), "in per in") == Rate(
        Fraction(125, 127), "in per in"
    )
    assert convert_rate(Rate(Fraction(36), "per yd"), "per in") == Rate(Fraction(1), "per in")
    for unit in ("per min", "in per in"):
        with pytest.raises(ValueError, match="cannot be one"):
            convert_rate(Rate(Fraction(1), "per in"), unit)


def test_a_given_with_a_foreign_unit_is_a_mistake_of_the_plugin() -> None:
    for kind, unit in [("cut", "ell"), ("area", "acre"), ("time", "day"), ("rate", "in"), ("price", "ft")]:
        with pytest.raises(ValueError, match=r"unit|per"):
            KINDS[kind].read("1", US, unit)
