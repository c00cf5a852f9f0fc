"""`boltend print FILE`: a worked project on paper, in a pipe or for a program."""

import argparse
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from boltend.commands.exits import BadCall, Exit, complain
from boltend.commands.opened import open_project
from boltend.core.asking import AskError, climb, read_ladder
from boltend.core.flow import Workbook
from boltend.core.flow.nodes import near
from boltend.core.host import Host
from boltend.core.paper.choices import FORMS, SHEETS, SIZES, NoPaper, Paper, form_of
from boltend.core.pool import Lists, Pool
from boltend.core.project.model import Tab
from boltend.core.project.whole_file import put_whole
from boltend.core.report.forms import printed
from boltend.core.report.ladder_forms import Done
from boltend.core.report.pictures import Look, can_draw

_ON_PAPER = ("html", "pdf")


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "print",
        help="print a worked project",
        description="Work a project out and print it: what to buy and to cut, and given, found, working and "
        "cautions of every tab. As html (one file, nothing else needed) or pdf it is a plan for the cutting "
        "table, with its pictures; as svg it is the pictures alone: the one of a --tab, or all of them (tabs "
        "and cutting plans) into the folder that --out names.",
        epilog="Exit codes: 0 all worked out; 1 something cannot be worked out (the print says what "
        "and why); 2 the file cannot be read.",
    )
    parser.add_argument("file", metavar="FILE", help="the project file")
    parser.add_argument(
        "--as",
        dest="form",
        choices=tuple(FORMS),
        help="the form (default: what the name behind --out ends in, else text)",
    )
    parser.add_argument("--tab", action="append", metavar="NAME", help="only this tab; may be repeated")
    parser.add_argument(
        "--out", "-o", metavar="PATH", help="write to a file, or to a folder for svg, instead of the screen"
    )
    parser.add_argument("--no-pictures", action="store_true", help="only words and numbers")
    parser.add_argument(
        "--sheet",
        choices=SHEETS,
        default="plan",
        help="html and pdf: the plan (default), or one page for a customer: the project's name, finished "
        "size, picture, what to buy with its cost, what to take care of; nothing of the working",
    )
    parser.add_argument(
        "--paper",
        choices=SIZES,
        help="html and pdf: the size of the paper (default: letter where the project's currency is USD or "
        "CAD, else a4)",
    )
    parser.add_argument(
        "--working",
        action="store_true",
        help="html and pdf: each tab's working, too; the other forms have it",
    )
    parser.set_defaults(do=print_project)


def print_project(said: argparse.Namespace) -> Exit:
    """Print a project."""
    form = said.form or (form_of(Path(said.out)) if said.out else None) or "text"
    _check(said, form)
    pool = Pool()
    with Host.load() as host:
        book = open_project(said.file, host).book
        tabs = _tabs(said, book)
        kept = not said.tab and form != "svg" and said.sheet == "plan"
        ladders = _ladders(book, pool) if kept else ()
    lists = pool.lists(book, tabs)
    try:
        if form in _ON_PAPER or form == "svg":
            _paper(said, form, book, tabs, lists, ladders)
        else:
            look = Look(ascii=said.out is None and not can_draw(sys.stdout.encoding))
            text = printed(book, tabs, lists, form, None if said.no_pictures else look, ladders)
            _put(text, said.out)
    except NoPaper as error:
        raise BadCall(f"{said.file}: {error}") from None
    except OSError as error:
        if said.out is None:
            raise  # a pipe that nobody reads is no fault of the call
        raise BadCall(
            f"{said.out}: cannot be written: {error.strerror}. Choose another place with --out."
        ) from None
    for name in dict.fromkeys(
        t.calculator for t in tabs if any(x.traceback for x in book.results[t.key].troubles)
    ):
        complain(f"{name} went wrong: `boltend work {name} …` with the same givens shows where.")
    worked_out = all(book.results[t.key].state == "worked out" for t in tabs)
    return Exit.DONE if worked_out and all(each.whole for each in lists.fabrics) else Exit.CANNOT


def _ladders(book: Workbook, pool: Pool) -> tuple[Done, ...]:
    """The ladders that the project keeps, worked out; one that cannot be read is left out."""
    found: list[Done] = []
    for row in book.project.ladders:
        with suppress(AskError):
            ladder = read_ladder(book, row)
            found.append((ladder, list(climb(book, ladder, pool))))
    return tuple(found)


def _check(said: argparse.Namespace, form: str) -> None:
    """Refuse what does not go together before anything is worked out."""
    if form not in _ON_PAPER:
        if said.sheet != "plan":
            raise BadCall(f"--sheet {said.sheet} comes as html or pdf: add --as pdf --out sheet.pdf.")
        if said.paper:
            raise BadCall("--paper is for html and pdf: add --as pdf --out plan.pdf, or leave it out.")
    if form == "svg" and said.no_pictures:
        raise BadCall("svg is nothing but pictures: leave --no-pictures out, or take another form.")
    if form == "svg" and said.out is None and (said.tab is None or len(said.tab) > 1):
        raise BadCall(
            "svg gives one picture a file: name a tab with --tab, or a folder for all of them with --out."
        )
    if said.sheet == "customer" and said.working:
        raise BadCall("the customer's sheet has no working: leave --working out, or take --sheet plan.")
    if form == "pdf" and said.out is None and sys.stdout.isatty():
        raise BadCall("a PDF is nothing for a terminal to show: name a file with --out plan.pdf.")


def _tabs(said: argparse.Namespace, book: Workbook) -> tuple[Tab, ...]:
    tabs = book.project.tabs
    if not said.tab:
        return tabs
    wanted = []
    for name in said.tab:
        tab = book.project.find_tab(name)
        if tab is None:
            raise BadCall(f"{said.file}: there is no tab “{name}”. {near(name, [t.name for t in tabs])}")
        wanted.append(tab)
    return tuple(wanted)


def _paper(
    said: argparse.Namespace,
    form: str,
    book: Workbook,
    tabs: tuple[Tab, ...],
    lists: Lists,
    ladders: Sequence[Done],
) -> None:
    from boltend.core.paper.forms import on_paper, tab_svg, write  # 25 ms that a text has no use for

    called = Path(said.file).stem.strip("-")  # `-` is no file with a name
    paper = Paper(said.sheet, said.paper or "", not said.no_pictures, said.working, called)
    if form == "svg":
        out = Path(said.out) if said.out else None
        if len(tabs) == 1 and said.tab and (out is None or not out.is_dir()):
            made = tab_svg(book, tabs[0], lists).encode("utf-8")
            _say(made) if out is None else put_whole(out, made)
        elif out is not None:
            write(out, book, tabs, lists, form)
    elif said.out is not None:
        write(Path(said.out), book, tabs, lists, form, paper, ladders)
    else:
        _say(on_paper(book, tabs, lists, form, paper, ladders))


def _put(text: str, out: str | None) -> None:
    if out is None:
        print(text, end="")
    else:
        put_whole(Path(out), text.encode("utf-8"))


def _say(made: bytes) -> None:
    """Bytes as they are: these forms tell their own encoding."""
    sys.stdout.flush()
    sys.stdout.buffer.write(made)
