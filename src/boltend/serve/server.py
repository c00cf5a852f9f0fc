"""The web server: a page with a terminal in it, and a shell for each page that is open.

The terminal in the page (xterm.js), the talk with a shell and the downloads are textual-serve's. Its server
is not used: it lets anybody in, and its page loads a font from elsewhere.
"""

import asyncio
import contextlib
import html
import signal
import socket
from collections.abc import Awaitable, Callable
from pathlib import Path
from string import Template
from urllib.parse import quote

import textual_serve
from aiohttp import web
from textual_serve.download_manager import DownloadManager

from boltend.serve.gate import Gate, headers
from boltend.serve.session import Session, in_cells

PAGE = Path(__file__).parent / "page"
TERMINAL = Path(textual_serve.__file__).parent / "static"

END_SECONDS = 15.0
"""What everything gets to end in; a session needs nine at the worst."""

HEARTBEAT = 15.0
"""Seconds between two looks whether a browser is still there."""

ON = '<!DOCTYPE html><meta http-equiv="refresh" content="0;url=/"><title>Boltend</title>'
"""A page that leads on to the one without the token in its address."""

Handler = Callable[[web.Request], Awaitable[web.StreamResponse]]


class Pages:
    """All that is served, behind one gate; every page has a shell started by `words`."""

    def __init__(self, gate: Gate, words: list[str], title: str) -> None:
        self.gate = gate
        self.words = words
        self.title = title
        self.downloads = DownloadManager()
        self._sockets: set[web.WebSocketResponse] = set()
        self._ending: set[asyncio.Task[None]] = set()

    def app(self) -> web.Application:
        """The routes."""
        app = web.Application(middlewares=[self.guard])
        app.on_response_prepare.append(self.dress)
        app.on_shutdown.append(self.end)
        app.add_routes(
            [
                web.get("/", self.page),
                web.get("/ws", self.shell),
                web.get("/download/{key}", self.download),
                web.static("/page", PAGE),
                web.static("/terminal", TERMINAL),
            ]
        )
        return app

    @web.middleware
    async def guard(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        """Let nobody in without the token, whatever is asked for, also where there is nothing."""
        why = self.gate.refusal(
            request.raw_path,
            request.headers.getall("Host", []),
            request.headers.getall("Origin", []),
            needs_origin=request.path == "/ws",
        )
        if not why and request.path == "/" and self.gate.knows(request.query.get("token")):
            # The token goes from the address into a cookie, where neither scripts nor other sites see it.
            answer = web.Response(status=303, headers={"Location": "/"})
            if request.headers.get("Sec-Fetch-Site", "none") == "cross-site":
                # A link in somebody's mail: the browser takes the cookie, but sends it from our page only.
                answer = web.Response(text=ON, content_type="text/html")
            answer.set_cookie(self.gate.cookie, self.gate.token, httponly=True, samesite="Strict", path="/")
            return answer
        if not why and not self.gate.knows(request.cookies.get(self.gate.cookie)):
            why = "the token is missing or wrong. Open the address that boltend serve printed"
        if why:
            raise web.HTTPForbidden(text=f"Refused: {why}.\n")
        return await handler(request)

    async def dress(self, request: web.Request, response: web.StreamResponse) -> None:
        """Put the headers on every answer."""
        response.headers.update(headers(self._host(request)))

    def _host(self, request: web.Request) -> str:
        said = request.headers.get("Host", "").lower()
        return said if said in self.gate.hosts else self.gate.hosts[0]

    async def page(self, request: web.Request) -> web.Response:
        """The page."""
        template = Template((PAGE / "page.html").read_text(encoding="utf-8"))
        text = template.substitute(title=html.escape(self.title), socket=f"ws://{self._host(request)}/ws")
        return web.Response(text=text, content_type="text/html")

    async def shell(self, request: web.Request) -> web.WebSocketResponse:
        """A shell, from when a page opens its WebSocket until that closes."""
        connection = web.WebSocketResponse(heartbeat=HEARTBEAT)
        await connection.prepare(request)
        if self._ending:
            # A page loaded anew: its first shell lets go of the unsaved work, so that the next can offer it.
            await asyncio.wait(self._ending)
        session = Session(self.words, connection, self.downloads)
        self._sockets.add(connection)
        try:
            size = (in_cells(request.query.get(key), least) for key, least in (("width", 80), ("height", 24)))
            await session.start(*size)
            await session.listen()
        finally:
            self._sockets.discard(connection)
            task = asyncio.create_task(session.stop())
            self._ending.add(task)
            task.add_done_callback(self._ending.discard)
            await asyncio.shield(task)
        return connection

    async def download(self, request: web.Request) -> web.StreamResponse:
        """A file that a shell hands out. Never shown as a page: it goes to the person's own disk."""
        key = request.match_info["key"]
        try:
            file = await self.downloads.get_download_metadata(key)
        except KeyError:
            raise web.HTTPNotFound(text="There is no such file, or it was fetched before.\n") from None
        response = web.StreamResponse()
        response.headers["Content-Type"] = "application/octet-stream"
        response.headers["Content-Disposition"] = (
            f"attachment; filename*=UTF-8''{quote(file.file_name, safe='')}"
        )
        await response.prepare(request)
        async for chunk in self.downloads.download(key):
            await response.write(chunk)
        await response.write_eof()
        return response

    async def end(self, _: web.Application | None = None) -> None:
        """Close every page's connection; each then ends its shell."""
        await asyncio.gather(*(one.close(code=1001) for one in list(self._sockets)), return_exceptions=True)


async def serve(pages: Pages, listening: socket.socket, begun: Callable[[], None]) -> None:
    """Serve until Ctrl+C (or SIGTERM, SIGHUP), then end every shell. `begun` is called once pages open."""
    runner = web.AppRunner(pages.app(), access_log=None, shutdown_timeout=END_SECONDS)
    await runner.setup()
    try:
        await web.SockSite(runner, listening).start()
        stop = asyncio.Event()
        for name in ("SIGINT", "SIGTERM", "SIGHUP"):
            with contextlib.suppress(NotImplementedError, AttributeError):  # Windows: KeyboardInterrupt
                asyncio.get_running_loop().add_signal_handler(getattr(signal, name), stop.set)
        begun()
        await stop.wait()
    finally:
        await runner.cleanup()
