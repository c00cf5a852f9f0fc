"""Textual's driver of a shell in a browser, which ends with the server that it talks to."""

import os
import signal

from textual.drivers.web_driver import WebDriver


class ServedDriver(WebDriver):
    """The shell's end of the pipe to the server."""

    def run_input_thread(self) -> None:
        """Read keys until either side ends. Textual's own would leave the shell alive, with nobody there."""
        super().run_input_thread()
        if not self.exit_event.is_set():
            os.kill(os.getpid(), signal.SIGTERM)  # as from outside: the shell lets go of all it holds
