"""Runs as strips: how many, how long, and what is left of the last one."""

from dataclasses import dataclass
from fractions import Fraction

from boltend.core.contract import Run, Settings
from boltend.core.values import ceil_div, floor_div


@dataclass(frozen=True, slots=True)
class StripCut:
    """`count` strips of `across` × `along` on the cloth, cut for a run; they never turn."""

    across: Fraction
    along: Fraction
    count: int


@dataclass(frozen=True, slots=True)
class RunCut:
    """A run cut into strips, with the words that say how; or why it cannot be."""

    strips: tuple[StripCut, ...]
    joins: int = 0
    trouble: str = ""


def cut_run(run: Run, usable: Fraction, settings: Settings) -> RunCut:
    """The strips of one run out of cloth of this usable width, in inches.

    Crosswise strips run from selvage to selvage; of each length wanted the last strip is cut only as long
    as it must be, so that its rest may serve others.
    """
    if run.join == "none":
        return _in_one_piece(run, usable)
    loss = run.width if run.join == "diagonal" else 2 * settings.seam
    cuts = [_lengthwise(run, want, usable, loss) for want in run.wants] if run.grain == "lengthwise" else [
        _crosswise(run, want, usable, loss) for want in run.wants
    ]  # fmt: skip
    trouble = next((cut.trouble for cut in cuts if cut.trouble), "")
    strips = _merged([strip for cut in cuts for strip in cut.strips])
    return RunCut(strips, sum(cut.joins for cut in cuts), trouble)


def _crosswise(run: Run, want: Fraction, usable: Fraction, loss: Fraction) -> RunCut:
    if want <= usable:
        return RunCut((StripCut(want, run.width, 1),))
    if usable <= loss:
        return RunCut((), 0, f"strips of {run.name} are all taken up by their joins")
    strips = ceil_div(want - loss, usable - loss)
    last = want - (strips - 1) * (usable - loss)
    full = StripCut(usable, run.width, strips - 1)
    return RunCut((full, StripCut(last, run.width, 1)), strips - 1)


def _lengthwise(run: Run, want: Fraction, usable: Fraction, loss: Fraction) -> RunCut:
    """Equal strips side by side: as many as the width holds make the shortest length."""
    beside = floor_div(usable, run.width)
    if not beside:
        return RunCut((), 0, f"strips of {run.name} are wider than the cloth")
    strips = beside if want > loss else 1
    each = (want - loss) / strips + loss
    return RunCut((StripCut(run.width, each, strips),), strips - 1)


def _in_one_piece(run: Run, usable: Fraction) -> RunCut:
    across_along = run.grain != "lengthwise"
    if (max(run.wants) if across_along else run.width) > usable:
        return RunCut((), 0, f"{run.name} does not fit the width of the cloth in one piece")
    strips = [
        StripCut(want, run.width, 1) if across_along else StripCut(run.width, want, 1) for want in run.wants
    ]
    return RunCut(_merged(strips))


def _merged(strips: list[StripCut]) -> tuple[StripCut, ...]:
    counts: dict[tuple[Fraction, Fraction], int] = {}
    for strip in strips:
        size = strip.across, strip.along
        counts[size] = counts.get(size, 0) + strip.count
    return tuple(StripCut(*size, count) for size, count in counts.items())
