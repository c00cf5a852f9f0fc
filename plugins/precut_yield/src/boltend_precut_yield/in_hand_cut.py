"""How cloth in hand is cut into pieces of one size."""

from dataclasses import dataclass

from boltend.plugin import Yield, yield_of
from boltend_precut_yield.in_hand_rows import Cloth
from boltend_precut_yield.yield_words import Size


@dataclass(frozen=True, slots=True)
class Laid:
    """A row and how one sheet of it is cut; no `layout` where no piece lies in it."""

    cloth: Cloth
    layout: Yield | None

    @property
    def pieces_each(self) -> int:
        """Pieces from one sheet."""
        return 0 if self.layout is None else self.layout.pieces

    @property
    def pieces(self) -> int:
        """Pieces from all sheets of the row."""
        return self.cloth.count * self.pieces_each


class Most:
    """The most pieces of one size, cut inches, out of a sheet; each size of sheet is searched once."""

    def __init__(self, size: Size, may_turn: bool) -> None:
        self._size, self._may_turn = size, may_turn
        self._known: dict[Size, Yield] = {}

    def layout(self, sheet: Size) -> Yield | None:
        """How a sheet gives the most; None where it gives none."""
        if min(sheet) <= 0:
            return None
        if sheet not in self._known:
            self._known[sheet] = yield_of((*self._size, self._may_turn), sheet)
        return self._known[sheet] if self._known[sheet].pieces else None
