"""`boltend print FILE`: a worked project on paper, in a pipe or for a program."""

import argparse
import sys
from pathlib import Path

from boltend.commands.exits import BadCall, Exit
from boltend.commands.opened import open_project
from boltend.core.flow.nodes import near
from boltend.core.host import Host
from boltend.core.pool import Pool
from boltend.core.report.forms import FORMS, printed
from boltend.core.report.pictures import Look, can_draw


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "print",
        help="print a worked project",
        description="Work a project out and print it: given, found, working and cautions of every tab.",
        epilog="Exit codes: 0 all worked out; 1 something cannot be worked out (the print says what "
        "and why); 2 the file cannot be read.",
    )
    parser.add_argument("file", metavar="FILE", help="the project file")
    forms = tuple(FORMS)
    parser.add_argument("--as", dest="form", choices=forms, default="text", help="the form (default: text)")
    parser.add_argument("--tab", action="append", metavar="NAME", help="only this tab; may be repeated")
    parser.add_argument("--out", metavar="PATH", help="write to a file instead of the screen")
    parser.add_argument("--no-pictures", action="store_true", help="only words and numbers")
    parser.set_defaults(do=print_project)


def print_project(said: argparse.Namespace) -> Exit:
    """Print a project."""
    with Host.load() as host:
        opened = open_project(said.file, host)
    book = opened.book
    tabs = book.project.tabs
    if said.tab:
        wanted = []
        for name in said.tab:
            tab = book.project.find_tab(name)
            if tab is None:
                raise BadCall(f"{said.file}: there is no tab “{name}”. {near(name, [t.name for t in tabs])}")
            wanted.append(tab)
        tabs = tuple(wanted)
    lists = Pool().lists(book, tabs)
    look = Look(ascii=said.out is None and not can_draw(sys.stdout.encoding))
    _put(printed(book, tabs, lists, said.form, None if said.no_pictures else look), said.out)
    worked_out = all(book.results[t.key].state == "worked out" for t in tabs)
    return Exit.DONE if worked_out and all(each.whole for each in lists.fabrics) else Exit.CANNOT


def _put(text: str, out: str | None) -> None:
    if out is None:
        print(text, end="")
        return
    try:
        Path(out).write_text(text, encoding="utf-8")
    except OSError as error:
        raise BadCall(
            f"{out}: cannot be written: {error.strerror}. Choose another place with --out."
        ) from None
