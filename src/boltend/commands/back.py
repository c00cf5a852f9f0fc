"""`boltend back FILE`: which value of a given makes a found reach what is wanted."""

import argparse

from boltend.commands.exits import BadCall, Exit
from boltend.commands.opened import open_project
from boltend.core.asking import AskError, back, read_wish
from boltend.core.asking.back import REACHES
from boltend.core.host import Host
from boltend.core.report.back_text import back_json, back_text
from boltend.core.report.json import dump


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "back",
        help="which value of a given reaches what is wanted",
        description="Work backwards: find the values of one given, on its own steps, that make a found or "
        "the total reach an amount, through all links; or the nearest misses.",
        epilog="Example: boltend back quilt.toml --tab Top --given across --take Borders.width "
        '--reach "at least" --wanted "70 in". Exit codes: 0 found; 1 no value reaches it; 2 the call or the '
        "file cannot be read.",
    )
    parser.add_argument("file", metavar="FILE", help="the project file")
    parser.add_argument("--tab", metavar="NAME", required=True, help="the tab of the given")
    parser.add_argument("--given", metavar="NAME", required=True, help="the given")
    parser.add_argument(
        "--take", metavar="FOUND", required=True, help="a found of the tab, TAB.FOUND, or total"
    )
    parser.add_argument("--wanted", metavar="AMOUNT", required=True, help="what it should reach")
    parser.add_argument("--reach", choices=REACHES, default=REACHES[0], help="how (default: at least)")
    parser.add_argument("--least", metavar="VALUE", help="where the range of the given begins")
    parser.add_argument("--most", metavar="VALUE", help="where it ends")
    parser.add_argument(
        "--as", dest="form", choices=("text", "json"), default="text", help="the form (default: text)"
    )
    parser.set_defaults(do=work_back)


def work_back(said: argparse.Namespace) -> Exit:
    """Work backwards."""
    with Host.load() as host:
        book = open_project(said.file, host).book
        tab, dot, name = said.take.rpartition(".")
        take = {"from": tab, "take": name} if dot and book.project.find_tab(tab) else said.take
        try:
            wish = read_wish(book, {**vars(said), "take": take})
        except AskError as error:
            raise BadCall(f"{said.file}: {error}") from None
        told = back(book, wish)
        print(dump(back_json(wish, told)) if said.form == "json" else back_text(book, wish, told), end="")
    return Exit.DONE if told.hits else Exit.CANNOT
