"""From a heap of pieces and runs to the parts that are cut, tab by tab."""

from dataclasses import dataclass, field
from fractions import Fraction

from boltend.core.contract import Piece
from boltend.core.cutting import Part
from boltend.core.pool.cloths import Cloth
from boltend.core.pool.heaps import Heap, Share
from boltend.core.pool.strips import cut_run


@dataclass(frozen=True)
class Use:
    """What a part is for: the tab, and how it is used once it is cut."""

    tab: str
    name: str
    made_from: str = "whole"
    run: bool = False


@dataclass
class Demand:
    """The parts of a heap in groups, one a tab; `uses` tells of each part by its name."""

    groups: list[list[Part]] = field(default_factory=list)
    uses: dict[str, Use] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    troubles: list[str] = field(default_factory=list)

    @property
    def parts(self) -> list[Part]:
        """All parts of all tabs."""
        return [part for group in self.groups for part in group]


def demand_of(heap: Heap, cloth: Cloth, usable: Fraction | None = None) -> Demand:
    """The parts of a heap out of this cloth, at its own usable width or at another one."""
    demand = Demand()
    width = cloth.usable if usable is None else usable
    for share in heap.shares:
        group: list[Part] = []
        for piece in share.pieces:
            group.append(_part(demand, share, piece, cloth))
        for run in share.runs:
            cut = cut_run(run, width, cloth.settings)
            if cut.trouble:
                demand.troubles.append(f"“{share.tab}”: {cut.trouble}.")
            if cut.joins:
                joins = "1 join" if cut.joins == 1 else f"{cut.joins} joins"
                demand.notes.append(f"“{share.tab}”: {run.name} is sewn with {joins}, {run.join}.")
            for strip in cut.strips:
                name = _named(demand, Use(share.tab, run.name, run=True))
                group.append(Part(name, strip.across, strip.along, strip.count, may_turn=False))
        demand.groups.append(group)
    demand.notes = list(dict.fromkeys(demand.notes))
    return demand


def _part(demand: Demand, share: Share, piece: Piece, cloth: Cloth) -> Part:
    name = _named(demand, Use(share.tab, piece.name, piece.made_from))
    may_turn = piece.may_turn and piece.grain in ("any", "bias") and not cloth.one_way
    return Part(name, Fraction(piece.across), Fraction(piece.along), piece.count, may_turn)


def _named(demand: Demand, use: Use) -> str:
    """A name of its own for each part, for the plan tells parts apart by it."""
    name, number = f"{use.tab} · {use.name}", 1
    while name in demand.uses:
        number += 1
        name = f"{use.tab} · {use.name} ({number})"
    demand.uses[name] = use
    return name
