"""`boltend ladder FILE`: one given through several values, founds and purchases side by side."""

import argparse
from typing import Any

from boltend.commands.exits import BadCall, Exit
from boltend.commands.opened import open_project
from boltend.core.asking import AskError, Ladder, climb, read_ladder
from boltend.core.asking.spots import spot_of, tab_of
from boltend.core.asking.values import read_values
from boltend.core.flow import Workbook
from boltend.core.flow.nodes import near
from boltend.core.host import Host
from boltend.core.report.json import dump
from boltend.core.report.ladder_forms import ladders_printed
from boltend.core.report.ladder_text import ladder_json


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "ladder",
        help="one given through several values, side by side",
        description="Work a project out for several values of one given, through all links, and set what it "
        "finds and what is to buy side by side.",
        epilog="Example: boltend ladder quilt.toml Top across 4 5 6 --take width --take Borders width "
        '--take "to buy". A ladder that the project keeps is called by its name. Exit codes: 0 done; 1 a '
        "rung has something that cannot be worked out; 2 the call or the file cannot be read.",
    )
    parser.add_argument("file", metavar="FILE", help="the project file")
    parser.add_argument(
        "words",
        metavar="NAME | TAB GIVEN VALUE",
        nargs="*",
        help="a ladder that the project keeps; or a tab, a given of it, and the values",
    )
    parser.add_argument("--tab", metavar="NAME", help="the tab whose given takes the values")
    parser.add_argument("--given", metavar="NAME", help="the given")
    parser.add_argument("--values", metavar="LIST", help='with ; between, or "2 in to 3 in by 1/4 in"')
    parser.add_argument(
        "--take",
        action="append",
        nargs="+",
        metavar="FOUND",
        help='what is set side by side: a found of the tab, TAB FOUND, or "to buy" (the default)',
    )
    parser.add_argument(
        "--as",
        dest="form",
        choices=("text", "json", "markdown", "csv"),
        default="text",
        help="the form (default: text)",
    )
    parser.set_defaults(do=ladder)


def ladder(said: argparse.Namespace) -> Exit:
    """Climb a ladder."""
    with Host.load() as host:
        book = open_project(said.file, host).book
        try:
            made = _ladder(book, said)
        except AskError as error:
            raise BadCall(f"{said.file}: {error}") from None
        rungs = list(climb(book, made))
    if said.form == "json":
        print(dump(ladder_json(made, rungs)), end="")
    else:
        print(ladders_printed([(made, rungs)], said.form), end="")
    return Exit.CANNOT if any(cell.why for rung in rungs for cell in rung.cells.values()) else Exit.DONE


def _ladder(book: Workbook, said: argparse.Namespace) -> Ladder:
    own = {"--tab": said.tab, "--given": said.given, "--values": said.values}
    if said.words and (any(own.values()) or (len(said.words) == 1 and said.take)):
        raise AskError("a name and a ladder of its own are both given.", "Leave one of them out.")
    if len(said.words) == 1:
        (name,) = said.words
        row = book.project.find_ladder(name)
        if row is None:
            names = [each.name for each in book.project.ladders]
            raise AskError(f"the project keeps no ladder “{name}”.", near(name, names))
        return read_ladder(book, row)
    if said.words:
        said.tab, said.given, *values = said.words
        said.values = "; ".join(values)
        own = {"TAB": said.tab, "GIVEN": said.given, "VALUE": said.values}
    missing = [option for option, value in own.items() if not value]
    if missing:
        kept = "; ".join(each.name for each in book.project.ladders if each.name)
        hint = f"Name a ladder that it keeps ({kept}), or say" if kept else "Say"
        raise AskError("which ladder?", f"{hint} {', '.join(missing)}.")
    own = {"tab": said.tab, "given": said.given, "take": _takes(book, said)}
    spot = spot_of(book, tab_of(book, said.tab), said.given)
    try:
        values = read_values(book, spot, said.values)
    except AskError:  # its own rung says what is wrong with a value
        values = [value.strip() for value in said.values.split(";") if value.strip()]
    return read_ladder(book, {**own, "values": values})


def _takes(book: Workbook, said: argparse.Namespace) -> list[Any] | None:
    """What each `--take` says, as a project file would."""
    return [taken(book, words) for words in said.take] if said.take else None


def taken(book: Workbook, words: list[str]) -> Any:
    """`TAB FOUND`, or `TAB.FOUND` unless that is a found's own name, is a link. Raises `AskError`."""
    if len(words) > 2:
        raise AskError(f"--take has {len(words)} words.", "Say FOUND or TAB FOUND after each --take.")
    if len(words) == 2:
        return {"from": words[0], "take": words[1]}
    tab, dot, name = words[0].rpartition(".")
    return {"from": tab, "take": name} if dot and book.project.find_tab(tab) else words[0]
