"""From a heap of pieces and runs to the parts that are cut, tab by tab."""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from boltend.core.contract import Line, Piece, Run, line
from boltend.core.cutting import Part
from boltend.core.pool.cloths import Cloth
from boltend.core.pool.heaps import Heap, Share
from boltend.core.pool.strips import Room, cut_run


@dataclass(frozen=True)
class Use:
    """What a part is for: the tab, how it is used once it is cut, and what is left to do `later`."""

    tab: str
    name: str
    made_from: str = "whole"
    run: bool = False
    later: Line | str = ""


@dataclass
class Demand:
    """The parts of a heap in groups, one a tab; `uses` tells of each part by its name.

    The names are only numbers: a tab that is renamed needs no new plan.
    """

    groups: list[list[Part]] = field(default_factory=list)
    uses: dict[str, Use] = field(default_factory=dict)
    notes: list[Line] = field(default_factory=list)
    troubles: list[str] = field(default_factory=list)

    @property
    def parts(self) -> list[Part]:
        """All parts of all tabs."""
        return [part for group in self.groups for part in group]

    @cached_property
    def tabs_of(self) -> dict[str, set[str]]:
        """The tabs that have pieces of each name; asked for only once all uses are there."""
        tabs: dict[str, set[str]] = {}
        for use in self.uses.values():
            tabs.setdefault(use.name, set()).add(use.tab)
        return tabs


def demand_of(heap: Heap, cloth: Cloth, room: Room | None = None) -> Demand:
    """The parts of a heap out of this cloth, or as if it had other room (a bolt of another width)."""
    demand = Demand()
    room = room or cloth.room
    for share in heap.shares:
        group = [_part(demand, share, piece, cloth) for piece in share.pieces]
        group += [part for run in share.runs for part in _strips(demand, share, run, room)]
        demand.groups.append(group)
    return demand


def _part(demand: Demand, share: Share, piece: Piece, cloth: Cloth) -> Part:
    name = _named(demand, Use(share.tab, piece.name, piece.made_from, later=piece.later))
    # A bias square lies straight on the cloth: its strips run on the bias however it is turned.
    may_turn = piece.may_turn and piece.grain in ("any", "bias") and not cloth.one_way
    return Part(name, Fraction(piece.across), Fraction(piece.along), piece.count, may_turn)


def _strips(demand: Demand, share: Share, run: Run, room: Room) -> list[Part]:
    cut = cut_run(run, room, share.settings.seam)
    if cut.trouble:
        demand.troubles.append(f"“{share.tab}”: {run.name} cannot be sewn from strips: {cut.trouble}.")
    if cut.joins:
        joins = f"1 {run.join} join" if cut.joins == 1 else f"{cut.joins} {run.join} joins"
        said = "“{}”: {} is sewn from {} strips with {}."
        demand.notes.append(line(said, share.tab, run.name, cut.count, joins))
    return [
        Part(
            _named(demand, Use(share.tab, run.name, run=True, later=run.later)),
            each.across,
            each.along,
            each.count,
            False,
        )
        for each in cut.strips
    ]


def _named(demand: Demand, use: Use) -> str:
    name = f"part {len(demand.uses) + 1}"
    demand.uses[name] = use
    return name
