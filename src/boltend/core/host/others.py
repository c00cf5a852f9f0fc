"""Strangers' plugins described while the screen is in use already: one that hangs holds up nobody."""

import threading
from collections.abc import Callable

from boltend.core.host.loading import Loading
from boltend.core.host.plugins import Plugins


class Others:
    """A thread that has the strangers described, begun at once."""

    def __init__(self, loading: Loading) -> None:
        self._loading = loading
        self._plugins: Plugins | None = None
        self._there = threading.Event()
        self._tell: Callable[[], object] | None = None
        self._lock = threading.Lock()
        self._thread = threading.Thread(target=self._describe, name="boltend-strangers", daemon=True)
        self._thread.start()

    def wait(self, seconds: float) -> Plugins | None:
        """All plugins, or None where they are not there within so many seconds."""
        return self._plugins if self._there.wait(seconds) else None

    def when_there(self, tell: Callable[[], object]) -> None:
        """Call `tell` once they are there: from the thread, or from this one where they are there already."""
        with self._lock:
            self._tell = tell
            there = self._there.is_set()
        if there:
            tell()

    def stop(self) -> None:
        """Nobody needs them any more."""
        with self._lock:
            self._tell = None
        self._loading.stop()
        self._thread.join(2)

    def _describe(self) -> None:
        self._plugins = self._loading.all()
        with self._lock:
            self._there.set()
            tell = self._tell
        if tell is not None:
            tell()
