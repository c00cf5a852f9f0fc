"""`boltend back FILE`: which value of a given makes a found reach what is wanted."""

import argparse
from typing import Any

from boltend.commands.exits import BadCall, Exit
from boltend.commands.ladder import taken
from boltend.commands.opened import open_project
from boltend.core.asking import AskError, back, read_wish
from boltend.core.asking.ladder import TOTAL
from boltend.core.asking.wish import REACHES
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.report.back_text import back_json, back_text
from boltend.core.report.json import dump


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "back",
        help="which value of a given reaches what is wanted",
        description="Work backwards: find the values of one given, on its own steps, that make a found or "
        "the total reach an amount, through all links; or the nearest misses. Where those steps are coarser "
        "than the project cuts, finer ones are tried about the nearest, too.",
        epilog='Example: boltend back quilt.toml Borders width "70 in" --change Top across. '
        "Exit codes: 0 found; 1 no value reaches it; 2 the call or the file cannot be read.",
    )
    parser.add_argument("file", metavar="FILE", help="the project file")
    parser.add_argument(
        "words",
        metavar="TAB FOUND AMOUNT",
        nargs="*",
        help='what should reach how much; "to buy" total is a found',
    )
    parser.add_argument(
        "--change",
        nargs=2,
        metavar=("TAB", "GIVEN"),
        help="the given that is changed for it; borders.all.width is the width of all borders alike",
    )
    parser.add_argument("--tab", metavar="NAME", help="its tab, and")
    parser.add_argument("--given", metavar="NAME", help="the given, where --change does not say so")
    parser.add_argument("--take", nargs="+", metavar="FOUND", help="a found of the tab, TAB FOUND, or total")
    parser.add_argument("--wanted", metavar="AMOUNT", help="what it should reach")
    parser.add_argument("--reach", choices=REACHES, default=REACHES[0], help="how (default: at least)")
    parser.add_argument("--least", metavar="VALUE", help="where the range of the given begins")
    parser.add_argument("--most", metavar="VALUE", help="where it ends")
    parser.add_argument("--step", metavar="LENGTH", help="its step, where not the given's own")
    parser.add_argument(
        "--as", dest="form", choices=("text", "json"), default="text", help="the form (default: text)"
    )
    parser.set_defaults(do=work_back)


def work_back(said: argparse.Namespace) -> Exit:
    """Work backwards."""
    with Host.load() as host:
        book = open_project(said.file, host).book
        try:
            wish = read_wish(book, _asked(book, said))
        except AskError as error:
            raise BadCall(f"{said.file}: {error}") from None
        told = back(book, wish)
        print(dump(back_json(wish, told)) if said.form == "json" else back_text(book, wish, told), end="")
    return Exit.DONE if told.reached else Exit.CANNOT


def _asked(book: Workbook, said: argparse.Namespace) -> dict[str, Any]:
    """What is asked, by the names that `read_wish` knows. Raises `AskError`."""
    take, wanted = said.take, said.wanted
    if said.words:
        if len(said.words) != 3 or take or wanted:
            raise AskError("what should reach how much?", 'Say TAB FOUND AMOUNT, as Borders width "70 in".')
        *take, wanted = said.words
        if take[1] == TOTAL.casefold() and not book.project.find_tab(take[0]):
            take = take[1:]
    tab, given = said.change or (said.tab, said.given)
    missing = [
        name
        for name, value in (("--take", take), ("--wanted", wanted), ("--change TAB GIVEN", tab and given))
        if not value
    ]
    if missing:
        raise AskError("not all is said.", f"Say {', '.join(missing)}, too.")
    return {**vars(said), "tab": tab, "given": given, "take": taken(book, take), "wanted": wanted}
