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
    return Loading(entry_points, describe_timeout).all()


class Loading:
    """The plugins that were found: the built-in ones still to be opened, the strangers to be described."""

    def __init__(self, entry_points: "Iterable[EntryPoint] | None", describe_timeout: float) -> None:
        self._timeout = describe_timeout
        self._problems: list[Fault] = []
        found = list(map(described, entry_points)) if entry_points is not None else installed(self._problems)
        try:
            self._off = switched_off()
        except ConfigError as error:
            self._problems.append(Fault(str(error)))
            self._off = {}
        plugins = sorted(
            (_named(e, self._off) for e in found), key=lambda p: (not p.built_in, p.name.casefold(), p.name)
        )
        self._prepared: dict[str, Prepared] = {}
        self._found = [_to_be_read(p) for p in _without_name_clashes(plugins)]
        self._rows = own_rows(self._problems)
        self._stopped = False
        self._worker = Worker()

    @property
    def strangers(self) -> bool:
        """Whether any plugin is still to be described."""
        return any(p.awaited and not p.built_in for p in self._found)

    def one_of_ours(self, name: str) -> Plugins:
        """The built-in plugins opened so far, and the one of this name."""
        self._found = [self._opened(p) if p.name == name else p for p in self._found]
        return self._plugins([p for p in self._found if p.built_in and not p.awaited])

    def ours(self) -> Plugins:
        """What is there at once: the strangers are awaited."""
        self._found = [self._opened(p) for p in self._found]
        return self._plugins(self._found)

    def all(self) -> Plugins:
        """Everything. A stranger's plugin may take as long as its import, up to the timeout."""
        try:
            self._found = [self._opened(p) for p in self._found]
            return self._plugins([self._described(p) if p.awaited else p for p in self._found])
        finally:
            self._worker.close()

    def stop(self) -> None:
        """Nobody needs the strangers any more. Any thread may call this."""
        self._stopped = True
        self._worker.end()

    def _plugins(self, loaded: Sequence[LoadedPlugin]) -> Plugins:
        remembered = [name for brought in self._off.values() for name in brought]
        return Plugins(
            tuple(without_clashes(loaded, remembered)),
            self._prepared,
            tuple(self._problems),
            {p.name: self._off[p.name] for p in loaded if p.off},
            self._rows,
        )

    def _opened(self, plugin: LoadedPlugin) -> LoadedPlugin:
        if not (plugin.built_in and plugin.awaited):
            return plugin
        opened = open_plugin(plugin.ref, deep=False)
        self._prepared.update(opened.prepared)
        return replace(_filled(plugin, [c.spec for c in opened.calculators], opened), awaited=False)

    def _described(self, plugin: LoadedPlugin) -> LoadedPlugin:
        if self._stopped:
            return plugin
        brought = self._worker.describe(plugin.ref, self._timeout)
        return replace(_filled(plugin, brought.calculators, brought), awaited=False)


def _named(found: Installed, off: Iterable[str]) -> LoadedPlugin:
    return LoadedPlugin(
        name=found.name,
        value=found.value,
        distribution=found.distribution,
        version=found.version,
        built_in=normal(found.distribution) == "boltend",
        off=found.name in off,
    )


def _to_be_read(plugin: LoadedPlugin) -> LoadedPlugin:
    return plugin if plugin.off or plugin.faults else replace(plugin, awaited=True)


def _without_name_clashes(plugins: Sequence[LoadedPlugin]) -> list[LoadedPlugin]:
    """A plugin is switched off by its name, so two may not share one."""
    lost = clashes(plugins, lambda p: [p.name], "plugin")
    named = []
    for place, plugin in enumerate(plugins):
        why = tuple(Fault(reason, refused=True) for reason in lost.get(place, {}).values())
        named.append(replace(plugin, faults=why))
    return named


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
