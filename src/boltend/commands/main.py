"""The command line. Each command is a module of its own; nothing of Textual is imported but by the shell."""

import errno
import gc
import os
import sys
import threading
from collections.abc import Sequence
from importlib import import_module
from io import TextIOWrapper
from typing import TYPE_CHECKING, NoReturn

from boltend import __version__
from boltend.commands.exits import BadCall, Exit, complain
from boltend.core.project.problems import ProjectUnreadable
from boltend.core.values import visible

if TYPE_CHECKING:
    import argparse

COMMANDS = {
    "print": "boltend.commands.print_",
    "check": "boltend.commands.check",
    "work": "boltend.commands.work",
    "ladder": "boltend.commands.ladder",
    "back": "boltend.commands.back",
    "calculators": "boltend.commands.calculators",
    "plugins": "boltend.commands.plugins",
    "new-plugin": "boltend.commands.new_plugin",
    "where": "boltend.commands.where",
    "serve": "boltend.commands.serve",
}
"""Each command with its module, which is imported when a parser is wanted: for the shell it never is."""

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO)
"""What a file behind `>` says that takes no more."""

_INTERRUPTED = 128 + 2
"""What shells make of an end by Ctrl-C."""

START_SECONDS = 2.0
"""Seconds after which the shell begins to look for garbage."""

COLLECT_AT = 20_000
"""New objects after which it looks, in the place of Python's 700: a look costs some milliseconds."""


def build_parser() -> "argparse.ArgumentParser":
    """The parser of the whole command line."""
    import argparse  # late: the shell needs neither it nor what the commands import (together 20 ms)

    class Parser(argparse.ArgumentParser):
        """What a refusal repeats of the call is text, too: it steers no terminal."""

        def error(self, message: str) -> NoReturn:
            super().error(visible(message))

    parser = Parser(
        prog="boltend",
        description="Quilt arithmetic in the terminal, from the fabric in hand to the last eighth of a "
        "yard to buy. Without a command, boltend opens the shell; boltend FILE opens a project in it.",
        epilog="Exit codes: 0 done; 1 the project has something that cannot be worked out; "
        "2 a call or file that cannot be read. boltend COMMAND --help tells more of each.",
    )
    parser.add_argument("--version", action="version", version=f"boltend {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for module in COMMANDS.values():
        import_module(module).add(commands)
    return parser


def main(words: Sequence[str] | None = None) -> int:
    """Run one command; the exit code."""
    said = list(sys.argv[1:] if words is None else words)
    try:
        if wants_shell(said):
            return _shell(said[0] if said else None)
        namespace = build_parser().parse_args(said)
        code = int(namespace.do(namespace))
        sys.stdout.flush()  # here, so that a pipe that broke is noticed below and not at exit
        return code
    except BadCall as error:
        complain(str(error))
        return Exit.UNREADABLE
    except ProjectUnreadable as error:
        complain(str(error))
        return Exit.UNREADABLE
    except KeyboardInterrupt:
        complain("Stopped.")
        return _INTERRUPTED
    except BrokenPipeError:
        # The reader of a pipe went away (`boltend print … | head`); do not complain at exit either.
        _say_no_more()
        return Exit.DONE
    except OSError as error:
        if error.filename is not None or error.errno not in _FULL:
            raise
        _say_no_more()
        complain(f"What was to be said could not be written: {error.strerror}. Make room, and call it again.")
        return Exit.UNREADABLE


def _say_no_more() -> None:
    """What is left of the output goes nowhere: Python would complain of it at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def wants_shell(words: Sequence[str]) -> bool:
    """Whether a call asks for the shell: nothing at all, or one file. A command's name is no file."""
    return not words or (len(words) == 1 and not words[0].startswith("-") and words[0] not in COMMANDS)


def _shell(path: str | None) -> int:
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        if path is None:
            raise BadCall("The shell needs a terminal. boltend --help lists what works without one.")
        return main(["print", path])
    _collect_later()
    from boltend.shell import run as run_shell  # late: Textual costs about 150 ms

    return run_shell(path)


def _collect_later() -> None:
    """Look for garbage only once the first screen stands.

    A start makes some 150 000 objects and hardly any garbage among them. Python would look through them more
    than two hundred times, which takes 55 ms of the 570 ms (CPU) until the first filled screen.
    """
    gc.disable()
    timer = threading.Timer(START_SECONDS, _collect_from_now_on)
    timer.daemon = True
    timer.start()


def _collect_from_now_on() -> None:
    gc.freeze()  # what the start made stays: it is not looked through again
    gc.set_threshold(COLLECT_AT)
    gc.enable()


def run() -> None:
    """The entry point of the `boltend` command."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(
            stream, TextIOWrapper
        ):  # a sign that the terminal's encoding lacks becomes a question mark
            stream.reconfigure(errors="replace")
    sys.exit(main())
