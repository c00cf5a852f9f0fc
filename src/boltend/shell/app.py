"""The app: one screen on one desk, and a clean end whatever ends it."""

import asyncio
import os
import signal
import threading
from collections.abc import Callable

from boltend.core.host.calls import Outcome
from boltend.shell.desk import Bench, Desk
from boltend.shell.doing_tabs import Begin
from boltend.shell.habitual import Habitual
from boltend.shell.project_screen import ProjectScreen
from boltend.shell.view import BenchMaker

PATIENCE = 0.5
"""Seconds that a project waits for strangers' plugins before it is shown; who takes longer comes later."""

LINGER = 0.008
"""Seconds that a key's frame waits for a search that was quick the last time: half a frame. Else its result
would stand one or two frames later, and the screen would say meanwhile that it is worked out."""

LAST_RESORT = 3.0
"""Seconds after a signal in which the terminal is restored; a terminal that is gone may hang for ever."""


def host_bench(on_outcome: Callable[[object, Outcome], None]) -> Bench:
    """The real host. Imported here, after the first paint: it loads every plugin."""
    from boltend.core.host import Host

    host = Host.load(on_outcome=on_outcome, wait=False, patience=PATIENCE)
    host.linger = LINGER
    return host


class BoltendApp(Habitual):
    """One project in a terminal."""

    TITLE = "Boltend"

    def __init__(self, desk: Desk, make_bench: BenchMaker = host_bench) -> None:
        super().__init__()
        self.desk = desk
        self.make_bench = make_bench
        self.project_screen = ProjectScreen(desk, make_bench)

    def show_desk(
        self, desk: Desk, words: str = "", begin: Begin | None = None, *, keep: bool = True
    ) -> None:
        """Another project on a screen of its own, in place of the one in sight, which is closed.

        With `words`, that is said of it, and nothing is asked; with `begin` it begins with that question.
        Without `keep` the unsaved work of the one in sight goes with it.
        """
        before, self.desk = self.desk, desk
        self.project_screen = ProjectScreen(desk, self.make_bench)
        self.project_screen.begin_words, self.project_screen.begin = words, begin
        self.switch_screen(self.project_screen)
        before.close(keep=keep)

    def on_app_focus(self) -> None:
        """The terminal is in front again."""
        if self.desk.book is not None:
            self.project_screen.look_at_file()

    def on_mount(self) -> None:
        """The project; and what ends us from outside."""
        self.push_screen(self.project_screen)
        loop = asyncio.get_running_loop()
        for name in ("SIGTERM", "SIGHUP"):
            number = getattr(signal, name, None)
            if number is not None and threading.current_thread() is threading.main_thread():
                try:
                    loop.add_signal_handler(number, self._told_to_end, number)
                except NotImplementedError:  # Windows has no such handlers
                    return

    def _told_to_end(self, number: int) -> None:
        # Everything typed stands in the journal already; only the terminal is to be put right.
        code = 128 + number
        guard = threading.Timer(LAST_RESORT, os._exit, (code,))
        guard.daemon = True
        guard.start()
        self.desk.close()
        self.exit(return_code=code)

    async def action_quit(self) -> None:
        """Whatever asks to quit, the palette too, asks about unsaved work."""
        self.project_screen.action_leave()
