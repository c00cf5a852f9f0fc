"""What a fabric and a project may say, as cells of a form: read and checked by the kinds of the core."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from boltend.core.contract import DEFAULTS, SETTING_KINDS, STEP_SETTINGS, GivenSpec
from boltend.core.flow.basis import FABRIC_SETTINGS, UNITS, setting_trouble
from boltend.core.project.plain import folded
from boltend.core.values import KINDS, Notation, NotationError, Price
from boltend.shell.both import also
from boltend.shell.looks import Look, seen_at

BOLT = "bolt"
FORM, NOTES = "form", "notes"

Wrong = Callable[[Any, Notation], str]
"""What is wrong with a value that reads, or nothing."""


@dataclass(frozen=True)
class Cell:
    """One cell: how it is read, what else must hold.

    While it is empty `faint` stands in it, and beside it `whose` says where that comes from.
    """

    spec: GivenSpec
    faint: str = ""
    wrong: Wrong | None = None
    whose: str = "default"

    def look(self, raw: object, text: str, how: Notation) -> Look:
        """How it looks with this raw value, shown as `text`."""
        if raw is None or (isinstance(raw, str) and not raw.strip()):
            return Look("", self.faint, beside="" if self.faint == "none" else self.whose)
        try:
            value = self.spec.reader.from_toml(raw, how, self.spec.unit)
        except NotationError as error:
            # A choice is at fault as a whole.
            at = seen_at(raw, error.at) if isinstance(raw, str) and not self.spec.options else None
            return Look(text, trouble=f"{error.why}; {error.way_out}", at=at)
        wrong = self.wrong(value, how) if self.wrong is not None else ""
        if wrong:
            return Look(text, trouble=wrong)
        return Look(text, beside=also(self.spec.reader.also(value, how, self.spec.unit) or ""))


def setting_cells(how: Notation) -> tuple[Cell, ...]:
    """The cells of the project's settings, in the order in which they are shown."""
    return (
        Cell(_text("name", "Name", "What the quilt is called"), "none"),
        Cell(
            GivenSpec("units", "choice", "Units", options=tuple(UNITS), help="Of numbers without one"),
            "inches",
        ),
        Cell(
            _text("currency", "Currency", "Its three letters, as USD or EUR"),
            "USD",
            lambda value, how: "" if _is_currency(value) else "a currency is three capital letters, as EUR",
        ),
        Cell(
            GivenSpec("copies", "count", "Copies", help="How many quilts are cut and bought for"),
            "1",
            lambda value, how: "" if value >= 1 else "it must be 1 or more",
        ),
        *(_setting_cell(name, how) for name in (*SETTING_KINDS, *STEP_SETTINGS)),
        Cell(GivenSpec(NOTES, "table_row", "Notes", help="They may have several lines"), "none"),
    )


_SETTING_HELP = {
    "seam": "Seam allowance: cut = finished + 2 seams",
    "usable_width": "Of a bolt, between the selvages",
    "overage": "What backing and batting stick out at each side",
    "squaring": "Lost to square the end of a bolt, once",
    "layers": "That are cut at once, in one stack",
    "prewash_across": "Width lost in the wash",
    "prewash_along": "Length lost in the wash",
    "size_step": "Sizes are rounded to it",
    "cutting_step": "Cuts are rounded to it",
    "buying_step": "The shop cuts whole steps of it",
}


def _setting_cell(name: str, how: Notation, holds: tuple[str, str] | None = None) -> Cell:
    faint, whose = holds or (DEFAULTS[name][how.system == "cm"], "default")
    label = name.replace("_", " ").capitalize()
    spec = GivenSpec(name, SETTING_KINDS.get(name, "length"), label, help=_SETTING_HELP[name])
    return Cell(spec, faint, lambda value, how: setting_trouble(name, value), whose)


_COLOUR_HELP = "A plain name, which Space lists, or as #1f4e79"


def fabric_cells(how: Notation, *, precut: bool, forms: Sequence[str], holds: "Says") -> tuple[Cell, ...]:
    """The cells of one fabric. What is in hand and the price mean pieces of a precut, lengths of a bolt."""
    return (
        Cell(
            GivenSpec(FORM, "table_row", "Form", help="A bolt, or one of the precuts"),
            BOLT,
            lambda value, how: (
                "" if _is_one_of(value, forms) else f"there is no precut “{value}”; Space lists what there is"
            ),
        ),
        _price_cell(how, precut=precut),
        _have_cell(precut=precut),
        *(_setting_cell(name, how, holds(name)) for name in FABRIC_SETTINGS),
        Cell(GivenSpec("one_way", "yes_no", "One way", help="A print that must not be turned"), "no"),
        Cell(GivenSpec("colour", "colour", "Colour", help=_COLOUR_HELP), "none"),
        Cell(
            GivenSpec("printed", "length", "Printed", "yd", "The yardage that the pattern prints: compared"),
            "none",
            lambda value, how: "" if value > 0 else "it must be more than nothing",
        ),
    )


Says = Callable[[str], tuple[str, str]]
"""What holds for a setting that a fabric leaves empty, as text, and who says it."""


def _price_cell(how: Notation, *, precut: bool) -> Cell:
    unit = "" if precut else "yd"
    price = KINDS["price"].read("12.50", how, unit)
    example = KINDS["price"].show(price, how, unit)
    whose = "Of a pack" if precut else f"By the {price.per}"

    def wrong(price: Price, how: Notation) -> str:
        if (price.per is None) == precut:
            return ""
        return f"a {'precut is priced each' if precut else 'bolt by the yard or metre'}; write {example}"

    return Cell(GivenSpec("price", "price", "Price", unit, f"{whose}, as {example}"), "none", wrong)


def _have_cell(*, precut: bool) -> Cell:
    spec = (
        GivenSpec("have", "count", "In hand", help="Pieces that lie there; used first")
        if precut
        else GivenSpec("have", "length", "In hand", "yd", "The length that lies there; used first")
    )
    return Cell(spec, "none", lambda value, how: "it must not be less than nothing" if value < 0 else "")


def _text(name: str, label: str, help_: str) -> GivenSpec:
    return GivenSpec(name, "text", label, help=help_)


def _is_currency(value: str) -> bool:
    price = KINDS["price"]
    return price.check(replace(price.read("1", Notation()), currency=value)) is None


def _is_one_of(value: str, forms: Sequence[str]) -> bool:
    return folded(value) in map(folded, forms)


def is_precut(form: object) -> bool:
    """Whether a fabric's raw `form` names something other than a bolt."""
    return isinstance(form, str) and folded(form) not in ("", BOLT)
