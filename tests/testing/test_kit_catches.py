"""The kit is worth what it catches: each of these calculators breaks one part of the contract."""

from collections.abc import Mapping
from fractions import Fraction
from itertools import count
from typing import Any

import pytest

from boltend.plugin import (
    Answer,
    Bolt,
    Calculator,
    Cannot,
    Count,
    Cut,
    Finished,
    Length,
    Part,
    Piece,
    Polygon,
    Rect,
    Settings,
    Stock,
    Table,
    TableRow,
    YesNo,
    calculator,
    cutting_plan,
    found,
    given,
    line,
)
from boltend.testing import Subject, Worked, check, work
from boltend.testing.kit import CHECKS

_calls = count()


class Found:
    """One of each that the checks look at."""

    width: Finished = found("Width", nearest="size")
    strips: Count = found("Strips", grows_with=("length",))


def answer(width: Any, strips: Any, **more: Any) -> Answer:
    return Answer(found={"width": width, "strips": strips}, working=[line("as it is")], **more)


def make(body: Any, least: str | None = "1 in", most: str | None = "100 in") -> Calculator:
    """A calculator of a width and a length with a body of its own."""

    @calculator("odd", asks="Is the kit awake?", found=Found)
    def odd(
        width: Finished = given("Width", least=least, most=most),
        length: Length = given("Length", default="80 in", metric="2 m", least="1 in", most="500 in"),
        way: YesNo = given("Way", default="no"),
        *,
        setting: Settings,
    ) -> Answer:
        """Invented."""
        result: Answer = body(width, length, way, setting)
        return result

    return odd


def sound(width: Fraction, length: Fraction, way: bool, setting: Settings) -> Answer:
    return answer(width, -(-length // setting.usable_width))


def test_a_sound_calculator_passes() -> None:
    check(make(sound), width="40 in")


def raises(width: Fraction, *_: Any) -> Answer:
    return answer(width, 1 // (width < 60))


def hangs(width: Fraction, *_: Any) -> Answer:
    while width > 50:  # ended by the alarm
        pass
    return answer(width, 1)


def below_none(width: Fraction, *_: Any) -> Answer:
    return answer(width, 3 - int(width) // 20)


def no_size(width: Fraction, *_: Any) -> Answer:
    return answer(width - 1, 1)


def no_pieces(width: Fraction, *_: Any) -> Answer:
    return answer(width, 1, pieces=[Piece("patch", width, width, int(width) // 2)])


def no_reason(width: Fraction, *_: Any) -> Answer:
    if width > 45:
        raise Cannot("width", " ", "")
    return answer(width, 1)


def blames_nobody(width: Fraction, *_: Any) -> Answer:
    if width > 45:
        raise Cannot("girth", "It is too wide.", "Take less.")
    return answer(width, 1)


def remembers(width: Fraction, *_: Any) -> Answer:
    return answer(width + next(_calls), 1)


def by_system(width: Fraction, length: Fraction, way: bool, setting: Settings) -> Answer:
    return answer(width + (setting.system == "cm"), 1)


def shrinks(width: Fraction, length: Fraction, *_: Any) -> Answer:
    return answer(width, 20 - int(length) // 100 if length > 200 else 1)


def float_in_working(width: Fraction, *_: Any) -> Answer:
    return Answer(found={"width": width, "strips": 1}, working=[line("{} in", float(width))])


def float_in_what_is_first(width: Fraction, *_: Any) -> Answer:
    return answer(width, 1, first=[line("trim to {} in", float(width))])


def float_in_picture(width: Fraction, *_: Any) -> Answer:
    return answer(width, 1, picture=[Rect(0, 0, width, width), Polygon(((0, 0), (float(width), 0), (1, 1)))])


def cut_blindly(width: Fraction, length: Fraction, way: bool, setting: Settings) -> Answer:
    plan = cutting_plan([Part("patch", width, width, 1)], Stock((), Bolt(setting.usable_width)), effort=0)
    return answer(width, int(plan.length_used))


def shrunk_away(width: Fraction, length: Fraction, way: bool, setting: Settings) -> Answer:
    return answer(width - 5 * setting.prewash_along, 1)


def says_it_sometimes(width: Fraction, *_: Any) -> Answer:
    said = [line("as it is")] if width <= 60 else []
    return Answer(found={"width": width + Fraction(1, 100), "strips": 1}, working=said)


def silent(width: Fraction, *_: Any) -> Answer:
    return Answer(found={"width": width, "strips": 1})


@pytest.mark.parametrize(
    ("body", "caught_by", "said"),
    [
        (raises, "nothing_but_cannot", "ZeroDivisionError"),
        (hangs, "nothing_but_cannot", "took longer than"),
        (below_none, "nothing_but_cannot", "strips"),
        (no_size, "nothing_but_cannot", "a size is above 0"),
        (no_pieces, "nothing_but_cannot", "is to be cut 0 times"),
        (no_reason, "nothing_but_cannot", "no reason"),
        (blames_nobody, "nothing_but_cannot", "which is no given"),
        (float_in_working, "the_example_is_answered", "float"),
        (float_in_what_is_first, "the_example_is_answered", "float"),
        (float_in_picture, "nothing_but_cannot", "the picture has a place that is not exact"),
        (silent, "the_example_is_answered", "no working of its own"),
        (says_it_sometimes, "nothing_but_cannot", "no working of its own"),
        (cut_blindly, "nothing_but_cannot", "Look at .unplaced of the plan first"),
        (shrunk_away, "any_settings", "a size is above 0"),
        (remembers, "the_example_is_answered", "not pure"),
        (by_system, "same_in_both_systems", "in centimetres"),
        (shrinks, "more_never_takes_less", "shrinks from"),
    ],
)
def test_a_broken_one_is_caught(body: Any, caught_by: str, said: str) -> None:
    with pytest.raises(AssertionError, match=said):
        CHECKS[caught_by](Subject(make(body), {"width": "40 in"}, seconds=0.5, examples=100))


def test_the_whole_check_raises_too() -> None:
    with pytest.raises(AssertionError, match="shrinks from"):
        check(make(shrinks), width="40 in", examples=100)


def test_an_example_that_is_not_answered_is_no_example() -> None:
    with pytest.raises(AssertionError, match="does not answer its example"):
        check(make(sound), width="400 in")


def test_a_cover_of_the_authors_own_is_held_against_every_answer() -> None:
    def covers(raw: Mapping[str, object], worked: Worked) -> None:
        strips: Any = worked.found["strips"]
        assert strips >= 2, "one strip covers nothing"

    with pytest.raises(AssertionError, match="covers nothing"):
        check(make(sound), covers=covers, width="40 in")


def test_a_link_that_finds_something_else_is_caught() -> None:
    """What the flow itself would have to break, so it is broken here: a calculator that tells links apart."""

    class LinkFound:
        square: Cut = found("Square", up="cutting")

    @calculator("sly", asks="Is it typed?", found=LinkFound)
    def sly(size: Cut = given("Size", least="1 in"), *, setting: Settings) -> Answer:
        """Two calls differ, whatever is given."""
        return Answer(found={"square": size + next(_calls)}, working=[line("as it is")])

    with pytest.raises(AssertionError, match="a link finds something else"):
        CHECKS["a_link_is_a_typed_value"](Subject(sly, {"size": "10 in"}))


def test_who_looks_at_what_is_left_out_passes() -> None:
    def looks(width: Fraction, length: Fraction, way: bool, setting: Settings) -> Answer:
        plan = cutting_plan([Part("patch", width, width, 1)], Stock((), Bolt(setting.usable_width)), effort=0)
        if plan.unplaced:
            raise Cannot("width", "no patch of that size fits the cloth.", "Take a smaller one.")
        return answer(width, int(plan.length_used))

    check(make(looks), width="40 in", examples=20)


class FewFound:
    """What it finds."""

    each: Count = found("Each")


def few(body: Any) -> Calculator:
    @calculator("few", asks="How many each?", found=FewFound)
    def each(
        many: Count = given("Many", least="1", most="400"),
        spare: Count | None = given("Spare", least="1", most="400"),
    ) -> Answer:
        """Invented."""
        return Answer({"each": body(many, spare)}, working=[line("as it is")])

    return each


def test_counts_of_one_two_and_three_are_drawn() -> None:
    for wrong in (1, 2, 3):
        with pytest.raises(AssertionError, match="ZeroDivisionError"):
            check(few(lambda many, spare, wrong=wrong: 400 // (many - wrong) ** 2), many=20)


def test_an_optional_given_of_the_example_is_left_out_too() -> None:
    with pytest.raises(AssertionError, match="TypeError"):
        check(few(lambda many, spare: many + spare), many=20, spare=3)


def test_a_cover_gets_the_defaults_and_the_settings() -> None:
    widths = set()

    def covers(raw: Mapping[str, object], worked: Worked) -> None:
        assert {"width", "length", "way"} <= set(raw)
        widths.add(worked.settings.usable_width)

    check(make(sound), covers=covers, width="40 in")
    assert len(widths) > 3


@calculator("padded", asks="How many pillows?", found=FewFound)
def padded(pillow: TableRow = given("Pillow", table="pillows")) -> Answer:
    """Invented."""
    return Answer({"each": 1}, working=[line("as it is")])


def pillows(name: str = "pillows", **cells: str) -> Table:
    return Table(name, {"inside": "finished"}, {"standard": {"inside": "20 in", **cells}})


def test_a_table_that_was_not_passed_is_told_as_such() -> None:
    for call in (check, work):
        with pytest.raises(AssertionError, match=r"no table pillows was passed.* tables=\[PILLOWS\]"):
            call(padded, pillow="standard")
        with pytest.raises(AssertionError, match="mean 'pilows'"):
            call(padded, tables=[pillows("pilows", source="invented")], pillow="standard")
        with pytest.raises(AssertionError, match="row 'standard': no source"):
            call(padded, tables=[pillows()], pillow="standard")
        with pytest.raises(AssertionError, match=r"unknown column 'insid'\. Did you mean 'inside'"):
            call(padded, tables=[pillows(insid="3 in", source="invented")], pillow="standard")
    assert work(padded, tables=[pillows(source="invented")], pillow="standard").found["each"] == 1
