"""What an edit of a long chain has left is worked out once the edit is painted."""

from collections.abc import Callable

from boltend.shell.desk import Desk


class Rest:
    """The tabs that are left. `painted` and `soon` call back, `done` paints what tells of all tabs."""

    def __init__(
        self,
        desk: Desk,
        painted: Callable[[Callable[[], None]], object],
        soon: Callable[[Callable[[], None]], object],
        done: Callable[[], None],
    ) -> None:
        self._desk, self._painted, self._soon, self._done = desk, painted, soon, done

    def begin(self) -> None:
        """Something was edited and is to be painted: then the rest."""
        if self._desk.unfinished:
            self._painted(self._few)

    def _few(self) -> None:
        self._desk.go_on()
        if self._desk.unfinished:
            self._soon(self._few)  # after keys that have come meanwhile
        else:
            self._done()
