"""`boltend check FILE`: is anything wrong with a project?"""

import argparse
from collections.abc import Iterator

from boltend.commands.exits import Exit
from boltend.commands.opened import Opened, open_project
from boltend.core.host import Host
from boltend.core.pool import FabricPlan, Pool
from boltend.core.values import visible


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "check",
        help="say what is wrong with a project",
        description="Read a project strictly and work it out; say what is wrong, where, and what would do.",
        epilog="Exit codes: 0 nothing is wrong; 1 something cannot be worked out; 2 the file cannot be read.",
    )
    parser.add_argument("file", metavar="FILE", help="the project file")
    parser.set_defaults(do=check_project)


def check_project(said: argparse.Namespace) -> Exit:
    """Check a project."""
    with Host.load() as host:
        opened = open_project(said.file, host)
    book = opened.book
    fabrics = Pool(effort=0, units=0).lists(book).fabrics  # the first plan will do: nothing is bought by it
    for line in (*complaints(opened), *cloth_complaints(opened, fabrics)):
        print(visible(line))
    well = opened.all_well and all(fabric.whole and not fabric.troubles for fabric in fabrics)
    if well:
        count = len(book.project.tabs)
        print(f"{said.file}: {count} {'tab' if count == 1 else 'tabs'}, all worked out.")
    return Exit.DONE if well else Exit.CANNOT


def cloth_complaints(opened: Opened, fabrics: tuple[FabricPlan, ...]) -> Iterator[str]:
    """A line for each thing that keeps a fabric from being cut or priced."""
    for fabric in fabrics:
        for trouble in (*fabric.troubles, *fabric.demand.troubles):
            yield f"{opened.path}: fabric “{fabric.cloth.name}”: {trouble}"
        for each in fabric.unplaced:
            use = fabric.demand.uses[each.part.name]
            yield (
                f"{opened.path}: fabric “{fabric.cloth.name}”: {each.count} of {use.name} for “{use.tab}” "
                f"cannot be cut: {each.why}."
            )


def complaints(opened: Opened) -> Iterator[str]:
    """A line for each thing that is wrong: of the file's shape first, then of what it says."""
    book = opened.book
    yield from map(str, opened.problems)
    told = {(problem.tab_key, problem.what) for problem in opened.problems}
    wrong = (p for p in opened.problems if p.where.startswith("project ·") and p.severity == "error")
    shapeless = {problem.path[-1] for problem in wrong}
    for trouble in book.basis.troubles:
        if trouble.given not in shapeless:
            line = opened.document.line_of("project", None, (trouble.given,))
            yield f"{opened.path}{f':{line}' if line else ''}: {trouble}"
    yield from (f"{opened.path}: {trouble}" for trouble in book.row_troubles())
    for tab in book.project.tabs:
        result = book.results[tab.key]
        for trouble in result.troubles:
            hint = f" `boltend work {tab.calculator} …` shows where." if trouble.traceback else ""
            if (tab.key, trouble.why) not in told and trouble not in book.basis.troubles:
                said = f"tab “{tab.name}” {result.state}: {result.said(trouble)}{hint}"
                yield f"{opened.place(tab, trouble)}: {said}"
