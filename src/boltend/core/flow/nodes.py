"""What the flow keeps of a tab between edits, and how its links find their way."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, NamedTuple

from boltend.core.contract import FoundSpec, Settings
from boltend.core.flow.basis import Basis
from boltend.core.flow.givens import LinkSlot, Prepared, Tables, prepare
from boltend.core.flow.links import Fit, fit
from boltend.core.flow.results import Trouble
from boltend.core.host.calls import Runner
from boltend.core.project.model import Project, Tab
from boltend.core.values.alike import likeliest


class Wire(NamedTuple):
    """A link that found its way: from which tab's found, and how its value fits."""

    slot: LinkSlot
    source: int
    found: FoundSpec
    fit: Fit


@dataclass(slots=True)
class Node:
    """One tab in the flow.

    `troubles` are the tab's own, `lost` those of links that lead nowhere. `ran` is what the last answer
    was worked out from, so that the same is not worked out twice; `ticket` stands for a run under way.
    """

    tab: Tab
    prepared: Prepared | None
    basis: Basis
    troubles: tuple[Trouble, ...] = ()
    wires: tuple[Wire, ...] = ()
    lost: tuple[Trouble, ...] = ()
    ran: tuple[dict[str, Any], Settings] | None = None
    ticket: int | None = None


def read_node(tab: Tab, runner: Runner, tables: Tables, basis: Basis, before: Prepared | None) -> Node:
    """Read a tab against its calculator; its wires are followed later. `before`: as `prepare` takes it."""
    wrong = tuple(
        Trouble(p.what, p.way_out, str(p.path[-1]) if p.path else "")
        for p in tab.problems
        if p.severity == "error"
    )
    spec = runner.spec(tab.calculator)
    if spec is None:
        why, way_out = runner.why_absent(tab.calculator)
        return Node(tab, None, basis, (*wrong, Trouble(why, way_out, "calculator")))
    prepared = prepare(spec, tab.given, basis, tables, before)
    return Node(tab, prepared, basis, (*wrong, *prepared.troubles))


def same_links(one: Node, other: Node) -> bool:
    """Whether two readings of a tab hold the same links, so that their wires are the same."""
    if one.prepared is None or other.prepared is None or one.prepared.spec is not other.prepared.spec:
        return False
    mine, theirs = one.prepared.links, other.prepared.links
    return [(s.given, s.row, s.spec.name, s.link) for s in mine] == [
        (s.given, s.row, s.spec.name, s.link) for s in theirs
    ]


def follow_links(
    node: Node, project: Project, runner: Runner
) -> tuple[tuple[Wire, ...], tuple[Trouble, ...]]:
    """The wires of a tab's links, and the troubles of those that lead nowhere."""
    if node.prepared is None or not node.prepared.links:
        return (), ()
    ends = [_follow(slot, project, runner) for slot in node.prepared.links]
    return tuple(e for e in ends if isinstance(e, Wire)), tuple(e for e in ends if isinstance(e, Trouble))


def _follow(slot: LinkSlot, project: Project, runner: Runner) -> Wire | Trouble:
    link, label = slot.link, slot.place
    tab = project.find_tab(link.tab)
    if tab is None:
        way_out = near(link.tab, project.tab_names)
        return Trouble(f"{label}: there is no tab “{link.tab}” to take it from.", way_out, slot.given)
    spec = runner.spec(tab.calculator)
    if spec is None:
        why = f"{label}: waits for “{tab.name}”, whose calculator is absent."
        return Trouble(why, "That tab says why.", slot.given)
    found = spec.found(link.take)
    if found is None:
        way_out = near(link.take, [f.name for f in spec.founds])
        return Trouble(f"{label}: “{tab.name}” finds no {link.take!r}.", way_out, slot.given)
    return Wire(slot, tab.key, found, fit(found, slot.spec))


def near(word: str, names: Iterable[str]) -> str:
    """An offer of the nearest right name, or of all names where none is near."""
    names = [n for n in names if n]
    close = likeliest(word, names)
    if close is not None:
        return f"Did you mean “{close}”?"
    shown = ", ".join(f"“{n}”" for n in names[:8])
    more = ", …" if len(names) > 8 else ""
    return f"There {'is' if len(names) == 1 else 'are'} {shown}{more}." if names else ""
