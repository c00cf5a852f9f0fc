"""The plugins that were found, what each brings, and what went wrong with it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import Literal

from boltend.core.contract import CalculatorSpec, OwnRows, Start, Table
from boltend.core.host.calls import Fault
from boltend.core.host.invoke import Prepared
from boltend.core.host.messages import PluginRef

State = Literal["on", "off", "faulty", "failed"]
Standing = Literal["on", "in part", "off", "refused", "broken"]


@dataclass(frozen=True)
class LoadedPlugin:
    """One plugin: where it comes from, what it brings, and every fault in it.

    `left_out` maps the name of each calculator that it may not bring to the reason. `contract` is the number
    that its module says; None where it was not asked, or says none. `awaited`: it is still being looked at.
    """

    name: str
    value: str
    distribution: str
    version: str
    built_in: bool
    off: bool = False
    calculators: tuple[CalculatorSpec, ...] = ()
    tables: tuple[Table, ...] = ()
    starts: tuple[Start, ...] = ()
    faults: tuple[Fault, ...] = ()
    left_out: Mapping[str, str] = field(default_factory=dict)
    contract: int | None = None
    awaited: bool = False

    @property
    def ref(self) -> PluginRef:
        """Where its code is found."""
        return PluginRef(self.name, self.value)

    @property
    def home(self) -> str:
        """Whose worker runs it: plugins of one distribution share one, and no others do."""
        return self.distribution or self.name

    @property
    def state(self) -> State:
        """`on`, `off`, `faulty` (a part of it is left out) or `failed` (nothing of it is left)."""
        if self.off:
            return "off"
        if not self.faults:
            return "on"
        return "faulty" if self.calculators or self.tables or self.starts else "failed"

    @property
    def standing(self) -> Standing:
        """The state in words for a person; what is left of nothing is `refused` where nothing broke."""
        if self.state == "failed":
            return "refused" if all(fault.refused for fault in self.faults) else "broken"
        return "in part" if self.state == "faulty" else "off" if self.off else "on"

    @property
    def error(self) -> Fault | None:
        """The first fault, or None."""
        return self.faults[0] if self.faults else None

    @property
    def told(self) -> str:
        """Its first fault, to stand behind its name: a calculator that is named alike is not named again."""
        why = self.error.why if self.error is not None else ""
        for after in (", ", ": "):
            why = why.removeprefix(self.name + after)
        return why

    @property
    def origin(self) -> str:
        """Words for where it comes from: `the plugin loom (of loom-tools 1.2)`."""
        of = f" (of {self.distribution} {self.version}".rstrip() + ")" if self.distribution else ""
        return f"the plugin {self.name}{of}"


@dataclass(frozen=True)
class Plugins:
    """All plugins, built-in ones first, then by name; iterating gives each `LoadedPlugin`.

    `specs`, `tables` and `starts` are what all of them together bring, in the order of the plugins and,
    within one, in the order in which it lists them. `prepared` holds the built-in calculators' functions.
    `own_rows` are what the person adds to the tables. `problems` are faults that belong to no plugin: a
    distribution or a config file that cannot be read.
    """

    all: tuple[LoadedPlugin, ...] = ()
    prepared: Mapping[str, Prepared] = field(default_factory=dict)
    problems: tuple[Fault, ...] = ()
    remembered: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    own_rows: OwnRows = field(default_factory=dict)
    specs: dict[str, CalculatorSpec] = field(init=False)
    tables: dict[str, Table] = field(init=False)
    starts: tuple[Start, ...] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "specs", {c.name: c for p in self.all for c in p.calculators})
        object.__setattr__(self, "tables", self._joined_tables())
        object.__setattr__(self, "starts", tuple(s for p in self.all for s in p.starts))

    def _joined_tables(self) -> dict[str, Table]:
        """Each table with the rows that other plugins, and then the person, add to it."""
        tables = {t.name: t for p in self.all for t in p.tables if not t.adds}
        added = [(p.origin, t.name, t.rows) for p in self.all for t in p.tables if t.adds]
        own = [("your own rows", name, rows) for name, rows in self.own_rows.items()]
        problems: list[Fault] = []
        for whose, name, rows in [*added, *own]:
            if name not in tables:
                there = ", ".join(tables)
                problems.append(Fault(f"{whose}: there is no table {name!r:.60}; there are {there}."))
                continue
            tables[name], wrong = tables[name].with_rows(rows)
            problems += [Fault(f"{whose}: {what}") for what in wrong]
        object.__setattr__(self, "problems", (*self.problems, *problems))
        return tables

    def __iter__(self) -> Iterator[LoadedPlugin]:
        return iter(self.all)

    def __len__(self) -> int:
        return len(self.all)

    def named(self, name: str) -> LoadedPlugin | None:
        """The plugin of this name, or None; where two bear it, the one that was not left out."""
        alike = [p for p in self.all if p.name == name]
        return min(alike, key=lambda p: p.state == "failed", default=None)

    def why_absent(self, calculator: str) -> tuple[str, str]:
        """Why a calculator is not there, and the way out."""
        for name, brought in self.remembered.items():
            if calculator in brought:
                return f"its plugin {name} is switched off.", f"`boltend plugins --on {name}` switches it on."
        for plugin in self.all:
            if calculator in plugin.left_out:
                way_out = f"`boltend plugins --off {plugin.name}` leaves that plugin out."
                return plugin.left_out[calculator], way_out
        awaited = [p.name for p in self.all if p.awaited]
        if awaited:
            who = ", ".join(awaited)
            return f"it may come with {who}, which is still being read.", "A moment; nothing need be done."
        return self._unknown(calculator)

    def _unknown(self, calculator: str) -> tuple[str, str]:
        near = get_close_matches(calculator, self.specs, 1)
        named = self.named(calculator)  # a plugin with one calculator often bears its name
        guess = near and (named is None or named.error is None)
        ways = [f"Did you mean {near[0]}?"] if guess else []
        off = [p.name for p in self.all if p.off]
        if off:
            ways.append(f"Switched off: {', '.join(off)}; `boltend plugins --on NAME` switches one on.")
        failed = [f"{p.name} ({p.told.rstrip('.')})" for p in self.all if p.error and not p.off]
        if failed:
            ways.append(f"Not whole: {', '.join(failed)}. `boltend plugins` tells all of it.")
        if not ways:
            ways.append("`boltend calculators` lists those that are there.")
        return f"no plugin brings a calculator {calculator!r:.60}.", " ".join(ways)
