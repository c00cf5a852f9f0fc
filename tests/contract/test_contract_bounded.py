"""`bounded=True`: a found that is a bound or an estimate before its rounding says so wherever it is told."""

from fractions import Fraction

import pytest

from boltend.core.contract import ContractError
from boltend.core.report.json import schema_json
from boltend.plugin import (
    Answer,
    Bolt,
    Calculator,
    Count,
    Length,
    Part,
    Stock,
    calculator,
    cutting_plan,
    found,
    given,
    line,
)
from boltend.testing import load, work


def arc(bounded: bool) -> Calculator:
    class Found:
        """A length."""

        along: Length = found("Along the arc", up="1/8 in", bounded=bounded)

    @calculator("arc", asks="How long is it?", found=Found)
    def arc(many: Count = given("How many")) -> Answer:
        """Invented."""
        return Answer(
            found={"along": many * Fraction("3.141593")}, working=[line("Above π, {} times.", many)]
        )

    return arc


@pytest.mark.parametrize(("bounded", "sign"), [(True, "≈ "), (False, "")])
def test_it_is_told_in_json_in_the_schema_and_in_the_working(bounded: bool, sign: str) -> None:
    worked = work(arc(bounded), many=2)
    assert worked.json["found"]["along"]["exact"] is not bounded
    assert worked.json["found"]["along"]["inches"] == "51/8"
    assert schema_json(arc(bounded).spec)["found"][0]["bounded"] is bounded
    assert worked.working[-1] == f"Along the arc: {sign}6.283186 in, up to the next 1/8 in: 6 3/8 in"


def test_what_is_bounded_is_rounded_in_a_stated_direction() -> None:
    class Found:
        """A count."""

        many: Count = found("Many", bounded=True)

    with pytest.raises(ContractError, match="what is bounded needs one of up=, down=, nearest="):

        @calculator("many", asks="How many?", found=Found)
        def many(size: Count = given("Size")) -> Answer:
            """Invented."""
            return Answer(found={"many": size})


def test_a_plugin_can_plan_off_a_bolt_with_what_it_may_import() -> None:
    plan = cutting_plan([Part("patch", Fraction(5), Fraction(5), 9)], Stock((), Bolt(Fraction(42))))
    assert plan.length_used == 10  # 8 lie side by side in 42 in, so a second strip


def test_the_thread_of_a_quilt_is_an_estimate_and_says_so() -> None:
    founds = [f for c in load("boltend_quilting_thread").values() for f in c.spec.founds]
    thread = [f for f in founds if "_thread" in f.name]
    assert len(thread) == 12
    assert [f.name for f in thread if not f.bounded] == []
