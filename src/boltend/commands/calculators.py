"""`boltend calculators [NAME]`: what there is, and what one takes and finds."""

import argparse
import textwrap
from collections.abc import Iterator, Mapping, Sequence

from boltend.commands.exits import BadCall, Exit, complain
from boltend.core.contract import CalculatorSpec, GivenSpec
from boltend.core.host import Host
from boltend.core.report.json import dump, schema_json


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "calculators",
        help="list the calculators, or tell all of one",
        description="List the calculators and the questions that they answer, "
        "or tell what one takes and finds.",
    )
    parser.add_argument("name", nargs="?", metavar="NAME", help="tell all of this one")
    parser.add_argument(
        "--as", dest="form", choices=("text", "json"), default="text", help="the form (default: text)"
    )
    parser.set_defaults(do=calculators)


def calculators(said: argparse.Namespace) -> Exit:
    """List the calculators, or one."""
    with Host.load() as host:
        specs = host.specs
        for plugin in host.plugins:
            if plugin.error is not None:
                complain(f"plugin {plugin.name}: {plugin.told}")
        if said.name is None:
            return _list(specs, said.form)
        spec = host.spec(said.name)
        if spec is None:
            why, way_out = host.why_absent(said.name)
            raise BadCall(f"{why} {way_out}".strip())
    rows = {name: list(table.rows) for name, table in host.plugins.tables.items()}
    print(dump(schema_json(spec)) if said.form == "json" else "\n".join(_tell(spec, rows)) + "\n", end="")
    return Exit.DONE


def _list(specs: dict[str, CalculatorSpec], form: str) -> Exit:
    if form == "json":
        print(
            dump([{"calculator": s.name, "asks": s.asks, "plugin": s.plugin} for s in specs.values()]), end=""
        )
        return Exit.DONE
    widest = max((len(name) for name in specs), default=0)
    for name, spec in specs.items():
        print(f"{name:<{widest}}  {spec.asks}")
    return Exit.DONE


def _tell(spec: CalculatorSpec, rows: Mapping[str, Sequence[str]]) -> Iterator[str]:
    yield from (f"{spec.name}: {spec.asks}", "", "Given")
    for given in spec.givens:
        yield from _tell_given(given, "  ", rows)
    yield from ("", "Found")
    for found in spec.founds:
        rounding = f", {found.direction} to the {found.step.describe()}" if found.step else ""
        yield f"  {found.name}  {found.kind.replace('_', ' ')}{rounding}  {found.label}"
    if spec.help:
        yield from ("", *spec.help.splitlines())


def _tell_given(given: GivenSpec, indent: str, rows: Mapping[str, Sequence[str]]) -> Iterator[str]:
    yield f"{indent}{given.name}  {_kind(given)}  {given.label}"
    names = rows.get(given.table or "", ())
    below = " " * len(indent) + "    "
    meanings = [f"{option}: {words}" for option, words in given.meanings]
    for text in (given.help, f"One of: {'; '.join(names)}." if names else "", *meanings):
        yield from textwrap.wrap(text, 78, initial_indent=below, subsequent_indent=below)
    for column in given.columns:
        yield from _tell_given(column, indent + f"  {given.name}.1.", rows)


def _kind(given: GivenSpec) -> str:
    parts = ["one of " + ", ".join(given.options) if given.options else given.kind.replace("_", " ")]
    if given.setting:
        parts.append("the project's unless given")
    elif given.default is not None:
        parts.append(f"default {given.default}")
    elif given.optional:
        parts.append(f"may be left out: {given.empty_at(0)}" if given.empty else "may be left out")
    if given.least:
        parts.append(f"at least {given.least}")
    if given.most:
        parts.append(f"at most {given.most}")
    return "(" + "; ".join(parts) + ")"
