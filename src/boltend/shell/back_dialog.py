"""The dialog of working backwards: what is wanted, of which given, within which range."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import NamedTuple

from textual import on
from textual.message import Message

from boltend.core.asking import AskError, Spot, Wish, read_wish
from boltend.core.asking.back import MOST_FOR_TOTAL, MOST_TRIES
from boltend.core.asking.ladder import BUY, Take
from boltend.core.asking.offers import feeders
from boltend.core.asking.sift import Sift
from boltend.core.asking.values import read_tries, step_words
from boltend.core.asking.wish import REACHES, Reach
from boltend.core.flow import Workbook
from boltend.core.report.back_text import shown_values, wanted_words
from boltend.core.report.words import say_value
from boltend.shell.ask_dialog import AskDialog, Line
from boltend.shell.checks import Checks, Group
from boltend.shell.lanes import give_way
from boltend.shell.planning import Wanted

_FEW = 5
"""Values that are told one by one."""


class Sifted(Message):
    """Which givens change nothing. Posted from a thread, where posting is safe."""

    def __init__(self, idle: Sequence[Spot]) -> None:
        self.idle = idle
        super().__init__()


class Asked(NamedTuple):
    """What was typed and ticked: what is wanted, between which values, how it is to be reached."""

    wanted: str = ""
    span: str = ""
    reach: Reach = "at least"


class BackDialog(AskDialog[Wish]):
    """Gives what is to be searched. The given that the person came `from` is the first, and ticked."""

    about = (
        "Wanted: what it should be, as 72 in, at most 72 in, or exactly 72 in. Try: along which values it is "
        "looked for, as 2 in to 6 in by 1/4 in, or as 2 in; 3 in; 4 1/2 in; without “by” in steps of the "
        "given, and empty all that make sense. Where a step is coarser than you cut, finer values are tried "
        "by themselves about the nearest. Which given: the one to change; Space ticks it, and "
        "all others stay as they are. Enter searches. Nothing is changed before you choose a value."
    )

    def __init__(
        self,
        book: Workbook,
        take: Take,
        now: str,
        came: Spot | None = None,
        again: Asked | None = None,
        sift: Callable[[list[Spot]], Sift] | None = None,
        run: Wanted | None = None,
    ) -> None:
        self.book, self.take, self.now = book, take, now
        self.run = run
        again = again or Asked()
        spots = sorted(feeders(book, take), key=lambda spot: _farness(spot, came))
        self._sift = sift(spots) if sift is not None else None
        self._chosen = False
        """Whether the person has ticked a given."""
        self.given = Group("Which given", [(spot, self._words(spot)) for spot in spots], {0}, one=True)
        reached = {REACHES.index(again.reach)}
        self.reach = Group("Reach it", [(reach, reach) for reach in REACHES], reached, one=True)
        what = "the total to buy" if take.found is None else f"{take.found.label} of “{self._tab(take.tab)}”"
        lines = [
            Line("wanted", "Wanted", again.wanted, f"now {now}" if now else ""),
            Line("range", "Try", again.span, "all that makes sense, or as 2 in to 6 in by 1/4 in"),
        ]
        super().__init__(f"Which given makes {what} so?", lines, [self.given, self.reach], "Search")

    def on_mount(self) -> None:
        """Ready to type; meanwhile it is tried which givens change what is wanted."""
        super().on_mount()
        if self._sift is not None:
            self.run_worker(self._sifting, thread=True, description="sift")

    def _sifting(self) -> None:
        give_way()
        assert self._sift is not None  # asked before
        # A calculator that fails is told where it is searched; the list then stays whole.
        with suppress(Exception):
            self.post_message(Sifted(self._sift.run()))

    @on(Sifted)
    def _sifted(self, event: Sifted) -> None:
        """What changes nothing is left out, but what the person has ticked."""
        ticked = self.given.values if self._chosen else []
        kept = [spot for spot, _ in self.given.items if spot not in event.idle or spot in ticked]
        left_out = len(self.given.items) - len(kept)
        if kept and left_out:
            what = f"{left_out} that change{'s' if left_out == 1 else ''} nothing here"
            title = f"Which given (left out: {what})"
            self.checks.leave_only(self.given, kept, title)
            self.look()

    @on(Checks.Ticked)
    def _ticks(self, event: Checks.Ticked) -> None:
        self._chosen = self._chosen or event.group is self.given

    def on_unmount(self) -> None:
        """Let the thread end."""
        if self.run is not None:
            self.run.stop()

    def _tab(self, key: int) -> str:
        return self.book.project.tab(key).name

    def _words(self, spot: Spot) -> str:
        value, how = spot.value(self.book), self.book.results[spot.tab].settings.notation
        now = f", now {say_value(spot.spec, value, how)}" if value is not None else ""
        return f"“{self._tab(spot.tab)}”: {spot.label}{now}"

    def about_now(self) -> str:
        """The step of the given that is ticked."""
        return "".join(step_words(self.book, spot) for spot in self.given.values)

    def missing(self) -> str:
        """The amount, as long as nothing is typed."""
        if self.text("wanted") or not self.given.items:
            return ""
        example = self.now.removesuffix(" finished").removesuffix(" cut") or "150"
        return f"Say what it should be, as {example}, or as at most {example}."

    @property
    def asked(self) -> Asked:
        """What stands in it, to be asked once more."""
        (reach,) = self.reach.values
        return Asked(self.text("wanted"), self.text("range"), reach)

    def read(self) -> tuple[Wish, str]:
        """The wish; which values will be tried. Raises `AskError`."""
        if not self.given.items:
            raise AskError("it hangs on no given that has steps.", "Esc leaves.")
        (spot,), (reach,) = self.given.values, self.reach.values
        wanted = self.text("wanted")
        for each in REACHES:  # as a person says it: at most 70 in
            if wanted.casefold().startswith(f"{each} "):
                reach, wanted = each, wanted[len(each) :]
                self.reach.ticked = {REACHES.index(each)}
                self.checks.refresh()
        along = read_tries(self.book, spot, self.text("range"))
        take = self.take
        raw = BUY if take.found is None else {"from": self._tab(take.tab), "take": take.found.name}
        said = {"tab": self._tab(spot.tab), "given": spot.name, "take": raw, "reach": reach}
        wish = read_wish(self.book, {**said, "wanted": wanted.strip(), **along})
        shown = shown_values(self.book, wish)
        most_tried = MOST_FOR_TOTAL if take.found is None else MOST_TRIES
        what = f"{reach} {wanted_words(wish, self.book.basis.how)}"
        count = f"the nearest {most_tried} of {wish.of}" if wish.of > most_tried else f"{wish.of}"
        values = f"{count} value{'s' * (wish.of > 1)}"
        if wish.only:
            few = "; ".join(map(shown, wish.only[:_FEW]))
            return wish, f"{what}: {values}, {few}{' …' * (wish.of > _FEW)}"
        # Just so it may be typed above.
        return wish, f"{what}: {values}, {shown(wish.least)} to {shown(wish.most)} by {shown(wish.step)}"


def _farness(spot: Spot, came: Spot | None) -> int:
    """How far a given lies from the one that the person came from: that one, its row, any other."""
    if came is None or spot.tab != came.tab:
        return 2
    if spot == came:
        return 0
    return 1 if came.row >= 0 and (spot.rows, spot.row) == (came.rows, came.row) else 2
