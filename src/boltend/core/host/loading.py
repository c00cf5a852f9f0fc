"""Find the plugins and load them, one at a time: whatever is wrong with one is kept, and the others go on.

Built-in plugins are imported in this process. A stranger's is imported in a worker, which sends back a
description in plain data: its code never runs in the main process.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from boltend.core.contract import CalculatorSpec
from boltend.core.host.calls import Fault
from boltend.core.host.clash import clashes, without_clashes
from boltend.core.host.installed import Installed, described, installed, normal
from boltend.core.host.invoke import Prepared
from boltend.core.host.messages import Described
from boltend.core.host.off import ConfigError, switched_off
from boltend.core.host.opening import Opened, open_plugin
from boltend.core.host.own_rows import own_rows
from boltend.core.host.plugins import LoadedPlugin, Plugins
from boltend.core.host.worker import Worker

if TYPE_CHECKING:
    from importlib.metadata import EntryPoint

DESCRIBE_TIMEOUT = 10.0
"""Seconds that a stranger's plugin may take to be imported and described."""


def load_plugins(
    entry_points: "Iterable[EntryPoint] | None" = None, *, describe_timeout: float = DESCRIBE_TIMEOUT
) -> Plugins:
    """Load every plugin that is installed, or those of the given entry points. Never raises for a plugin."""
    problems: list[Fault] = []
    found = list(map(described, entry_points)) if entry_points is not None else installed(problems)
    try:
        off = switched_off()
    except ConfigError as error:
        problems.append(Fault(str(error)))
        off = {}
    plugins = sorted(
        (_named(e, off) for e in found), key=lambda p: (not p.built_in, p.name.casefold(), p.name)
    )
    plugins = _without_name_clashes(plugins)
    prepared: dict[str, Prepared] = {}
    loaded = _load_each(plugins, prepared, describe_timeout)
    rows = own_rows(problems)
    return Plugins(
        tuple(without_clashes(loaded, (name for brought in off.values() for name in brought))),
        prepared,
        tuple(problems),
        {p.name: off[p.name] for p in plugins if p.off},
        rows,
    )


def _named(found: Installed, off: Iterable[str]) -> LoadedPlugin:
    return LoadedPlugin(
        name=found.name,
        value=found.value,
        distribution=found.distribution,
        version=found.version,
        built_in=normal(found.distribution) == "boltend",
        off=found.name in off,
    )


def _without_name_clashes(plugins: Sequence[LoadedPlugin]) -> list[LoadedPlugin]:
    """A plugin is switched off by its name, so two may not share one."""
    lost = clashes(plugins, lambda p: [p.name], "plugin")
    named = []
    for place, plugin in enumerate(plugins):
        why = tuple(Fault(reason, refused=True) for reason in lost.get(place, {}).values())
        named.append(replace(plugin, faults=why))
    return named


def _load_each(
    plugins: Sequence[LoadedPlugin], prepared: dict[str, Prepared], timeout: float
) -> list[LoadedPlugin]:
    worker = Worker()
    try:
        return [p if p.off or p.faults else _load(p, prepared, worker, timeout) for p in plugins]
    finally:
        worker.close()


def _load(
    plugin: LoadedPlugin, prepared: dict[str, Prepared], worker: Worker, timeout: float
) -> LoadedPlugin:
    if not plugin.built_in:
        described = worker.describe(plugin.ref, timeout)
        return _filled(plugin, described.calculators, described)
    opened = open_plugin(plugin.ref, deep=False)
    prepared.update(opened.prepared)
    return _filled(plugin, [c.spec for c in opened.calculators], opened)


def _filled(
    plugin: LoadedPlugin, specs: Iterable[CalculatorSpec], brought: Opened | Described
) -> LoadedPlugin:
    named = (
        replace(
            spec,
            plugin=plugin.name,
            distribution=plugin.distribution,
            built_in=plugin.built_in,
            by_name={},
        )
        for spec in specs
    )
    return replace(
        plugin,
        calculators=tuple(named),
        tables=tuple(brought.tables),
        starts=tuple(brought.starts),
        faults=tuple(brought.faults),
        contract=brought.contract,
    )
