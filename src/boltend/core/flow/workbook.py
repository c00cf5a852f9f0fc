"""A project being worked out: one change runs through all that it reaches, and through no more."""

import heapq
from collections.abc import Iterable
from typing import Any

from boltend.core.contract import CalculatorSpec, FoundSpec, Table
from boltend.core.flow.basis import Basis, read_basis
from boltend.core.flow.filling import Filled, fill
from boltend.core.flow.givens import LinkSlot, Prepared
from boltend.core.flow.graph import Graph, build
from boltend.core.flow.links import Link
from boltend.core.flow.nodes import Node, Wire, follow_links, read_node, same_links
from boltend.core.flow.results import Result, State, Trouble
from boltend.core.host.calls import Call, Outcome, Runner
from boltend.core.host.settle import WrongAnswer, settle
from boltend.core.project.model import Project, Tab

MOST_OF_A_CIRCLE = 12
"""Tabs that the path of a circle names."""


class Workbook:
    """A project and its results, kept in step.

    `update` takes an edited project (made by `boltend.core.project.edits`); `results` maps each tab's key
    to its result. Where the runner answers later, a tab is *working* until `arrived` brings the outcome.

    Who waits for one tab may ask for it first: then those behind it in their order keep their former results
    until `finish`.
    """

    def __init__(self, runner: Runner, project: Project) -> None:
        self.runner = runner
        self.project = Project()
        self.basis = Basis()
        self.graph = Graph()
        self.results: dict[int, Result] = {}
        self._nodes: dict[int, Node] = {}
        self._tables: dict[str, Table | None] = {}
        self._names: dict[int, str] = {}
        self._running: dict[int, int] = {}
        self._tickets = 0
        self._left: set[int] = set()
        """Tabs that an edit may have reached and that are not worked out yet."""
        self.update(project)

    def result(self, name_or_key: str | int) -> Result:
        """The result of one tab. Raises KeyError where there is none."""
        return self.results[self.project.tab(name_or_key).key]

    def prepared(self, key: int) -> Prepared | None:
        """What a tab says, read against its calculator; None where the calculator is absent."""
        return self._nodes[key].prepared

    def table(self, name: str) -> Table | None:
        """A table with the rows that the project adds to it, or None where nobody brings it."""
        if name not in self._tables:
            table, own = self.runner.table(name), self.basis.rows.get(name)
            self._tables[name] = table.with_rows(own)[0] if table is not None and own else table
        return self._tables[name]

    def row_troubles(self) -> list[str]:
        """What is wrong with the rows that the project adds to tables; such rows are left out."""
        troubles = list(self.basis.row_troubles)
        for name, rows in self.basis.rows.items():
            table = self.runner.table(name)
            if table is None:
                troubles.append(f"there is no table {name!r:.60} to add rows to.")
            else:
                troubles += table.with_rows(rows)[1]
        return troubles

    def users(self, key: int, found: str) -> list[tuple[int, str]]:
        """Who uses a found: (tab key, given)."""
        return [
            (other, wire.slot.given)
            for other in self.graph.feeds.get(key, ())
            for wire in self._nodes[other].wires
            if wire.source == key and wire.found.name == found
        ]

    def sources(self, key: int) -> list[tuple[LinkSlot, int, FoundSpec]]:
        """What a tab's links bring: (where it goes, from which tab, which found), in the givens' order."""
        return [(wire.slot, wire.source, wire.found) for wire in self._nodes[key].wires]

    def label_of(self, link: Link) -> str:
        """What a link takes, by its label; by the name that the link says where no such found is known."""
        tab = self.project.find_tab(link.tab)
        spec = self.runner.spec(tab.calculator) if tab is not None else None
        found = spec.found(link.take) if spec is not None else None
        return link.take if found is None else found.label

    def update(self, project: Project, first: int | None = None) -> set[int]:
        """Work out what an edit reaches; the keys of the tabs whose result may have changed.

        With `first` it ends with that tab, and leaves those behind it for `finish`.
        """
        before, self.project = self.project, project
        # Two hundred tabs are walked through once: this is most of what an edit costs beside its own tab.
        changed = [(old, new) for old, new in zip(before.tabs, project.tabs, strict=False) if old is not new]
        reordered = _reordered(before, project, changed)
        if _other_basis(before, project):
            self._read_basis()
            dirty = list(project.tabs)
        elif reordered or not self._nodes:
            nodes = self._nodes
            dirty = [t for t in project.tabs if (n := nodes.get(t.key)) is None or n.tab is not t]
        else:
            dirty = [new for _, new in changed]
        gone = self._forget_all_but(project) if reordered else set()
        # Both at once: a name is noted for every tab that changed, and of two tabs alike the first is meant.
        elsewhere = any((self._renamed(dirty), reordered))
        rewired = self._read(dirty, everywhere=elsewhere)
        if rewired or gone:
            self.graph = build({key: [w.source for w in node.wires] for key, node in self._nodes.items()})
        if rewired or elsewhere:
            # A circle that the edit broke may lie anywhere, and a reason may name a tab at any distance. (A
            # circle that it made reaches its tabs by itself: the edited one was worked out, or they waited.)
            rewired |= {key for key, result in self.results.items() if result.state in ("cannot", "waiting")}
        return self._work_out(rewired.union(tab.key for tab in dirty), first) | gone

    @property
    def unfinished(self) -> bool:
        """Whether an edit may have reached tabs that are not worked out yet."""
        return bool(self._left)

    def finish(self, most: int | None = None) -> set[int]:
        """Work out what was left, or so many tabs of it; the keys of the tabs that may have changed."""
        return self._work_out((), most=most) if self._left else set()

    def arrived(self, ticket: int, outcome: Outcome, first: int | None = None) -> set[int]:
        """Take an outcome that came later; the keys of the tabs whose result may have changed.

        `first` is that of `update`.
        """
        key = self._running.pop(ticket, None)
        node = self._nodes.get(key) if key is not None else None
        if key is None or node is None or node.ticket != ticket or node.ran is None:
            return set()
        node.ticket = None
        filled = Filled(node.ran[0], node.ran[1], self.results[key].notes)
        changed = self._keep(key, self._settled(key, node, filled, outcome))
        return {key} | (self._work_out(self.graph.feeds.get(key, ()), first) if changed else set())

    def refresh(self) -> set[int]:
        """Work everything out anew: a plugin came, went or was switched off."""
        for node in self._nodes.values():
            self._drop(node)
        self._nodes = {}
        self.graph = Graph()
        self._tables = {}
        return self.update(self.project)

    # Reading what an edit touched -----------------------------------------------------------------

    def _read_basis(self) -> None:
        rows, self.basis = self.basis.rows, read_basis(self.project)
        if self.basis.rows != rows:  # what was worked out rests on the rows, not on their names alone
            self._tables = {}
            for node in self._nodes.values():
                node.ran = None

    def _forget_all_but(self, project: Project) -> set[int]:
        gone = self._nodes.keys() - {tab.key for tab in project.tabs}
        for key in gone:
            self._drop(self._nodes.pop(key))
            self.results.pop(key, None)
            self._names.pop(key, None)
        return gone

    def _renamed(self, dirty: list[Tab]) -> bool:
        """Whether a name or a calculator changed, or a tab is new, so that any link may lead elsewhere."""
        renamed = False
        for tab in dirty:
            self._names[tab.key] = tab.name
            old = self._nodes.get(tab.key)
            renamed |= old is None or (old.tab.name, old.tab.calculator) != (tab.name, tab.calculator)
        return renamed

    def _read(self, dirty: list[Tab], *, everywhere: bool) -> set[int]:
        """Read the dirty tabs anew; the keys of the tabs whose links now lead elsewhere."""
        moved = set()
        for tab in dirty:
            old = self._nodes.get(tab.key)
            before = old.prepared if old is not None and old.basis is self.basis else None
            node = self._nodes[tab.key] = read_node(tab, self.runner, self.table, self.basis, before)
            if old is not None:
                node.wires, node.lost, node.ran, node.ticket = old.wires, old.lost, old.ran, old.ticket
            if old is None or not same_links(old, node):
                moved.add(tab.key)
        return {key for key in (list(self._nodes) if everywhere else moved) if self._rewire(key)}

    def _rewire(self, key: int) -> bool:
        node = self._nodes[key]
        wires, lost = follow_links(node, self.project, self.runner)
        # The found counts too: another calculator's, of the same name, may be of another kind.
        same = [(w.source, w.found) for w in wires] == [(w.source, w.found) for w in node.wires]
        node.wires, node.lost = wires, lost
        return not same or key not in self.graph.position

    # Working out ----------------------------------------------------------------------------------

    def _work_out(self, keys: Iterable[int], first: int | None = None, most: int | None = None) -> set[int]:
        """Work out these tabs, those left before and, in order, whatever their changed founds reach.

        It ends with the tab `first`, or after `most` tabs. What stands behind the first feeds it only on a
        circle, where nothing is worked out.
        """
        position, order, feeds = self.graph.position, self.graph.order, self.graph.feeds
        end = position.get(first, -1) if first is not None else len(order)
        queue = [position[key] for key in self._left.union(keys) if key in position]
        heapq.heapify(queue)
        queued = set(queue)
        seen: set[int] = set()
        while queue and queue[0] <= end and (most is None or len(seen) < most):
            at = heapq.heappop(queue)
            key = order[at]
            seen.add(key)
            if self._keep(key, self._work(key)):
                for fed in feeds[key]:
                    if position[fed] not in queued:  # on a circle nothing is worked out twice
                        heapq.heappush(queue, position[fed])
                        queued.add(position[fed])
        self._left = {order[at] for at in queue}
        return seen

    def _keep(self, key: int, result: Result) -> bool:
        """Keep a result; whether those that it feeds must look again."""
        old = self.results.get(key)
        self.results[key] = result
        return old is None or old.state != result.state or old.found != result.found

    def _work(self, key: int) -> Result:
        node = self._nodes[key]
        hindered = self._hindered(key, node)
        if hindered is not None:
            return self._not_worked_out(key, node, *hindered)
        filled = fill(node, self.results, self._names, self.basis)
        if isinstance(filled, Trouble):
            return self._not_worked_out(key, node, "cannot", (filled,))
        return self._run(key, node, filled)

    def _not_worked_out(self, key: int, node: Node, state: State, troubles: tuple[Trouble, ...]) -> Result:
        self._drop(node)
        node.ran = None
        prepared = node.prepared
        if prepared is None:
            return Result(key, state, None, self.basis.settings, troubles=troubles)
        return Result(
            key, state, prepared.spec, prepared.settings, troubles=troubles, args=prepared.constants
        )

    def _hindered(self, key: int, node: Node) -> tuple[State, tuple[Trouble, ...]] | None:
        """Why a tab cannot be worked out now, its own troubles before those of others."""
        misfits = tuple(self._misfit(wire) for wire in node.wires if wire.fit.misfit)
        if node.troubles or misfits:
            return "cannot", (*node.troubles, *misfits)
        circle = self.graph.circles.get(key)
        if circle is not None:
            few = len(circle) <= MOST_OF_A_CIRCLE
            shown = [f"“{self._names[k]}”" for k in (circle if few else circle[: MOST_OF_A_CIRCLE - 2])]
            path = " ← ".join(shown if few else [*shown, "…", f"“{self._names[key]}”"])
            return "cannot", (
                Trouble(f"its links run in a circle: {path}.", "Type one of these values instead."),
            )
        if node.lost:
            return "waiting", node.lost
        waits = [w for w in node.wires if self.results[w.source].state != "worked out"]
        if not waits:
            return None
        return "waiting", tuple(self._waits(wire) for wire in waits)

    def _misfit(self, wire: Wire) -> Trouble:
        why = f"{wire.slot.place}: “{self._names[wire.source]}” · {wire.found.label}: {wire.fit.misfit}."
        return Trouble(why, "Link to another found, or type the value.", wire.slot.given)

    def _waits(self, wire: Wire) -> Trouble:
        name = self._names[wire.source]
        way_out = "" if self.results[wire.source].state == "working" else f"Put “{name}” right first."
        return Trouble(f"{wire.slot.place}: waits for “{name}”.", way_out, wire.slot.given)

    def _run(self, key: int, node: Node, filled: Filled) -> Result:
        assert node.prepared is not None  # a tab without a calculator is hindered
        old = self.results.get(key)
        if old is not None and node.ran == (filled.args, filled.settings) and old.spec is node.prepared.spec:
            # A pure function: the same again. Only where its links come from may have changed.
            return old if old.notes == filled.notes else old._replace(notes=filled.notes)
        self._drop(node)
        self._tickets += 1
        ticket = self._tickets
        node.ran = filled.args, filled.settings
        args = self._own_rows(node.prepared.spec, filled.args)
        outcome = self.runner.start(Call(node.prepared.spec, args, filled.settings), ticket)
        if outcome is None:
            node.ticket = ticket
            self._running[ticket] = key
            return Result(
                key, "working", node.prepared.spec, filled.settings, notes=filled.notes, args=filled.args
            )
        return self._settled(key, node, filled, outcome)

    def _own_rows(self, spec: CalculatorSpec, args: dict[str, Any]) -> dict[str, Any]:
        """The arguments with the rows that only this project has; the runner knows those of the plugins."""
        if not self.basis.rows:
            return args
        filled = dict(args)
        for given in spec.givens:
            columns = {c.name: c.table for c in given.columns if c.table in self.basis.rows}
            if given.table in self.basis.rows:
                filled[given.name] = self._row(given.table, args[given.name])
            elif columns and args[given.name] is not None:
                filled[given.name] = tuple(
                    {
                        name: self._row(columns[name], cell) if name in columns else cell
                        for name, cell in row.items()
                    }
                    for row in args[given.name]
                )
        return filled

    def _row(self, name: str | None, picked: Any) -> Any:
        table = self.table(name) if name is not None else None
        return (
            table.row(picked, self.basis.how.currency)
            if table is not None and isinstance(picked, str)
            else picked
        )

    def _settled(self, key: int, node: Node, filled: Filled, outcome: Outcome) -> Result:
        assert node.prepared is not None  # it ran
        spec, args, settings, notes = node.prepared.spec, filled.args, filled.settings, filled.notes
        if outcome.stopped:
            node.ran = None  # a stopped answer is shown, not kept
        if outcome.answer is None:
            return Result(key, "cannot", spec, settings, notes=notes, args=args, troubles=(_why(outcome),))
        try:
            settled = settle(spec, outcome.answer, settings)
        except WrongAnswer as error:
            author = "\n".join(
                filter(None, (spec.place and f"  {spec.place}, in {spec.name}", error.would_do))
            )
            trouble = Trouble(
                f"it gave a wrong answer: {error}", "Tell the people who made it.", traceback=author
            )
            return Result(key, "cannot", spec, settings, notes=notes, args=args, troubles=(trouble,))
        return Result(
            key, "worked out", spec, settings, settled.found, settled.unrounded, outcome.answer, notes,
            (), args, outcome.stopped,
        )  # fmt: skip

    def _drop(self, node: Node) -> None:
        if node.ticket is not None:
            self._running.pop(node.ticket, None)
            self.runner.drop(node.ticket)
            node.ticket = None


def _other_basis(before: Project, after: Project) -> bool:
    """Whether an edit touched what all tabs start from: settings, fabrics, rows of tables."""
    return (
        before.settings is not after.settings
        or before.fabrics is not after.fabrics
        or before.root.get("row") is not after.root.get("row")
    )


def _reordered(before: Project, after: Project, changed: Iterable[tuple[Tab, Tab]]) -> bool:
    """Whether tabs changed places, came or went: of two tabs with one name the first is meant."""
    return len(before.tabs) != len(after.tabs) or any(old.key != new.key for old, new in changed)


def _why(outcome: Outcome) -> Trouble:
    if outcome.cannot is not None:
        return Trouble(outcome.cannot.why, outcome.cannot.way_out, outcome.cannot.given)
    if outcome.fault is not None:
        return Trouble(outcome.fault.why, "", "", outcome.fault.traceback)
    return Trouble("it was stopped before it had an answer.", "Work it out again.")
