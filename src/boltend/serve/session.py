"""One browser tab and the process of its shell: started without a command line, ended for certain."""

import asyncio
import contextlib
import os
import signal
import sys
from asyncio.subprocess import PIPE, Process

from aiohttp import web
from textual_serve.app_service import AppService
from textual_serve.download_manager import DownloadManager

QUIT_SECONDS = 5.0
"""What a shell gets to end by itself. Its unsaved work stands in the journal all the time."""

KILL_SECONDS = 2.0

MOST_CELLS = 1000
"""A window has no more columns or rows: a larger number is no window's."""


def child_words(path: str | None) -> list[str]:
    """The words that start a shell on a file. No command line is made of them: a name may hold anything.

    -P: what lies in the folder that the person is in is no module of ours.
    """
    words = [sys.executable, "-P", "-m", "boltend.serve.child"]
    return words if path is None else [*words, path]


class Session(AppService):
    """The shell behind one WebSocket."""

    def __init__(self, words: list[str], socket: web.WebSocketResponse, downloads: DownloadManager) -> None:
        super().__init__(
            "",
            write_bytes=socket.send_bytes,
            write_str=socket.send_str,
            close=self._close,
            download_manager=downloads,
        )
        self._words = words
        self._socket = socket

    async def _close(self) -> None:
        if not self._socket.closed:
            await self._socket.close()

    def _build_environment(self, width: int = 80, height: int = 24) -> dict[str, str]:
        environment = super()._build_environment(width, height)
        return environment | {"TEXTUAL_DRIVER": "boltend.serve.driver:ServedDriver"}

    async def _open_app_process(self, width: int = 80, height: int = 24) -> Process:
        # A session of its own: Ctrl+C in the server's terminal is the server's, which then ends the shells.
        self._process = process = await asyncio.create_subprocess_exec(
            *self._words,
            stdin=PIPE,
            stdout=PIPE,
            stderr=PIPE,
            env=self._build_environment(width, height),
            start_new_session=True,
        )
        self._stdin = process.stdin
        return process

    async def run(self) -> None:
        """Pass on what the shell paints until it ends; then the page is told, whatever ended it."""
        try:
            await super().run()
        finally:
            sys.stdout.flush()  # what a shell that failed had to say
            with contextlib.suppress(ConnectionError, RuntimeError):
                await self._close()

    async def listen(self) -> None:
        """Pass on what the browser sends, until it is gone."""
        async for message in self._socket:
            try:
                await self._take(message.json())
            except (ValueError, TypeError, KeyError):
                return  # none of our page's messages

    async def _take(self, envelope: object) -> None:
        match envelope:
            case ["stdin", str(text)]:
                await self.send_bytes(text.encode("utf-8", "replace"))
            case ["resize", {"width": int(width), "height": int(height)}]:
                await self.set_terminal_size(in_cells(width, 80), in_cells(height, 24))
            case ["ping", str(moment)]:
                await self._socket.send_json(["pong", moment])
            case ["focus"]:
                await self.focus()
            case ["blur"]:
                await self.blur()

    async def stop(self) -> None:
        """Ask the shell to quit, and see to it that it does."""
        process, task = self._process, self._task
        if process is None or task is None:
            return
        await self._download_manager.cancel_app_downloads(app_service_id=self.app_service_id)
        with contextlib.suppress(TimeoutError):
            async with asyncio.timeout(QUIT_SECONDS):
                await self.send_meta({"type": "quit"})
                await asyncio.wait({task})  # not the task itself: it takes a time limit for its own end
                await self._gone(process)
        task.cancel()
        await asyncio.wait({task}, timeout=KILL_SECONDS)
        for number in (signal.SIGTERM, signal.SIGKILL):
            if process.returncode is None:
                _signal(process, number)
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(self._gone(process), KILL_SECONDS)

    async def _gone(self, process: Process) -> None:
        # What it still paints is taken from it: it would wait in its last write for ever.
        assert process.stdout is not None
        while await process.stdout.read(65536):
            pass
        await process.wait()


def _signal(process: Process, number: int) -> None:
    """To the shell and to all that it started."""
    with contextlib.suppress(ProcessLookupError):
        if hasattr(os, "killpg"):
            os.killpg(process.pid, number)
        else:
            process.send_signal(number)


def in_cells(said: object, default: int) -> int:
    """A width or height in cells from what a page says; the default where that is none."""
    try:
        number = int(str(said))
    except ValueError:
        return default
    return number if 1 <= number <= MOST_CELLS else default
