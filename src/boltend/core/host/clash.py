"""When two plugins bring one name: a built-in one wins, two of a kind both stay out, and each hears why."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from boltend.core.contract import CalculatorSpec, GivenSpec, Start, Table
from boltend.core.host.calls import Fault
from boltend.core.host.plugins import LoadedPlugin
from boltend.core.host.soundness import misnamed


def without_clashes(plugins: Sequence[LoadedPlugin], remembered: Iterable[str]) -> list[LoadedPlugin]:
    """The plugins, each without what it may not bring. `remembered`: calculators that are switched off."""
    settled = _settle_tables(_settle_calculators(plugins))
    settled = [_with_known_tables(p, settled) for p in settled]
    known = {c.name: c for p in settled for c in p.calculators}
    return [_with_known_starts(p, known, set(remembered)) for p in settled]


def clashes(
    plugins: Sequence[LoadedPlugin], names: Callable[[LoadedPlugin], Iterable[str]], what: str
) -> dict[int, dict[str, str]]:
    """For each plugin (by its place) the names that it may not use, each with the reason."""
    claims: dict[str, list[int]] = {}
    for place, plugin in enumerate(plugins):
        for name in names(plugin):
            claims.setdefault(name, []).append(place)
    lost: dict[int, dict[str, str]] = {}
    for name, places in claims.items():
        for place in places if len(places) > 1 else ():
            why = _why_lost(name, what, plugins, places, place)
            if why:
                lost.setdefault(place, {})[name] = why
    return lost


def _why_lost(name: str, what: str, plugins: Sequence[LoadedPlugin], places: list[int], place: int) -> str:
    built_in = [p for p in places if plugins[p].built_in]
    if len(built_in) == 1:
        if place == built_in[0]:
            return ""
        return f"Boltend brings a {what} {name} of its own, so this one stays out. Give it another name."
    others = [plugins[p].origin for p in dict.fromkeys(places) if p != place]
    if not others:
        return f"it brings two {what}s named {name}, so both stay out. Give one another name."
    return f"{' and '.join(others)} brings a {what} {name} too, so both stay out. Give one another name."


def _settle_calculators(plugins: Sequence[LoadedPlugin]) -> list[LoadedPlugin]:
    lost = clashes(plugins, lambda p: [c.name for c in p.calculators], "calculator")
    return [_without_calculators(p, lost.get(place, {})) for place, p in enumerate(plugins)]


def _without_calculators(plugin: LoadedPlugin, lost: dict[str, str]) -> LoadedPlugin:
    if not lost:
        return plugin
    return replace(
        plugin,
        calculators=tuple(c for c in plugin.calculators if c.name not in lost),
        faults=plugin.faults
        + tuple(Fault(f"calculator {name}: {why}", refused=True) for name, why in lost.items()),
        left_out={**plugin.left_out, **{n: f"{plugin.origin}: {why}" for n, why in lost.items()}},
    )


def _settle_tables(plugins: Sequence[LoadedPlugin]) -> list[LoadedPlugin]:
    lost = clashes(plugins, lambda p: [t.name for t in p.tables if not t.adds], "table")
    return [_without_tables(p, lost.get(place, {})) for place, p in enumerate(plugins)]


def _without_tables(plugin: LoadedPlugin, lost: dict[str, str]) -> LoadedPlugin:
    """Without the tables, and without the calculators that meant them: another's table is not the same."""
    if not lost:
        return plugin
    faults = tuple(Fault(f"table {name}: {why}", refused=True) for name, why in lost.items())
    kept: tuple[Table, ...] = tuple(t for t in plugin.tables if t.adds or t.name not in lost)
    left = replace(plugin, tables=kept, faults=plugin.faults + faults)
    needs = {c.name: name for c in plugin.calculators for name in tables_of(c) if name in lost}
    return _without_calculators(left, {c: f"its table {t} stays out." for c, t in needs.items()})


def _with_known_tables(plugin: LoadedPlugin, plugins: Sequence[LoadedPlugin]) -> LoadedPlugin:
    known = {t.name for p in plugins for t in p.tables if not t.adds}
    needs = {c.name: name for c in plugin.calculators for name in tables_of(c) if name not in known}
    return _without_calculators(plugin, {c: f"no plugin brings its table {t}." for c, t in needs.items()})


def tables_of(spec: CalculatorSpec) -> list[str]:
    """The tables that a calculator's givens, and the columns of its rows, choose from."""
    values: list[GivenSpec] = [*spec.givens, *(c for g in spec.givens for c in g.columns)]
    return [g.table for g in values if g.table is not None]


def _with_known_starts(plugin: LoadedPlugin, known: dict[str, CalculatorSpec], off: set[str]) -> LoadedPlugin:
    kept: list[Start] = []
    faults: list[Fault] = []
    for start in plugin.starts:
        missing = [calculator for _, calculator, _ in start.tabs if calculator not in known]
        slip = None if missing else misnamed(start, known)
        if slip is not None:
            faults.append(Fault(f"start {start.question!r:.60}, {slip}"))
        elif not missing:
            kept.append(start)
        elif not off.intersection(missing):  # of one that is switched off, nobody needs to be told
            faults.append(Fault(f"start {start.question!r:.60}: nobody brings its {missing[0]!r:.60}."))
    if len(kept) == len(plugin.starts):
        return plugin
    return replace(plugin, starts=tuple(kept), faults=plugin.faults + tuple(faults))
