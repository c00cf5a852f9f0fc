"""A choice that may be left empty, as a person sees it."""

from collections.abc import Callable
from typing import Any, Literal

from boltend.core.host.calls import Outcome
from boltend.plugin import Answer, Count, Fabric, calculator, found, given

from .conftest import Bench

Shell = Any


class LaidFound:
    twice: Count = found("Twice")


@calculator("laid", asks="Where does the edge lie?", found=LaidFound)
def laid(
    edge: Literal["points", "centres"] | None = given("Edge", help="Left empty: points"),
    cloth: Fabric | None = given("Cloth"),
) -> Answer:
    """Says whether an edge was chosen."""
    return Answer(found={"twice": 2 if edge else 0})


class LaidBench(Bench):
    def __init__(self, on_outcome: Callable[[object, Outcome], None]) -> None:
        super().__init__(on_outcome)
        self.calculators["laid"] = laid


async def test_an_optional_choice_left_empty_is_not_chosen_rather_than_none(shell: Shell) -> None:
    text = 'boltend = 1\n[[tab]]\nname = "Laid"\ncalculator = "laid"\n'
    async with shell(text=text, bench=LaidBench) as it:
        await it.to("cloth")
        await it.sees("‹not chosen›", "«none»")
        await it.to("edge")
        await it.sees("«not chosen»", "Left empty: points · ← → step, Space lists, Backspace empties it")
        await it.press("space")
        await it.sees("(not chosen)")
        assert "(none)" not in it.text()
        await it.press("down", "enter")
        await it.wait(lambda: it.given("Laid").get("edge") == "centres", "the choice")
        await it.sees("‹centres›", ">«none»")  # Enter leads on, as from any field
        await it.to("edge")
        await it.press("space")
        await it.sees("(not chosen)")
        await it.press("end", "enter")  # the last line
        await it.wait(lambda: "edge" not in it.given("Laid"), "nothing said")
        await it.to("edge")
        await it.press("right")
        assert it.given("Laid")["edge"] == "points"
        await it.press("backspace")
        assert "edge" not in it.given("Laid")
        await it.sees("«not chosen»")
