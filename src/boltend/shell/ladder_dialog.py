"""The dialog of a ladder: which values, what to take, under which name."""

from collections.abc import Callable
from typing import Any

from textual.widgets import Input

from boltend.core.asking import AskError, Spot
from boltend.core.asking.offers import take_offers
from boltend.core.asking.values import options_of, read_values, step_words, suggested
from boltend.core.flow import Workbook
from boltend.core.project.model import LadderRow
from boltend.core.project.plain import folded
from boltend.core.report.ladder_text import same_for_all
from boltend.core.report.quilt_size import size_founds
from boltend.shell.ask_dialog import AskDialog, Line
from boltend.shell.checks import Checks, Group
from boltend.shell.typed import text_of

_FEW = 8
"""Choices that stand above what is taken; more stand below it."""


class LadderDialog(AskDialog[dict[str, Any]]):
    """Gives the keys of a `[[ladder]]`. `row` is the one that is edited, None for a new one."""

    about = (
        "Values: what the given is to be in turn, with ; between, as 60 in; 72 in, or as 4 in to 10 in by 2 "
        "in; without “by” in steps of the given. "
        "A choice is found by some of its words. Take: what stands beside each value; Space ticks it. "
        "Enter works it out; the project's own value stays as it is."
    )

    def __init__(
        self, book: Workbook, spot: Spot, row: LadderRow | None, wrong_name: Callable[[str], str]
    ) -> None:
        self.book, self.spot, self.wrong_name = book, spot, wrong_name
        tab = book.project.tab(spot.tab).name
        values = suggested(book, spot) if row is None else "; ".join(map(text_of, row.values))
        name = f"{spot.label} of {tab}" if row is None else row.name
        self.offers = take_offers(book, spot, size_founds(book))
        taken = None if row is None else row.take if isinstance(row.take, list) else [row.take or "to buy"]
        ticked = {
            n
            for n, offer in enumerate(self.offers)
            if (offer.usual if taken is None else any(_same_take(offer.raw, raw) for raw in taken))
        }
        self.take = Group("Take", [(offer.raw, offer.words) for offer in self.offers], ticked)
        self.kept = [
            raw for raw in taken or () if not any(_same_take(offer.raw, raw) for offer in self.offers)
        ]
        self.options = options_of(book, spot.spec)
        self.values = Group("Values", [(word, word) for word in self.options], set())
        few = len(self.options) <= _FEW
        groups = [self.values, self.take] if few else [self.take, self.values]
        super().__init__(
            f"Ladder: {spot.label} of “{tab}” through several values, side by side",
            [Line("values", "Values", values, _example(spot)), Line("name", "Name", name)],
            groups,
            "Work it out",
        )

    def about_now(self) -> str:
        """The step of the given."""
        return step_words(self.book, self.spot)

    def read(self) -> tuple[dict[str, Any], str]:
        """The keys; how many values there are. Raises `AskError`."""
        raws = read_values(self.book, self.spot, self.text("values"))
        said = [text_of(raw) for raw in raws]
        if self.options:
            self.values.ticked = {n for n, word in enumerate(self.options) if word in said}
            self.checks.refresh()
        wrong = self.wrong_name(self.text("name"))
        if wrong:
            raise AskError(wrong)
        takes = [*self.take.values, *self.kept]
        if not takes:
            raise AskError("nothing is taken.", "Tick what is to stand beside each value.")
        data = {
            "name": self.text("name"),
            "tab": self.book.project.tab(self.spot.tab).name,
            "given": self.spot.name,
            "values": raws,
            "take": takes[0] if len(takes) == 1 else takes,
        }
        kept = same_for_all(self.book, self.spot)
        few = "; ".join(said) if len(said) <= 6 else f"{'; '.join(said[:3])} … {said[-1]}"
        same = f". The same for all: {kept}" if kept else ""
        return data, f"{len(raws)} {'value' if len(raws) == 1 else 'values'}: {few}{same}"

    def on_checks_ticked(self, event: Checks.Ticked) -> None:
        """A value that is ticked stands in the line, too."""
        if event.group is self.values:
            self.query_one("#values", Input).value = "; ".join(self.values.values)


def _example(spot: Spot) -> str:
    return "" if spot.spec.options else "as 4; 5; 6 or from 4 to 10 by 2"


def _same_take(one: Any, other: Any) -> bool:
    if isinstance(one, dict) and isinstance(other, dict):
        same = str(one.get("take")) == str(other.get("take"))
        return same and folded(str(one.get("from"))) == folded(str(other.get("from")))
    return isinstance(one, str) and isinstance(other, str) and one.casefold() == other.strip().casefold()
