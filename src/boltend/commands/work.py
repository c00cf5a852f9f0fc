"""`boltend work CALCULATOR name=value …`: one calculator, without a project."""

import argparse
import re
import sys
from typing import Any

from boltend.commands.exits import BadCall, Exit, complain
from boltend.core.contract import CalculatorSpec
from boltend.core.flow import Workbook
from boltend.core.flow.nodes import near
from boltend.core.host import Host
from boltend.core.project.edits import add_tab
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project
from boltend.core.report.json import dump, result_json
from boltend.core.report.pictures import Look, can_draw
from boltend.core.report.text import print_text
from boltend.core.values import KINDS, Notation, NotationError

MOST_ROWS = 200


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "work",
        help="work one calculator out",
        description="Work one calculator out from what is given on the command line.",
        epilog='Example: boltend work binding width="60 in" height="72 in". '
        'Cells of rows: borders.1.width="3 in". Lists: widths="60 1/4; 60 3/8". '
        "`boltend calculators NAME` tells what a calculator takes. Exit codes: 0 worked out; "
        "1 it cannot be worked out; 2 the call cannot be read.",
    )
    parser.add_argument(
        "calculator", metavar="CALCULATOR", help="its name, as `boltend calculators` lists it"
    )
    parser.add_argument(
        "givens", nargs="*", metavar="name=value", help="what is given; what is left out takes its default"
    )
    parser.add_argument(
        "--as", dest="form", choices=("text", "json"), default="text", help="the form (default: text)"
    )
    parser.add_argument(
        "--units", choices=("inches", "centimetres"), default="inches", help="the working system"
    )
    parser.add_argument("--picture", action="store_true", help="draw its picture, too")
    parser.set_defaults(do=work)


def work(said: argparse.Namespace) -> Exit:
    """Work a calculator out."""
    with Host.load() as host:
        spec = host.spec(said.calculator)
        if spec is None:
            why, way_out = host.why_absent(said.calculator)
            raise BadCall(f"{why} {way_out}".strip())
        raw = read_givens(spec, said.givens)
        project = Project(settings={"units": said.units})
        for name in fabrics_named(spec, raw):
            project = add_fabric(project, name)
        book = Workbook(host, add_tab(project, spec.name, spec.name, raw))
    result = book.results[book.project.tabs[0].key]
    if result.answer is None:
        for trouble in result.troubles:
            complain(f"{spec.name}: {result.said(trouble)}")
            if trouble.traceback:  # for who wrote it: a fault has no other place to be read
                complain(trouble.traceback)
    if said.form == "json":
        body = {"calculator": spec.name, **result_json(result)}
        body["cautions"] += result.reasons  # why a found is null
        print(dump(body), end="")
    elif result.answer is not None:
        look = Look(ascii=not can_draw(sys.stdout.encoding)) if said.picture else None
        print(print_text(book, book.project.tabs, title=False, look=look), end="")
        if said.picture and not result.answer.picture:
            complain(f"{spec.name} answers without a picture.")
    return Exit.DONE if result.answer is not None else Exit.CANNOT


def read_givens(spec: CalculatorSpec, words: list[str]) -> dict[str, Any]:
    """`name=value` words as a tab's givens: raw values as a project file would hold them."""
    raw: dict[str, Any] = {}
    example = f"{spec.givens[0].name}=…" if spec.givens else "nothing: it takes no givens"
    for word in words:
        name, equals, value = word.partition("=")
        if not equals:
            raise BadCall(f"{word!r} is no name=value. Write, say, {example}.")
        head, *path = name.strip().split(".")
        given = spec.given(head)
        if given is None:
            raise BadCall(f"{spec.name} has no given {head!r}. {near(head, [g.name for g in spec.givens])}")
        if given.kind == "rows":
            _put_cell(raw.setdefault(head, []), spec, name, path, value)
        elif path:
            raise BadCall(f"{name!r}: {head} has no rows. Write {head}=….")
        elif head in raw:
            raise BadCall(f"{head} is given twice. Leave one of them out.")
        else:
            raw[head] = _raw(name, given.kind, value)
    return raw


def _put_cell(
    rows: list[dict[str, Any]], spec: CalculatorSpec, name: str, path: list[str], value: str
) -> None:
    given = spec.given(name.split(".")[0])
    columns = {c.name: c for c in given.columns} if given else {}
    if len(path) != 2 or not re.fullmatch(r"[0-9]{1,4}", path[0]) or not 1 <= int(path[0]) <= MOST_ROWS:
        raise BadCall(
            f"{name!r}: say which row and column, as {name.split('.')[0]}.1.{next(iter(columns))}=…."
        )
    if path[1] not in columns:
        raise BadCall(f"{name!r}: there is no column {path[1]!r}. {near(path[1], columns)}")
    while len(rows) < int(path[0]):
        rows.append({})
    row = rows[int(path[0]) - 1]
    if path[1] in row:
        raise BadCall(f"{name} is given twice. Leave one of them out.")
    row[path[1]] = _raw(name, columns[path[1]].kind, value)


def _raw(name: str, kind: str, value: str) -> Any:
    """The command line knows texts only; yes and no are what a file writes true and false."""
    if kind != "yes_no" or not value.strip():
        return value
    try:
        return KINDS["yes_no"].read(value, Notation())
    except NotationError as error:
        raise BadCall(f"{name}: {error}") from None


def fabrics_named(spec: CalculatorSpec, raw: dict[str, Any]) -> list[str]:
    """The fabrics that the call names: without a project, any name will do."""
    names: dict[str, str] = {}
    for given in spec.givens:
        if given.kind == "fabric" and raw.get(given.name):
            names.setdefault(raw[given.name].strip().casefold(), raw[given.name])
        for column in given.columns:
            for row in raw.get(given.name, ()):
                if column.kind == "fabric" and row.get(column.name):
                    names.setdefault(row[column.name].strip().casefold(), row[column.name])
    return list(names.values())
