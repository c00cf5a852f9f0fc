"""`boltend serve`: the shell in a browser."""

import argparse
import asyncio
import contextlib
import ipaddress
import socket
from importlib.util import find_spec
from pathlib import Path

from boltend.commands.exits import BadCall, Exit
from boltend.core.project.saving import ProjectFile
from boltend.core.values import visible

HERE = "127.0.0.1"
ANY = ("0.0.0.0", "::", "")

WHAT_BEYOND_MEANS = (
    "Whoever comes by the address sees, changes and saves every file that you can, for the shell opens and "
    "writes files on this computer. Nothing is encrypted: in a network that others share, they can read the "
    "address and all that you type."
)


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "serve",
        help="the shell in a browser",
        description="Open the shell in a browser on this computer, until Ctrl+C. The printed address holds a "
        "new token each time; without it nobody comes in. Every browser tab is a shell of its own: two that "
        "have one file open lose nothing, saving puts both together, and asks where both changed the same. "
        "What is not saved when a tab closes is offered again.",
        epilog="Exit codes: 0 ended by Ctrl+C; 2 a call, file or address that cannot be used.",
    )
    parser.add_argument("file", nargs="?", metavar="FILE", help="a project; the start screen without one")
    parser.add_argument(
        "--host",
        default=HERE,
        metavar="ADDRESS",
        help=f"the address or name of this computer that browsers use (default: {HERE})",
    )
    parser.add_argument(
        "--port", type=_port, default=0, metavar="NUMBER", help="the port (default: one that is free)"
    )
    parser.add_argument(
        "--beyond-this-computer",
        action="store_true",
        help=f"let other computers in, too, at the address of --host. {WHAT_BEYOND_MEANS}",
    )
    parser.set_defaults(do=serve)


def _port(text: str) -> int:
    if text.isascii() and text.isdigit() and int(text) <= 65535:
        return int(text)
    raise argparse.ArgumentTypeError(f"“{visible(text)}” is no port. Write a number up to 65535, as 8700.")


def serve(said: argparse.Namespace) -> Exit:
    """Serve until Ctrl+C."""
    if find_spec("textual_serve") is None:
        raise BadCall("boltend serve needs more than plain Boltend. Install it: pip install 'boltend[web]'")
    if said.file is not None and Path(said.file).exists():
        ProjectFile.open(said.file)  # a file that cannot be read is told here and not in a browser
    beyond = not _stays_here(said.host)
    if beyond and not said.beyond_this_computer:
        raise BadCall(
            f"--host {said.host} lets other computers in. {WHAT_BEYOND_MEANS} "
            "If that is what you want, add --beyond-this-computer."
        )
    listening = _listen(said.host, said.port)
    from boltend.serve.gate import Gate
    from boltend.serve.server import Pages, serve
    from boltend.serve.session import child_words

    here = [HERE, "localhost"] if said.host in (HERE, "localhost") else [said.host]
    gate = Gate(here, listening.getsockname()[1])
    name = "Boltend" if said.file is None else f"{visible(Path(said.file).name)} – Boltend"
    with contextlib.suppress(KeyboardInterrupt), listening:
        pages = Pages(gate, child_words(said.file), name)
        asyncio.run(serve(pages, listening, lambda: announce(gate.url, beyond=beyond)))
    print("Ended. What was not saved is offered when the project is opened again.")
    return Exit.DONE


def announce(url: str, *, beyond: bool) -> None:
    """Say where the shell is to be had, and what that means."""
    print(f"Open this in a browser; whoever has it comes in:\n\n    {url}\n")
    if beyond:
        print(f"OTHER COMPUTERS CAN COME IN. {WHAT_BEYOND_MEANS}\n")
    print("Ctrl+C ends it.", flush=True)


def _stays_here(host: str) -> bool:
    """Whether only this computer reaches an address. A name is looked up; an unknown one is refused."""
    if host in ANY:
        raise BadCall(
            f"--host {host or '(nothing)'} is every address of this computer. Name the one that browsers "
            "use, as --host 192.168.1.20: any other name in a request is refused."
        )
    return all(ipaddress.ip_address(place[4][0]).is_loopback for place in _places(host, 0))


def _places(host: str, port: int) -> list[tuple[int, int, int, str, tuple[str, int]]]:
    try:
        found = socket.getaddrinfo(HERE if host == "localhost" else host, port, type=socket.SOCK_STREAM)
    except (OSError, UnicodeError) as error:
        raise BadCall(f"--host {visible(host)}: there is no such address. Try --host {HERE}.") from error
    return found  # type: ignore[return-value]  # the stub allows bytes in the place


def _listen(host: str, port: int) -> socket.socket:
    family, _, _, _, place = _places(host, port)[0]
    try:
        return socket.create_server(place, family=family)
    except OSError as error:
        raise BadCall(
            f"Nothing can listen at {visible(host)}, port {port}: {error.strerror}. "
            "Leave --port out for a free one."
        ) from error
