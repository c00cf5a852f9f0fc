"""The shell tests' own calculators, and benches that run them in this process.

They are ours and small, so that a golden screen changes only when the shell does.
"""

from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from boltend.core.contract import Calculator, CalculatorSpec, Start, Table
from boltend.core.host import Plugins
from boltend.core.host.calls import Call, Outcome
from boltend.core.host.invoke import invoke, prepare
from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Cut,
    Fabric,
    Finished,
    Goods,
    Length,
    Measured,
    Percent,
    Piece,
    Price,
    Rows,
    Run,
    Text,
    YesNo,
    calculator,
    finished,
    found,
    given,
    line,
    row,
)


class PatchFound:
    width: Finished = found("Width", nearest="size")
    height: Finished = found("Height", nearest="size")
    patches: Count = found("Patches")


@calculator("patch", asks="How large is a sheet of patches?", found=PatchFound)
def patch(
    size: Finished = given("Size of a patch", least="1/2 in", most="100 in", help="One side"),
    across: Count = given("Across", least="1", most="500"),
    down: Count = given("Down", default="3", least="1", most="500"),
) -> Answer:
    """A sheet of square patches."""
    if across * down > 2000:
        raise Cannot("across", "that is more than 2000 patches.", "Take fewer.")
    width = across * size
    return Answer(
        found={"width": width, "height": down * size, "patches": across * down},
        working=[line("{} × {} = {}", across, finished(size), finished(width))],
        cautions=["Keep your fingers behind the ruler."],
    )


@row
class Ring:
    name: Text | None = given("Name")
    width: Finished = given("Width", least="1/4 in")
    corner: Literal["butted", "mitred"] = given("Corner", default="butted")


class FrameFound:
    width: Finished = found("Framed width", nearest="size")
    to_buy: Length = found("To buy", up="buying", unit="yd")


@calculator("frame", asks="What does a frame of rings make?", found=FrameFound)
def frame(
    width: Finished = given("Width", least="1 in"),
    rings: Rows[Ring] = given("Rings"),
    cut: Cut | None = given("A cut size"),
    sizes: Measured | None = given("Sizes"),
    way: Literal["along", "across", "on the bias"] = given("Way", default="along"),
    washed: YesNo = given("Washed", default="no"),
    shrinks: Percent = given("Shrinks", default="0 %"),
    cloth: Fabric | None = given("Cloth"),
    usable_width: Length = given("Usable width", least="1 in"),
) -> Answer:
    """A frame."""
    total = width + 2 * sum(ring.width for ring in rings)
    return Answer(found={"width": total, "to_buy": total})


class SlowFound:
    twice: Count = found("Twice")


@calculator("slow", asks="What is twice as many, slowly?", found=SlowFound)
def slow(many: Count = given("Many", default="4", least="0")) -> Answer:
    """Twice."""
    return Answer(found={"twice": 2 * many})


class Bench:
    """Runs the calculators above at once; `slow` only when the test says so, as the worker would."""

    def __init__(self, on_outcome: Callable[[object, Outcome], None]) -> None:
        self.on_outcome = on_outcome
        self.calculators: dict[str, Calculator] = {c.spec.name: c for c in (patch, frame, slow)}
        self.waiting: dict[int, Call] = {}
        self.stopped: list[int] = []
        self.closed = False
        self.plugins = Plugins()

    @property
    def specs(self) -> dict[str, CalculatorSpec]:
        return {name: c.spec for name, c in self.calculators.items()}

    @property
    def starts(self) -> tuple[Start, ...]:
        width = {"from": "Sheet", "take": "width"}
        return (
            Start(
                "A framed sheet, from the start?",
                (("Sheet", "patch", {}), ("Frame", "frame", {"width": width})),
            ),
        )

    def spec(self, calculator: str) -> CalculatorSpec | None:
        return self.specs.get(calculator)

    def why_absent(self, calculator: str) -> tuple[str, str]:
        return f"no plugin brings a calculator {calculator!r}.", "Install it."

    def table(self, name: str) -> Table | None:
        return None

    def start(self, call: Call, ticket: int) -> Outcome | None:
        if call.spec.name == "slow":
            self.waiting[ticket] = call
            return None
        return self._run(call)

    def _run(self, call: Call) -> Outcome:
        return invoke(prepare(self.calculators[call.spec.name]), call.args, call.settings)

    def drop(self, ticket: int) -> None:
        self.waiting.pop(ticket, None)

    def stop(self, ticket: int) -> None:
        self.stopped.append(ticket)
        if self.waiting.pop(ticket, None) is not None:
            self.on_outcome(ticket, Outcome(stopped=True))

    def finish(self) -> None:
        """All that waits gets its answer."""
        for ticket, call in list(self.waiting.items()):
            del self.waiting[ticket]
            self.on_outcome(ticket, self._run(call))

    def close(self) -> None:
        self.closed = True


class SewFound:
    squares: Count = found("Squares")


@calculator("sew", asks="What do squares and their edge take?", found=SewFound)
def sew(
    size: Cut = given("Size of a square", least="1/2 in"),
    many: Count = given("How many", least="1", most="5000"),
    cloth: Fabric | None = given("Cloth"),
    edge: Length | None = given("Edge"),
    edge_cloth: Fabric | None = given("Cloth of the edge"),
    buttons: Count | None = given("Buttons"),
) -> Answer:
    """Squares of one size, an edge 2 in wide, and buttons."""
    price = Price(Fraction(1, 2), "USD")
    return Answer(
        found={"squares": many},
        pieces=[Piece("square", size, size, many, cloth)],
        runs=[Run("edge", Fraction(2), (edge,), fabric=edge_cloth)] if edge else [],
        goods=[Goods("Buttons", Fraction(buttons), "pieces", price)] if buttons else [],
    )


class SewingBench(Bench):
    """A bench with a calculator that asks for cloth and goods, and a table of precuts."""

    def __init__(self, on_outcome: Callable[[object, Outcome], None]) -> None:
        super().__init__(on_outcome)
        self.calculators["sew"] = sew

    def table(self, name: str) -> Table | None:
        cells = {"width": "10 in", "length": "10 in", "pieces": "40", "source": "invented for the tests"}
        return Table(
            "precuts", {"width": "cut", "length": "cut", "pieces": "count"}, {"ten inch square": cells}
        )
