"""Looks for garbage that keep no key waiting, also where a project is large."""

import gc

from boltend.core.flow import Workbook

MANY_TABS = 300
"""Tabs from which a look through all that they are made of takes tenths of a second."""

SELDOM = (20_000, 3, 600)
"""How seldom garbage is looked for then (`gc.set_threshold`): what lists are planned from is large, too."""


class Garbage:
    """Python's looks for garbage while one project is in sight."""

    def __init__(self) -> None:
        self._before: tuple[int, int, int] | None = None
        self._frozen = False

    def expect(self, tabs: int) -> None:
        """A project of so many tabs is about to be worked out; hardly anything of that is garbage."""
        if self._before is None and tabs >= MANY_TABS:
            self._before = gc.get_threshold()
            gc.set_threshold(max(SELDOM[0], self._before[0]), *SELDOM[1:])

    def leave_alone(self, book: Workbook | None) -> None:
        """Once a large project is worked out: there is no garbage in it, it is left alone."""
        if self._frozen or book is None or len(book.results) < MANY_TABS:
            return
        if all(result.state != "working" for result in book.results.values()):
            self.expect(len(book.results))
            self._frozen = True
            gc.freeze()

    def as_before(self) -> None:
        """Another project comes: now all of this one is garbage."""
        if self._before is not None:
            gc.set_threshold(*self._before)
            self._before = None
        if self._frozen:
            gc.unfreeze()
            self._frozen = False
