"""Textual's driver of a shell in a browser, which ends with the server that it talks to."""

import os
import signal
from functools import partial
from threading import Lock
from typing import Any

from textual.drivers.web_driver import WebDriver


class ServedDriver(WebDriver):
    """The shell's end of the pipe to the server."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._one_at_a_time = Lock()
        self._write = partial(self._write_whole)

    def _write_whole(self, data: bytes) -> int:
        # Downloads are written from the thread that reads keys: two packets must not mix in the pipe.
        with self._one_at_a_time:
            left = memoryview(data)
            while left:
                left = left[os.write(self.fileno, left) :]
        return len(data)

    def run_input_thread(self) -> None:
        """Read keys until either side ends. Textual's own would leave the shell alive, with nobody there."""
        super().run_input_thread()
        if not self.exit_event.is_set():
            os.kill(os.getpid(), signal.SIGTERM)  # as from outside: the shell lets go of all it holds
