"""Find the plugins and load them, one at a time: whatever is wrong with one is kept, and the others go on.

Built-in plugins are imported in this process. A stranger's is imported in a worker, which sends back a
description in plain data: its code never runs in the main process.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from importlib.metadata import Distribution, EntryPoint, distributions

from boltend.core.contract import CalculatorSpec
from boltend.core.host.calls import Fault
from boltend.core.host.clash import clashes, without_clashes
from boltend.core.host.faults import fault_of
from boltend.core.host.invoke import Prepared
from boltend.core.host.messages import Described
from boltend.core.host.off import ConfigError, switched_off
from boltend.core.host.opening import GROUP, Opened, open_plugin
from boltend.core.host.own_rows import own_rows
from boltend.core.host.plugins import LoadedPlugin, Plugins
from boltend.core.host.worker import Worker

DESCRIBE_TIMEOUT = 10.0
"""Seconds that a stranger's plugin may take to be imported and described."""


def load_plugins(
    entry_points: Iterable[EntryPoint] | None = None, *, describe_timeout: float = DESCRIBE_TIMEOUT
) -> Plugins:
    """Load every plugin that is installed, or those of the given entry points. Never raises for a plugin."""
    problems: list[Fault] = []
    found = list(entry_points) if entry_points is not None else _installed(problems)
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


def _installed(problems: list[Fault]) -> list[EntryPoint]:
    """The entry points of all distributions, read one distribution at a time.

    `importlib.metadata.entry_points()` raises for all where one distribution's file is damaged.
    """
    found: list[EntryPoint] = []
    seen: set[str] = set()
    for distribution in distributions():
        try:
            found += _of(distribution, seen)
        except Exception as error:
            problems.append(fault_of(error, f"{_place(distribution)} cannot be read:"))
    return found


def _of(distribution: Distribution, seen: set[str]) -> list[EntryPoint]:
    text = distribution.read_text("entry_points.txt")
    if not text or GROUP not in text:  # before the metadata is read, which takes far longer
        return []
    name = _normal(distribution.metadata["Name"] or "")
    if name in seen:  # the same distribution further down the path is hidden by this one
        return []
    seen.add(name)
    return list(distribution.entry_points.select(group=GROUP))


def _place(distribution: Distribution) -> str:
    return str(getattr(distribution, "_path", "an installed distribution"))


def _normal(name: str) -> str:
    return name.lower().replace("_", "-").replace(".", "-")


def _named(entry_point: EntryPoint, off: Iterable[str]) -> LoadedPlugin:
    name = version = ""
    distribution = entry_point.dist
    if distribution is not None:
        metadata = distribution.metadata  # parsed anew each time that it is asked for
        name, version = str(metadata["Name"] or ""), str(metadata["Version"] or "")
    return LoadedPlugin(
        name=entry_point.name,
        value=entry_point.value,
        distribution=name,
        version=version,
        built_in=_normal(name) == "boltend",
        off=entry_point.name in off,
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
