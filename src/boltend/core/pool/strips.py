"""Runs as strips: how many, how long, and what is left of the last one."""

from dataclasses import dataclass
from fractions import Fraction

from boltend.core.contract import Run
from boltend.core.values import ceil_div, floor_div, up

Cuts = list[tuple[Fraction, int]]
"""Lengths of strips in inches, and how many of each."""


@dataclass(frozen=True, slots=True)
class Room:
    """The cloth that strips are cut from, in inches: `along` is None for a bolt, which has no end.

    `step` is the project's cutting step: a strip that is measured is cut to it, up.
    """

    across: Fraction
    along: Fraction | None = None
    step: Fraction = Fraction(1, 8)


@dataclass(frozen=True, slots=True)
class StripCut:
    """`count` strips of `across` × `along` on the cloth, cut for a run; they never turn."""

    across: Fraction
    along: Fraction
    count: int


@dataclass(frozen=True, slots=True)
class RunCut:
    """A run cut into strips, with the joins that it is sewn with; or why it cannot be cut."""

    strips: tuple[StripCut, ...]
    joins: int = 0
    trouble: str = ""

    @property
    def count(self) -> int:
        """How many strips there are in all."""
        return sum(strip.count for strip in self.strips)


def cut_run(run: Run, room: Room, seam: Fraction) -> RunCut:
    """The strips of one run out of this cloth, each length wanted by itself.

    A diagonal join takes the strip's cut width, a straight one two seams (common practice, no source).
    Crosswise strips run from selvage to selvage, and the last one is cut only as long as it must be, so
    that its rest may serve others. Lengthwise strips of a bolt are equal and lie side by side: as many as
    the width holds make the shortest length; those of a precut are as long as it is. Strips that do not fit
    the cloth are given back all the same: the plan says so, as of any piece.
    """
    lengthwise, width = run.grain == "lengthwise", Fraction(run.width)
    counts: dict[Fraction, int] = {}
    joins = 0
    for want in map(Fraction, run.wants):
        found = _one_length(want, width, run.join, room, seam, lengthwise=lengthwise)
        if not found:
            return RunCut((), 0, "each join takes as much as a further strip brings")
        joins += sum(count for _, count in found) - 1
        for length, count in found:
            counts[length] = counts.get(length, 0) + count
    strips = (
        StripCut(width, length, count) if lengthwise else StripCut(length, width, count)
        for length, count in counts.items()
    )
    return RunCut(tuple(strips), joins)


def _one_length(
    want: Fraction, width: Fraction, join: str, room: Room, seam: Fraction, *, lengthwise: bool
) -> Cuts:
    if join == "none":
        return [(want, 1)]
    loss = width if join == "diagonal" else 2 * seam
    if not lengthwise:
        return _end_to_end(want, room.across, loss, room.step)
    if room.along is not None:
        return _end_to_end(want, room.along, loss, room.step)
    return _beside(want, width, loss, room)


def _end_to_end(want: Fraction, longest: Fraction, loss: Fraction, step: Fraction) -> Cuts:
    """Strips as long as the cloth, and a last one as long as it must be; none where joins take them all."""
    if want <= longest:
        return [(want, 1)]
    if longest <= loss:
        return []
    strips = ceil_div(want - loss, longest - loss)
    last = want - (strips - 1) * (longest - loss)
    return [(longest, strips - 1), (min(longest, up(last, step)), 1)]


def _beside(want: Fraction, width: Fraction, loss: Fraction, room: Room) -> Cuts:
    """Equal strips side by side. One alone where they are too wide for the cloth, or a join gains nothing."""
    strips = max(1, floor_div(room.across, width)) if want > loss else 1
    if strips == 1:
        return [(want, 1)]
    return [(up((want - loss) / strips + loss, room.step), strips)]
