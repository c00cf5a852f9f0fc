"""The plugins that are installed, in words and as JSON: which, from where, in what state, and why."""

from collections.abc import Iterable, Iterator
from typing import Any

from boltend.core.contract import CONTRACT
from boltend.core.host import LoadedPlugin, Plugins
from boltend.core.report.text import wrapped


def plugin_lines(plugins: Plugins) -> list[str]:
    """A plugin on a line, what it brings and what is wrong with it below; tracebacks at the end, whole."""
    names = max((len(each.name) for each in plugins), default=0)
    lines: list[str] = []
    for each in plugins:
        where = " ".join(part for part in (each.distribution, each.version) if part) or "(no distribution)"
        contract = "" if each.contract is None else f"  contract {each.contract}"
        lines.append(f"{each.name:<{names}}  {each.standing:<7}  {where}{contract}")
        for text in _below(each, plugins):
            lines += wrapped(text, "    ", "      ")
    lines += (f"! {fault.why}" for fault in plugins.problems)
    lines += _tracebacks(plugins)
    return lines


def _below(each: LoadedPlugin, plugins: Plugins) -> Iterator[str]:
    brought = _brought(each, plugins)
    if brought:
        yield ", ".join(brought)
    if each.tables:
        yield "tables: " + ", ".join(table.name for table in each.tables)
    if each.starts:
        yield "starts: " + " · ".join(start.question for start in each.starts)
    yield from (f"! {fault.why}" for fault in each.faults)
    if each.off:
        yield f"`boltend plugins --on {each.name}` switches it on."


def _brought(each: LoadedPlugin, plugins: Plugins) -> tuple[str, ...]:
    """Its calculators; of one that is switched off, those that it brought when it was."""
    if each.off:
        return tuple(plugins.remembered.get(each.name, ()))
    return tuple(spec.name for spec in each.calculators)


def _tracebacks(plugins: Iterable[LoadedPlugin]) -> Iterator[str]:
    """Not indented: to be copied as Python wrote them."""
    for each in plugins:
        for fault in each.faults:
            if fault.traceback:
                yield from ("", f"Traceback of {each.name}: {fault.why}", *fault.traceback.splitlines())


def plugins_json(plugins: Plugins) -> dict[str, Any]:
    """The same as plain data. `contract` of a plugin is null where it was not asked, or says none."""
    return {
        "contract": CONTRACT,
        "plugins": [_json(each, plugins) for each in plugins],
        "problems": [fault.why for fault in plugins.problems],
    }


def _json(each: LoadedPlugin, plugins: Plugins) -> dict[str, Any]:
    return {
        "name": each.name,
        "module": each.value,
        "distribution": each.distribution or None,
        "version": each.version or None,
        "built_in": each.built_in,
        "contract": each.contract,
        "state": each.standing,
        "calculators": list(_brought(each, plugins)),
        "tables": [table.name for table in each.tables],
        "starts": [start.question for start in each.starts],
        "faults": [{"why": fault.why, "traceback": fault.traceback or None} for fault in each.faults],
    }
