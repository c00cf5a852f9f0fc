"""A choice that may be left empty, as a person sees it."""

from collections.abc import Callable
from typing import Any, Literal

from boltend.core.host.calls import Outcome
from boltend.plugin import Answer, Count, Fabric, TableRow, calculator, found, given

from .conftest import Bench, SewingBench

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


class PackFound:
    pieces: Count = found("Pieces")


@calculator("pack", asks="How many pieces?", found=PackFound)
def pack(precut: TableRow = given("Precut", default="ten inch square", table="precuts")) -> Answer:
    """As many as the table says."""
    return Answer(found={"pieces": precut["pieces"]})


class PackBench(SewingBench):
    def __init__(self, on_outcome: Callable[[object, Outcome], None]) -> None:
        super().__init__(on_outcome)
        self.calculators["pack"] = pack


async def test_rows_that_the_project_adds_to_a_table_can_be_chosen(shell: Shell) -> None:
    text = (
        'boltend = 1\n[[row]]\ntable = "precuts"\nname = "odd lot"\nwidth = "7 in"\nlength = "7 in"\n'
        'pieces = 9\nsource = "the drawer"\n[[tab]]\nname = "Pack"\ncalculator = "pack"\n'
    )
    async with shell(text=text, bench=PackBench) as it:
        await it.to("precut")
        await it.press("space")
        await it.sees("ten inch square", "odd lot")
        await it.type("odd")
        await it.press("enter")
        await it.wait(lambda: it.given("Pack").get("precut") == "odd lot", "the project's own row")
