"""Small calculators and a runner that counts, for tests of the flow and of what is printed.

Loaded by path (see the `conftest.py` beside it), since tests are no package.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Literal

from boltend.core.contract import Calculator, CalculatorSpec, Table
from boltend.core.flow import Workbook
from boltend.core.host.calls import Call, Outcome
from boltend.core.host.invoke import Prepared, invoke, prepare
from boltend.core.project.edits import add_tab
from boltend.core.project.model import Project
from boltend.plugin import (
    ROOT2,
    Answer,
    Cannot,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Measured,
    Percent,
    Piece,
    PlainNumber,
    Rate,
    Rows,
    Run,
    Settings,
    TableRow,
    Text,
    YesNo,
    calculator,
    cut,
    finished,
    found,
    given,
    line,
    row,
)


@row
class PatchGiven:
    name: Text | None = given("Name")
    width: Finished = given("Width", least="1/4 in", most="50 in")
    count: Count = given("Count", default="2", least="1")


@row
class PatchFound:
    width: Finished = found("Width", nearest="size")
    across: Cut = found("Cut across", up="cutting")


class PanelFound:
    width: Finished = found("Width", nearest="size")
    square: Cut = found("Square to cut", up="cutting")
    long: Length = found("Length", up=("1/2 in", "1 cm"))
    count: Count = found("Pieces")
    patches: Rows[PatchFound] = found("Patches")
    spacer: Cut | None = found("Spacer", up="cutting")


@calculator("panel", asks="How wide is a panel?", found=PanelFound)
def panel(
    width: Finished = given("Width", least="1/2 in", most="500 in"),
    by: Finished = given("Wider by", default="1 in", metric="2 cm"),
    spaced: YesNo = given("With a spacer", default="no"),
    *,
    setting: Settings,
) -> Answer:
    """Adds a strip to a width."""
    if by > width:
        raise Cannot("by", f"{by} is wider than the panel.", "Take a narrower strip.")
    wide = width + by
    square = wide + 2 * setting.seam
    return Answer(
        found={
            "width": wide,
            "square": square * ROOT2,
            "long": wide,
            "count": int(wide),
            "patches": [{"width": wide, "across": square}, {"width": by, "across": by + Fraction(1, 32)}],
            "spacer": by if spaced else None,
        },
        pieces=[Piece("patch", square, square, 2)],
        runs=[Run("strip", by + 1, (wide,))] if by > 0 else [],
        working=[line("Width: {} and {} make {}", finished(width), finished(by), finished(wide))],
        cautions=[]
        if spaced
        else [line("Without a spacer there is none to cut; at {} it is seen.", cut(square))],
    )


class SquareFound:
    width: Cut = found("Width", up="cutting")
    half: Finished = found("Half", down="size")


@calculator("square", asks="What is half of a cut square?", found=SquareFound)
def square(
    width: Cut = given("Cut width", least="1 in", most="900 in"),
    parts: PlainNumber = given("Parts", default="2"),
) -> Answer:
    """Takes half."""
    return Answer(found={"width": width, "half": width / parts if parts else width})


class TopFound:
    width: Finished = found("Width", nearest="size")
    spread: Length = found("Spread", nearest="size")


@calculator("top", asks="What does it measure?", found=TopFound)
def top(widths: Measured = given("Widths", least="1 in"), *, setting: Settings) -> Answer:
    """Takes the mean."""
    mean = sum(widths, Fraction(0)) / len(widths) - 2 * setting.seam
    return Answer(found={"width": mean, "spread": max(widths) - min(widths)})


class SumFound:
    width: Finished = found("Width", nearest="size")
    count: Count = found("Count")
    patches: Rows[PatchFound] = found("Patches again")


@calculator("patchwork", asks="How wide are all patches?", found=SumFound)
def patchwork(
    patches: Rows[PatchGiven] = given("Patches"),
    more: Rows[PatchGiven] | None = given("More patches"),
) -> Answer:
    """Adds them up."""
    every = (*patches, *(more or ()))
    return Answer(
        found={
            "width": sum((p.width * p.count for p in every), Fraction(0)),
            "count": sum(p.count for p in every),
            "patches": [{"width": p.width, "across": p.width + Fraction(1, 2)} for p in every],
        }
    )


class ClothFound:
    width: Length = found("Width of the cloth", nearest="size")
    seam: Length = found("Seam", nearest="size")
    layers: Count = found("Layers")
    loss: Percent = found("Loss")
    squaring: Length = found("Squaring", nearest="size")
    name: Text = found("Name of the cloth")


@calculator("cloth", asks="Which settings hold here?", found=ClothFound)
def cloth(
    usable_width: Length = given("Usable width"),
    seam: Length = given("Seam"),
    layers: Count = given("Layers", default="4"),
    prewash_along: Percent | None = given("Loss in the wash"),
    fabric: Fabric | None = given("Fabric", was=("cloth",)),
    other: Fabric | None = given("Other fabric"),
    *,
    setting: Settings,
) -> Answer:
    """Tells the settings; with two fabrics those of the first."""
    own = setting.on(fabric) if fabric and other and fabric != other else setting
    return Answer(
        found={
            "width": own.usable_width,
            "seam": own.seam,
            "layers": own.layers,
            "loss": own.prewash_along,
            "squaring": own.squaring,
            "name": fabric or "none",
        }
    )


class MoodFound:
    mood: Literal["calm", "bold"] = found("Mood")
    pace: Rate = found("Pace", unit="per in")
    price: Count = found("Price")


@calculator("mood", asks="Which mood?", found=MoodFound)
def mood(
    mood: Literal["calm", "bold", "very bold"] = given("Mood", default="calm"),
    pace: Rate = given("Pace", default="10 per in", unit="per in"),
    button: TableRow = given("Button", default="small", table="buttons"),
) -> Answer:
    """Repeats them."""
    size = button["size"]
    assert isinstance(size, int)
    return Answer(found={"mood": "bold" if mood == "very bold" else mood, "pace": pace, "price": size})


class NaughtyFound:
    width: Finished | None = found("Width", nearest="size")


@calculator("naughty", asks="What goes wrong?", found=NaughtyFound)
def naughty(how: Count = given("How", most="9"), link: Finished | None = given("Link")) -> Answer:
    """Breaks its promise in several ways."""
    if how == 1:
        raise ZeroDivisionError("one")
    if how == 2:
        return Answer(found={"width": 2.5})
    if how == 3:
        return Answer(found={"widht": Fraction(1)})
    if how == 4:
        return Answer(found={"width": None}, cautions=["There is none today."])
    if how == 5:
        raise Cannot("how", "five is too many.", "Take four.")
    return Answer(found={"width": Fraction(how)})


CALCULATORS = (panel, square, top, patchwork, cloth, mood, naughty)
BUTTONS = Table(
    "buttons",
    {"size": "count"},
    {"small": {"size": "3", "source": "invented"}, "large": {"size": "9", "source": "invented"}},
)


@dataclass
class Bench:
    """A runner in this process. It notes each call by the calculator's name; with `later` it answers late.

    Names in `absent` are of calculators that nobody brings now.
    """

    calculators: Sequence[Calculator] = CALCULATORS
    later: bool = False
    absent: set[str] = field(default_factory=set)
    calls: list[str] = field(default_factory=list)
    started: dict[int, Call] = field(default_factory=dict)
    dropped: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.by_name = {c.spec.name: c for c in self.calculators}
        self.prepared: dict[str, Prepared] = {c.spec.name: prepare(c) for c in self.calculators}

    def spec(self, calculator: str) -> CalculatorSpec | None:
        known = self.by_name.get(calculator)
        return known.spec if known is not None and calculator not in self.absent else None

    def why_absent(self, calculator: str) -> tuple[str, str]:
        return f"nobody brings {calculator}.", "Bring it."

    def table(self, name: str) -> Table | None:
        return BUTTONS if name == "buttons" else None

    def start(self, call: Call, ticket: int) -> Outcome | None:
        self.calls.append(call.spec.name)
        if self.later:
            self.started[ticket] = call
            return None
        return self.outcome(call)

    def drop(self, ticket: int) -> None:
        self.dropped.append(ticket)
        self.started.pop(ticket, None)

    def outcome(self, call: Call) -> Outcome:
        args = dict(call.args)
        if call.spec.name == "mood" and isinstance(args["button"], str):
            args["button"] = BUTTONS.row(str(args["button"]))
        return invoke(self.prepared[call.spec.name], args, call.settings)

    def finish(self, book: Workbook, ticket: int | None = None) -> set[int]:
        """Let one call answer: the oldest, or that of the ticket."""
        ticket = next(iter(self.started)) if ticket is None else ticket
        return book.arrived(ticket, self.outcome(self.started.pop(ticket)))

    def counted(self) -> int:
        """How many calls there were since this was last asked."""
        count = len(self.calls)
        self.calls.clear()
        return count


def link(tab: str, take: str) -> dict[str, Any]:
    """A raw link."""
    return {"from": tab, "take": take}


def project(*tabs: tuple[str, str, Mapping[str, Any]], **settings: Any) -> Project:
    """A project with these tabs: (name, calculator, givens)."""
    made = Project(settings=settings)
    for name, uses, givens in tabs:
        made = add_tab(made, name, uses, givens)
    return made


def chain(length: int, first: str = "10 in") -> Project:
    """Panels in a row, each an inch wider than the last: P1, P2, …"""
    tabs = [("P1", "panel", {"width": first})]
    tabs += [(f"P{n}", "panel", {"width": link(f"P{n - 1}", "width")}) for n in range(2, length + 1)]
    return project(*tabs)
