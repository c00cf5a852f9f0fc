"""`boltend where`: where this Boltend keeps what, and which one it is."""

import argparse
import platform
import sys
from collections.abc import Iterator
from pathlib import Path

import boltend
from boltend.commands.exits import Exit, complain
from boltend.commands.new_plugin import guide
from boltend.core.host import ConfigError, config_file, config_folder, off_file, read_config
from boltend.core.host.own_rows import rows_file
from boltend.core.project.recovery import state_folder
from boltend.core.values import visible

RECENT = "recent.json"
"""In the state folder: the projects that were open last."""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "where",
        help="say where settings, unsaved work and the examples lie",
        description="Say where the config folder and its files are, where unsaved work and the list of "
        "recent projects lie, where the examples are, and which version this is.",
        epilog="BOLTEND_CONFIG and BOLTEND_STATE name other folders. Exit codes: 0 done; "
        "2 config.toml cannot be read.",
    )
    parser.set_defaults(do=where)


def where(said: argparse.Namespace) -> Exit:
    """Print the places."""
    rows = list(_rows())
    widest = max(len(label) for label, _, _ in rows)
    for label, path, note in rows:
        print(visible(f"{label:<{widest}}  {path}{f'  ({note})' if note else ''}"))
    try:
        read_config()
    except ConfigError as error:
        complain(str(error))
        return Exit.UNREADABLE
    return Exit.DONE


def _rows() -> Iterator[tuple[str, str | Path, str]]:
    """Label, path, what is there."""
    yield "boltend", boltend.__version__, f"in {Path(boltend.__file__).parent}"
    yield "Python", platform.python_version(), sys.executable
    yield "config folder", config_folder(), _there(config_folder())
    yield "  look and keys", config_file(), _there(config_file())
    yield "  rows of tables", rows_file(), _there(rows_file())
    yield "  plugins switched off", off_file(), _there(off_file())
    state = state_folder()
    yield "state folder", state, _there(state)
    yield "  unsaved work", state / "recovery", _journals(state / "recovery")
    yield "  recent projects", state / RECENT, _there(state / RECENT)
    yield "examples", *_examples()
    yield "guide for plugins", guide(), _there(guide())


def _there(path: Path) -> str:
    try:
        return "" if path.exists() else "does not exist"
    except OSError as error:
        return f"cannot be reached: {error.strerror}"


def _journals(folder: Path) -> str:
    """How many journals lie there: each is work that was not saved, or a Boltend that is open."""
    try:
        count = sum(1 for _ in folder.glob("*.journal"))
    except OSError as error:
        return f"cannot be read: {error.strerror}"
    return _there(folder) or (f"{count} {'journal' if count == 1 else 'journals'}")


def _examples() -> tuple[str | Path, str]:
    try:
        from boltend_shared.examples import path
    except ImportError:
        return "not installed", ""
    folder = path("harbour-steps").parent
    return folder, _there(folder)
