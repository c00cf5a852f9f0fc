"""Whatever is shown can be typed back and means the same; whatever is typed reads or is refused."""

from __future__ import annotations

import json
import unicodedata
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from boltend.core.values import (
    CONVENTIONS,
    KINDS,
    ROOT2,
    ChoiceKind,
    Kind,
    Notation,
    NotationError,
    Price,
    Rate,
    Surd,
    ThreadNumber,
)
from boltend.core.values.units import shown_unit

F = Fraction
PROJECTS = [Notation(), Notation("cm", F(30, 127), "EUR"), Notation("in", F(3, 8), "CAD")]
UNITS = ["", "in", "ft", "yd", "cm", "m", "mm"]
INCHES = {"in": F(1), "ft": F(12), "yd": F(36), "mm": F(5, 127), "cm": F(50, 127), "m": F(5000, 127)}

projects = st.sampled_from(PROJECTS)
units = st.sampled_from(UNITS)
sizes = st.one_of(
    st.fractions(min_value=0, max_value=5000, max_denominator=64),
    st.fractions(min_value=0, max_value=200, max_denominator=10**5),
    st.decimals(min_value=0, max_value=5000, places=3).map(F),
    st.decimals(min_value=0, max_value=50, places=9).map(F),
)
lengths = st.builds(
    lambda size, unit, sign: sign * size * INCHES[unit],
    sizes,
    st.sampled_from(list(INCHES)),
    st.sampled_from([1, -1]),
)
areas = st.builds(lambda size, unit: size * INCHES[unit] ** 2, sizes, st.sampled_from(list(INCHES)))
names = st.text(max_size=60).map(lambda s: unicodedata.normalize("NFC", s).strip())


def returns(kind: Kind, value: Any, how: Notation, unit: str = "") -> str:
    """Show, read back, and the same by way of a project file; give the text."""
    text = kind.show(value, how, unit)
    read = kind.read(text, how, unit)
    assert read == value, text
    assert type(read) is type(value)
    assert kind.from_toml(kind.to_toml(value, how, unit), how, unit) == value
    assert kind.check(value) is None
    json.dumps(kind.to_json(value, how, unit), allow_nan=False)
    return text


@given(lengths, projects, units, st.sampled_from(["finished", "cut", "length"]))
def test_lengths(value: Fraction, how: Notation, unit: str, name: str) -> None:
    kind = KINDS[name]
    returns(kind, value, how, unit)
    said = kind.show(value, how, unit, say_kind=True)
    assert kind.read(said, how, unit) == value


@given(lengths, projects, units)
def test_a_finished_length_typed_into_a_cut_given_is_two_seams_more(
    v: Fraction, how: Notation, unit: str
) -> None:
    said = KINDS["finished"].show(v, how, unit, say_kind=True)
    assert KINDS["cut"].read(said, how, unit) == v + 2 * how.seam
    returns(KINDS["cut"], v + 2 * how.seam, how, unit)


@given(lengths, projects, units)
def test_the_other_system_is_near_and_never_reads_back(value: Fraction, how: Notation, unit: str) -> None:
    also = KINDS["cut"].also(value, how, unit)
    if value == 0:
        assert also is None, "nothing is nothing in both"
        return
    assert also is not None
    assert also.startswith("≈ ")
    with pytest.raises(NotationError):
        KINDS["cut"].read(also, how, unit)
    near = KINDS["length"].read(also.removeprefix("≈ "), how, unit)
    if shown_unit(unit, how) in ("yd", "m"):
        # Three figures: half of the last one is 1 in 200 at most; or half of 1/4 in.
        assert abs(near - value) <= max(F(1, 8), abs(value) / 200)
        figures = "".join(filter(str.isdigit, also)).strip("0")
        assert also.endswith(" in") or len(figures) <= 3
    else:
        assert abs(near - value) <= F(1, 32)  # half of 1/16 in; half a millimetre is less


@given(st.lists(lengths.filter(lambda v: v > 0), min_size=1, max_size=50), projects, units)
def test_measured(values: list[Fraction], how: Notation, unit: str) -> None:
    returns(KINDS["measured"], tuple(values), how, unit)


@given(
    st.lists(st.tuples(st.integers(1, 12), lengths.filter(lambda v: v > 0)), min_size=1, max_size=9),
    projects,
    units,
)
def test_so_many_of_a_size_are_that_many_measured(
    runs: list[tuple[int, Fraction]], how: Notation, unit: str
) -> None:
    said = [f"{many} of {KINDS['cut'].show(size, how, unit)}" for many, size in runs]
    every = tuple(size for many, size in runs for _ in range(many))
    if len(every) > 50:
        with pytest.raises(NotationError, match="more than 50"):
            KINDS["measured"].read("; ".join(said), how, unit)
        return
    assert KINDS["measured"].read("; ".join(said), how, unit) == every
    assert KINDS["measured"].from_toml(said, how, unit) == every
    returns(KINDS["measured"], every, how, unit)


@given(areas, projects, st.sampled_from(["", "sq in", "sq ft", "sq yd", "sq cm", "sq m", "sq mm"]))
def test_areas(value: Fraction, how: Notation, unit: str) -> None:
    returns(KINDS["area"], value, how, unit)
    also = KINDS["area"].also(value, how, unit)
    assert also is None if value == 0 else str(also).startswith("≈ ")


@given(sizes, st.sampled_from(["number", "percent"]), st.sampled_from([1, -1]))
def test_numbers(value: Fraction, name: str, sign: int) -> None:
    returns(KINDS[name], sign * value, PROJECTS[0])


@given(st.integers(0, 10**9))
def test_counts(value: int) -> None:
    returns(KINDS["count"], value, PROJECTS[0])


@given(
    st.builds(lambda s, m: s * m, sizes, st.sampled_from([F(1), F(60), F(1, 60)])),
    st.sampled_from(["", "min", "h", "s"]),
)
def test_times(value: Fraction, unit: str) -> None:
    returns(KINDS["time"], value, PROJECTS[0], unit)


@given(
    st.decimals(0, 10**6, places=4).map(F),
    st.sampled_from([None, "yard", "metre"]),
    projects,
    st.sampled_from(["", "yd", "m"]),
)
def test_prices(amount: Fraction, per: Any, how: Notation, unit: str) -> None:
    price = Price(amount, how.currency, per)
    text = returns(KINDS["price"], price, how, unit)
    digits = "".join(c for c in text if c in "0123456789.")
    assert len(digits.partition(".")[2]) >= 2


RATES = ["per in", "per cm", "per m", "per yd", "per min", "per hour", "per s", "in per in", "cm per in"]


@given(sizes, st.sampled_from(RATES), projects, st.booleans())
def test_rates(value: Fraction, unit: str, how: Notation, declared: bool) -> None:
    returns(KINDS["rate"], Rate(value, unit), how, unit if declared else "")


@given(st.decimals(F(1, 100), 10**4, places=2).map(F), st.sampled_from(list(CONVENTIONS)))
def test_thread_numbers(value: Fraction, convention: str) -> None:
    returns(KINDS["thread_number"], ThreadNumber(value, convention), PROJECTS[0])


@given(names, st.sampled_from(["text", "fabric"]))
def test_texts(value: str, name: str) -> None:
    assume(value or name == "text")
    assume(KINDS[name].check(value) is None)
    returns(KINDS[name], value, PROJECTS[0])


@given(st.integers(0, 0xFFFFFF), st.booleans())
def test_colours_and_answers(number: int, answer: bool) -> None:
    returns(KINDS["colour"], f"#{number:06x}", PROJECTS[0])
    returns(KINDS["yes_no"], answer, PROJECTS[0])


@given(st.sampled_from(["one run", "each side", "10 %"]))
def test_choices(option: str) -> None:
    returns(ChoiceKind(("one run", "each side", "10 %")), option, PROJECTS[0])


@given(st.builds(Surd, st.fractions(1, 90, max_denominator=16), st.just(F(1))), projects, units)
def test_what_cannot_be_shown_exactly_is_marked(value: Surd, how: Notation, unit: str) -> None:
    text = KINDS["cut"].show(value, how, unit)
    assert text.startswith("≈ ")
    with pytest.raises(NotationError):
        KINDS["cut"].read(text, how, unit)


def test_digits_beyond_reading_are_marked_too() -> None:
    assert KINDS["cut"].show(F(1, 7**40), PROJECTS[0]) == "≈ 0.000 in"
    assert KINDS["cut"].show(20 * ROOT2, PROJECTS[0]) == "≈ 28.284 in"


typed = st.one_of(
    st.text(max_size=40),
    st.text("0123456789 /.,-½⅞'\"inchydmftkcutper$€%;wtNe≈", max_size=30),
    st.from_regex(r"-?[0-9]{1,3}[ \-]?[0-9]{0,2}/?[0-9]{0,2} ?(in|yd|cm|\"|'|ft|m)?( cut)?", fullmatch=True),
)


def tried(kind: Kind, text: str, how: Notation) -> tuple[Any, NotationError | None]:
    try:
        return kind.read(text, how), None
    except NotationError as error:
        return None, error


@pytest.mark.parametrize("name", list(KINDS))
@given(text=typed, how=projects)
def test_any_text_reads_or_is_refused(name: str, text: str, how: Notation) -> None:
    kind = KINDS[name]
    value, error = tried(kind, text, how)
    if error is None:
        returns(kind, value, how)
    else:
        assert 0 <= error.at <= len(text)
        assert error.why
        assert error.way_out
        for offer in error.offers:
            kind.read(offer, how)
        for shown in (str(error), error.pointed().replace("\n", "")):
            assert not any(unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp") for c in shown)
