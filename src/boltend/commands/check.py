"""`boltend check FILE`: is anything wrong with a project?"""

import argparse

from boltend.commands.exits import Exit
from boltend.commands.opened import open_project
from boltend.core.host import Host
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
    lines = [str(problem) for problem in opened.problems]
    for trouble in book.basis.troubles:
        lines.append(f"{said.file}: {trouble}")
    shape = {(p.tab_key, p.what) for p in opened.problems}
    for tab in book.project.tabs:
        result = book.results[tab.key]
        for trouble in result.troubles:
            if (tab.key, trouble.why) not in shape and trouble not in book.basis.troubles:
                lines.append(f"{said.file}: tab “{tab.name}” {result.state}: {trouble}")
    for line in lines:
        print(visible(line))
    if opened.all_well:
        count = len(book.project.tabs)
        print(f"{said.file}: {count} {'tab' if count == 1 else 'tabs'}, all worked out.")
    return Exit.DONE if opened.all_well else Exit.CANNOT
