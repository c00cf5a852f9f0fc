"""A server of the tests' own, and browsers that see only what is sent to them."""

import asyncio
import contextlib
import json
import os
import re
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from queue import Empty, Queue
from typing import Any

import aiohttp

LONG = 90.0
"""Seconds after which a test gives up: only what never comes takes as long."""

QUILT = """boltend = 1
# Kept, as every comment.
[[tab]]
name = "Set"
calculator = "straight_set"
[tab.given]
block_height = "12 in"
across = 4
down = 4
"""


class Server:
    """`boltend serve`, as a person starts it."""

    def __init__(self, folder: Path, *words: str) -> None:
        self.folder = folder
        environment = {key: value for key, value in os.environ.items() if key != "NO_COLOR"}
        self.env = environment | {
            "BOLTEND_STATE": str(folder / "state"),
            "BOLTEND_CONFIG": str(folder / "config"),
            "TEXTUAL_ANIMATIONS": "none",
        }
        self.process = subprocess.Popen(
            [sys.executable, "-m", "boltend", "serve", *words],
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=self.env, cwd=folder,
        )  # fmt: skip
        self.lines: Queue[str] = Queue()
        self.said: list[str] = []
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()
        self.url = self._url()
        found = re.fullmatch(r"http://([^/]+)/\?token=(\S+)", self.url)
        assert found, self.url
        self.host, self.token = found[1], found[2]
        self.port = int(self.host.rpartition(":")[2])

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self.lines.put(line)

    def _url(self) -> str:
        until = time.monotonic() + LONG
        while time.monotonic() < until:
            with contextlib.suppress(Empty):
                self.said.append(self.lines.get(timeout=0.2))
                if (line := self.said[-1].strip()).startswith("http://"):
                    return line
            assert self.process.poll() is None or not self.lines.empty(), "".join(self.said)
        raise AssertionError(f"no address was printed: {self.said}")

    @property
    def cookie(self) -> str:
        return f"boltend-{self.port}={self.token}"

    def mine(self) -> set[int]:
        """The processes that bear this server's state folder: the shells and all that they started."""
        mark = f"BOLTEND_STATE={self.env['BOLTEND_STATE']}".encode()
        found = set()
        for place in Path("/proc").glob("[0-9]*/environ"):
            with contextlib.suppress(OSError):
                if mark in place.read_bytes().split(b"\0"):
                    found.add(int(place.parent.name))
        return found - {self.process.pid}

    def end(self, number: int = signal.SIGINT) -> int:
        """Send it a signal; the exit code."""
        self.process.send_signal(number)
        code = self.process.wait(timeout=LONG)
        self._reader.join(timeout=LONG)
        self.all_said()
        return code

    def all_said(self) -> str:
        """All that it printed so far."""
        while not self.lines.empty():
            self.said.append(self.lines.get())
        return "".join(self.said)

    def close(self) -> None:
        """Leave nothing behind, whatever a test came to."""
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        for pid in self.mine():
            with contextlib.suppress(ProcessLookupError):
                os.kill(pid, signal.SIGKILL)
        self._reader.join(timeout=LONG)
        if self.process.stdout is not None:
            self.process.stdout.close()


def until(condition: Any, what: str) -> None:
    """Wait until something holds."""
    end = time.monotonic() + LONG
    while not condition():
        assert time.monotonic() < end, f"{what} never held"
        time.sleep(0.05)


@dataclass
class Answer:
    """What came back."""

    status: int
    headers: dict[str, list[str]]
    body: bytes


UPGRADE = {
    "Connection": "Upgrade",
    "Upgrade": "websocket",
    "Sec-WebSocket-Version": "13",
    "Sec-WebSocket-Key": "AAAAAAAAAAAAAAAAAAAAAA==",
}


def ask(server: Server, target: str, *lines: str, headers: Mapping[str, str] | None = None) -> Answer:
    """One request as raw lines, so that what no client would send can be sent."""
    rows = [*lines, *(f"{key}: {value}" for key, value in (headers or {}).items())]
    request = "\r\n".join([f"GET {target} HTTP/1.1", *rows, "", ""]).encode()
    with socket.create_connection(("127.0.0.1", server.port), timeout=LONG) as line:
        line.sendall(request)
        stream = line.makefile("rb")
        status = int(stream.readline().split()[1])
        found: dict[str, list[str]] = {}
        while (row := stream.readline().strip()) and b":" in row:
            key, _, value = row.decode("latin-1").partition(":")
            found.setdefault(key.lower(), []).append(value.strip())
        length = int(found.get("content-length", ["0"])[0])
        return Answer(status, found, stream.read(length))


@dataclass
class Browser:
    """A page's WebSocket. `seen` is all that was painted since the last `type`, with its colours."""

    server: Server
    session: aiohttp.ClientSession
    socket: aiohttp.ClientWebSocketResponse
    seen: str = ""
    told: list[Any] = field(default_factory=list)

    @classmethod
    async def open(cls, server: Server, size: str = "width=100&height=30") -> "Browser":
        session = aiohttp.ClientSession()
        headers = {"Origin": f"http://{server.host}", "Cookie": server.cookie}
        return cls(
            server, session, await session.ws_connect(f"ws://{server.host}/ws?{size}", headers=headers)
        )

    async def until(self, *words: str) -> None:
        """Take in what is painted until all these words stand in it."""
        end = time.monotonic() + LONG
        while not all(word in plain(self.seen) for word in words):
            left = end - time.monotonic()
            assert left > 0, f"{words} never came. Seen:\n{plain(self.seen)[-3000:]}"
            with contextlib.suppress(TimeoutError):
                await self.take(left)

    async def take(self, seconds: float) -> None:
        """One message."""
        async with asyncio.timeout(seconds):  # the socket's own time limit begins anew with each heartbeat
            message = await self.socket.receive()
        if message.type is aiohttp.WSMsgType.BINARY:
            self.seen += message.data.decode("utf-8", "replace")
        elif message.type is aiohttp.WSMsgType.TEXT:
            self.told.append(json.loads(message.data))
        else:
            await asyncio.sleep(0.5)  # what a shell that failed says comes after its last sign
            said = self.server.all_said()
            raise AssertionError(f"it closed. Seen:\n{plain(self.seen)[-3000:]}\nThe server said:\n{said}")

    async def type(self, text: str) -> None:
        self.seen = ""
        await self.socket.send_json(["stdin", text])

    async def close(self) -> None:
        """As a browser does whose tab is closed."""
        await self.socket.close()
        await self._let_go()

    async def vanish(self) -> None:
        """As a browser that crashed: the connection ends without a word."""
        transport = self.socket._response.connection.transport
        transport.abort()
        await self._let_go()

    async def _let_go(self) -> None:
        self.socket._response.close()
        await self.session.close()
        await asyncio.sleep(0.05)  # its transports end in the loop's next turns, which must not be its last


def plain(painted: str) -> str:
    """Without colours; where the cursor jumps stands a line end."""
    return re.sub(r"\x1b\[[0-9;?]*([A-Za-z])", lambda m: "" if m[1] == "m" else "\n", painted)
