"""Shells behind browser tabs: two on one file, closed tabs, names with quotes, the end of the server."""

import os
import re
import signal
import tomllib
from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest
from serving import QUILT, Browser, Server, ask, plain, until

Serve = Callable[..., Server]
Browse = Callable[..., Awaitable[Browser]]
SAVE, EXPORT = "\x13", "\x1be"


def given(path: Path) -> dict[str, object]:
    (tab,) = tomllib.loads(path.read_text(encoding="utf-8"))["tab"]
    return dict(tab["given"])


async def test_two_tabs_on_one_file_lose_nothing(serve: Serve, browse: Browse, quilt: Path) -> None:
    server = serve(quilt)
    one, other = await browse(server), await browse(server)
    await one.until("needed", "Quit")
    await other.until("needed", "Quit")
    await one.type("12 1/2")  # the first given, the block's width
    await one.until("50 in")  # 4 × 12 1/2 in
    await other.type("\r14")  # the second, its height
    await other.until("changed")
    await one.type(SAVE)
    await one.until("Saved in quilt.toml")
    await other.type(SAVE)
    await other.until("What somebody else changed in the file was taken in.", "50 in", "56 in")
    assert given(quilt) == {"block_width": "12 1/2", "block_height": "14", "across": 4, "down": 4}
    assert "# Kept, as every comment." in quilt.read_text(encoding="utf-8")


@pytest.mark.parametrize("side", ["mine", "theirs"])
async def test_the_same_given_on_both_sides_asks(
    serve: Serve, browse: Browse, quilt: Path, side: str
) -> None:
    server = serve(quilt)
    one, other = await browse(server), await browse(server)
    await one.until("needed", "Quit")
    await other.until("needed", "Quit")
    await one.type("11")
    await one.until("44 in")
    await other.type("13")
    await other.until("52 in")
    await one.type(SAVE)
    await one.until("Saved in quilt.toml")
    await other.type(SAVE)
    await other.until("changed by somebody else, in the same places", "here 13, there 11")
    assert given(quilt)["block_width"] == "11", "nothing is written before the answer"
    await other.type("\r" if side == "mine" else "\x1b[B\r")
    await other.until("Saved in quilt.toml")
    assert given(quilt)["block_width"] == {"mine": "13", "theirs": "11"}[side]


@pytest.mark.parametrize("way", ["close", "vanish"])
async def test_a_closed_tab_loses_nothing_and_leaves_no_shell(
    serve: Serve, browse: Browse, quilt: Path, way: str
) -> None:
    server = serve(quilt)
    first = await browse(server)
    await first.until("needed", "Quit")
    await first.type("12 1/2")
    await first.until("50 in")
    before = server.mine()
    assert before
    await (first.close() if way == "close" else first.vanish())
    # At once, as when a page is loaded anew: the first shell may still be ending.
    second = await browse(server)
    await second.until("There is unsaved work", "Go on with the unsaved work")
    assert not before & server.mine(), "the shell of the closed tab lives on"
    await second.type("\r")
    await second.until("12 1/2", "50 in")
    assert quilt.read_text(encoding="utf-8") == QUILT, "nobody asked to save"
    await second.close()
    until(lambda: not server.mine(), "the end of all shells")


async def test_a_shell_that_hangs_is_ended_before_the_next_begins(
    serve: Serve, browse: Browse, quilt: Path
) -> None:
    server = serve(quilt)
    first = await browse(server)
    await first.until("needed", "Quit")
    await first.type("12 1/2")
    await first.until("50 in")
    hung = server.mine()
    for pid in hung:
        os.kill(pid, signal.SIGSTOP)
    await first.vanish()
    second = await browse(server)
    await second.until("There is unsaved work", "Go on with the unsaved work")
    assert not hung & server.mine()


async def test_a_name_with_quotes_and_commands_is_a_name(
    serve: Serve, browse: Browse, tmp_path: Path
) -> None:
    name = "a b'\"; touch one $(touch two) `touch three` & <b>½.toml"
    path = tmp_path / name
    path.write_text(QUILT, encoding="utf-8")
    server = serve(name)  # relative, from its folder
    there = sorted(os.listdir(tmp_path))
    one = await browse(server)
    await one.until("needed", "Quit")
    await one.type("12 1/2")
    await one.until("50 in")
    await one.type(SAVE)
    await one.until("Saved in")
    assert given(path)["block_width"] == "12 1/2"
    await one.close()
    assert set(os.listdir(tmp_path)) - set(there) <= {f".{name}.before", "state", "config"}
    page = ask(server, "/", f"Host: {server.host}", f"Cookie: {server.cookie}").body.decode()
    assert "&lt;b&gt;½.toml – Boltend</title>" in page
    assert "<b>" not in page


async def test_an_option_as_a_name_is_a_name(serve: Serve, browse: Browse, tmp_path: Path) -> None:
    (tmp_path / "--help").write_text(QUILT, encoding="utf-8")
    one = await browse(serve("--", "--help"))
    await one.until("needed", "Quit")


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL], ids=lambda n: n.name)
async def test_the_server_ends_its_shells_and_removes_nothing(
    serve: Serve, browse: Browse, quilt: Path, number: int
) -> None:
    server = serve(quilt)
    one, other = await browse(server), await browse(server)
    await one.until("needed", "Quit")
    await other.until("needed", "Quit")
    await one.type("12 1/2")
    await one.until("50 in")
    assert len(server.mine()) >= 2
    code = server.end(number)
    if number != signal.SIGKILL:
        assert code == 0
        assert "Ended." in "".join(server.said)
        assert server.mine() == set()
    until(lambda: not server.mine(), "the end of all shells")
    assert quilt.read_text(encoding="utf-8") == QUILT
    await one.close()
    await other.close()
    again = await browse(serve(quilt))
    await again.until("There is unsaved work")


async def test_leaving_the_shell_closes_the_connection(serve: Serve, browse: Browse, quilt: Path) -> None:
    server = serve(quilt)
    one = await browse(server)
    await one.until("needed", "Quit")
    await one.type("\x11")
    with pytest.raises(AssertionError, match="it closed"):
        await one.until("never to be seen")
    await one.close()
    until(lambda: not server.mine(), "the end of the shell")


async def test_a_file_that_went_wrong_meanwhile_is_told_and_ends(
    serve: Serve, browse: Browse, quilt: Path
) -> None:
    server = serve(quilt)
    quilt.write_text("this is no project", encoding="utf-8")
    one = await browse(server)
    with pytest.raises(AssertionError, match="it closed"):
        await one.until("never to be seen")
    await one.close()
    assert server.end() == 0
    assert "quilt.toml:1:6: this is not TOML" in "".join(server.said)


async def test_messages_of_no_page_are_passed_over_or_end_the_shell(
    serve: Serve, browse: Browse, quilt: Path
) -> None:
    server = serve(quilt)
    one = await browse(server)
    await one.until("needed", "Quit")
    for odd in (
        '{"a": 1}',
        '["resize", {"width": "<"}]',
        '["resize", {"width": -1, "height": 0}]',
        '["stdin"]',
        "[]",
    ):
        await one.socket.send_str(odd)
    await one.type("12 1/2")
    await one.until("50 in")
    await one.socket.send_str("not json")
    with pytest.raises(AssertionError, match="it closed"):
        await one.until("never to be seen")
    until(lambda: not server.mine(), "the end of the shell")
    assert server.end() == 0
    assert "Traceback" not in server.all_said()


async def test_the_plan_is_a_download_behind_the_token(serve: Serve, browse: Browse, quilt: Path) -> None:
    server = serve(quilt)
    one = await browse(server)
    await one.until("needed", "Quit")
    await one.type("12 1/2")
    await one.until("50 in")
    await one.type(EXPORT)
    await one.until("Download the plan as which file?", ".txt", ".md", ".json")
    await one.type("\r")
    await one.until("Handed to the browser as quilt")
    while not one.told:
        await one.take(20)
    (kind, key), *_ = one.told
    name = re.findall(r"Handed to the browser as (quilt\S*\.txt)", plain(one.seen))[0]
    assert kind == "deliver_file_start"
    host, cookie = f"Host: {server.host}", f"Cookie: {server.cookie}"
    assert ask(server, f"/download/{key}", host).status == 403
    assert ask(server, f"/download/{key}", host, cookie, "Origin: http://evil.example").status == 403
    async with one.session.get(
        f"http://{server.host}/download/{key}", headers={"Cookie": server.cookie}
    ) as got:
        text = await got.text("utf-8")
        assert got.status == 200
        assert got.headers["Content-Disposition"] == f"attachment; filename*=UTF-8''{name}"
        assert got.headers["Content-Type"] == "application/octet-stream"
    assert "How large is a top of straight rows" in text
    assert "50 in" in text
    assert ask(server, f"/download/{key}", host, cookie).status == 404, "a key works once"
    assert not (quilt.parent / name).exists()
