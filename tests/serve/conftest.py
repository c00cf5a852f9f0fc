"""A server for each test that wants one."""

import sys
from collections.abc import AsyncIterator, Awaitable, Callable, Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))  # test files are no package here
from serving import QUILT, Browser, Server


@pytest.fixture
def quilt(tmp_path: Path) -> Path:
    path = tmp_path / "quilt.toml"
    path.write_text(QUILT, encoding="utf-8")
    return path


@pytest.fixture
def serve(tmp_path: Path) -> Iterator[Callable[..., Server]]:
    """`serve(FILE, …)` starts a server; all are ended with the test."""
    servers: list[Server] = []

    def start(*words: object) -> Server:
        servers.append(Server(tmp_path, *map(str, words)))
        return servers[-1]

    yield start
    for server in servers:
        server.close()


@pytest.fixture
async def browse() -> AsyncIterator[Callable[..., Awaitable[Browser]]]:
    """`await browse(SERVER)` opens a page's connection; all are closed with the test."""
    pages: list[Browser] = []

    async def start(server: Server) -> Browser:
        pages.append(await Browser.open(server))
        return pages[-1]

    yield start
    for page in pages:
        await page.close()
