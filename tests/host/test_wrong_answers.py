"""What a wrong answer says ends as a sentence: a way out follows it."""

import pytest

from boltend.core.host.settle import WrongAnswer, settle
from boltend.plugin import Answer, Count, Settings, calculator, found, given


class Found:
    """A count."""

    many: Count = found("Many")


@calculator("many", asks="How many?", found=Found)
def many(size: Count = given("Size")) -> Answer:
    """Invented."""
    return Answer(found={"many": size})


@pytest.mark.parametrize("value", [0.5, "3", True, None.__class__])
def test_a_value_of_a_wrong_kind(value: object) -> None:
    with pytest.raises(WrongAnswer, match=r"^many: .* is wanted\.$"):
        settle(many.spec, Answer(found={"many": value}), Settings())
