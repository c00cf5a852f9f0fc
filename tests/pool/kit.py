"""Projects for the pool, made from answers, and a look at plans from outside."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from hypothesis import HealthCheck, settings

from boltend.core.contract import Answer, Goods, Line, Piece, Run, Settings, Table
from boltend.core.cutting import Plan
from boltend.core.flow.basis import read_basis
from boltend.core.flow.results import Result, Trouble
from boltend.core.pool import FabricPlan, Lists, Pool, Snapshot
from boltend.core.project.model import project_from_plain

EFFORT = 6000
usual = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])

PRECUTS = Table(
    "precuts",
    {"width": "cut", "length": "cut", "pieces": "count"},
    {
        "fat quarter": {"width": "21 in", "length": "18 in", "pieces": "1", "source": "invented"},
        "small square": {"width": "10 in", "length": "10 in", "pieces": "42", "source": "invented"},
        "strip": {"width": "42 in", "length": "2 1/2 in", "pieces": "40", "source": "invented"},
        "no size": {"pieces": "4", "source": "invented"},
    },
)


@dataclass
class Made:
    """One tab: its name and what its calculator answers; `says` are settings that the tab itself says."""

    name: str
    pieces: Sequence[Piece] = ()
    runs: Sequence[Run] = ()
    goods: Sequence[Goods] = ()
    says: Mapping[str, Any] = field(default_factory=dict)
    flags: Mapping[str, bool] = field(default_factory=dict)
    why: str = ""
    stopped: bool = False
    first: Sequence[Line | str] = ()


def snapshot(*tabs: Made, fabrics: Sequence[Mapping[str, Any]] = (), **project: Any) -> Snapshot:
    """The project of these tabs, worked out."""
    plain = {
        "boltend": 1,
        "project": project,
        "fabric": [dict(each) for each in fabrics],
        "tab": [{"name": each.name, "calculator": "made", **each.flags} for each in tabs],
    }
    made = project_from_plain({key: value for key, value in plain.items() if value != []})
    basis = read_basis(made)
    assert not basis.troubles
    results = {}
    for tab, each in zip(made.tabs, tabs, strict=True):
        of_tab: Settings = replace(basis.settings, fixed=frozenset(each.says), **each.says)
        answer = Answer({}, tuple(each.pieces), tuple(each.runs), tuple(each.goods), first=tuple(each.first))
        state = ("cannot", (Trouble(each.why),), None) if each.why else ("worked out", (), answer)
        results[tab.key] = Result(tab.key, state[0], None, of_tab, answer=state[2], troubles=state[1],
                                  stopped=each.stopped)  # type: ignore[arg-type]  # a state's name  # fmt: skip
    return Snapshot(made, made.tabs, results, basis, PRECUTS)


def lists(*tabs: Made, fabrics: Sequence[Mapping[str, Any]] = (), **project: Any) -> Lists:
    return Pool(EFFORT).lists_of(snapshot(*tabs, fabrics=fabrics, **project))


def only(*tabs: Made, fabrics: Sequence[Mapping[str, Any]] = (), **project: Any) -> FabricPlan:
    """The one fabric of such a project."""
    (fabric,) = lists(*tabs, fabrics=fabrics, **project).fabrics
    return fabric


def plan_of(fabric: FabricPlan) -> Plan:
    assert fabric.plan is not None, fabric.troubles
    return fabric.plan


def piece(
    name: str, across: str, along: str, count: int = 1, fabric: str | None = "Slate", **more: Any
) -> Piece:
    return Piece(name, Fraction(across), Fraction(along), count, fabric, **more)


def run(name: str, width: str, *wants: str, fabric: str | None = "Slate", **more: Any) -> Run:
    return Run(name, Fraction(width), tuple(map(Fraction, wants)), fabric=fabric, **more)


def check(fabric: FabricPlan) -> None:
    """Assert what a plan shown promises: apart, inside the cloth, turned only if allowed, counts met."""
    plan, uses = plan_of(fabric), fabric.demand.uses
    parts = {part.name: part for part in fabric.demand.parts}
    limits = {each.name: (each.across, each.along) for each in plan.sheetplans}
    lying: dict[tuple[str, int], list[tuple[Fraction, Fraction, Fraction, Fraction]]] = {}
    got: Counter[tuple[str, str]] = Counter()
    for cloth, number, p in plan.placements():
        across, along = limits[cloth]
        box = (p.across_from, p.along_from, p.across_from + p.across, p.along_from + p.along)
        assert box[0] >= 0
        assert box[1] >= 0
        assert box[2] <= across
        assert box[3] <= (plan.length_used if along is None else along)
        for other in lying.setdefault((cloth, number), []):
            assert not (box[0] < other[2] and other[0] < box[2] and box[1] < other[3] and other[1] < box[3])
        lying[cloth, number].append(box)
        if p.part == "spare":
            continue
        part = parts[p.part]
        straight = (p.across, p.along) == (part.across, part.along)
        assert straight or (part.may_turn and (p.along, p.across) == (part.across, part.along))
        got[uses[p.part].tab, uses[p.part].name] += 1
    for lacking in plan.unplaced:
        got[uses[lacking.part.name].tab, uses[lacking.part.name].name] += lacking.count
    wanted: Counter[tuple[str, str]] = Counter()
    for part in fabric.demand.parts:
        wanted[uses[part.name].tab, uses[part.name].name] += part.count
    assert got == wanted
    assert plan.unplaced or plan.bound <= plan.answer
