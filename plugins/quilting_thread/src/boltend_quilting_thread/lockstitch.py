"""How much thread an inch of seam takes: by the stitch's geometry, or unpicked and measured."""

from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import Cannot, Rate

SAMPLE = Fraction(3)
"""Inches of seam that a sample is unpicked from (common practice, no source)."""
READING = Fraction(1, 16)
"""Inches that a reading of the ruler may be off, of seam and of thread (common practice, no source)."""
MOST_STITCHES = 100


@dataclass(frozen=True, slots=True)
class Take:
    """Inches of one thread in an inch of seam, with the least and the most that it may be."""

    low: Fraction
    mid: Fraction
    high: Fraction
    unpicked: bool = False


def by_thickness(thickness: Fraction, stitches: Fraction) -> Take:
    """One thread of a balanced lockstitch: 1 + T·S an inch; low and high with half and 1 1/2 times T.

    `thickness` T in inches, 0 or more, under the needle; `stitches` S an inch. Each stitch lays the thread
    once along the seam and draws it to the middle of the layers and back; both threads together take 2 +
    2·T·S. T 1/40 in at 10 an inch: 1.25, both 2.5. Source: Consumption formula for single needle lock
    stitch (Textile Calculation, 2015). It leaves out the thread's own diameter and the rounding of its
    bends.
    """
    pull = thickness * stitches
    return Take(1 + pull / 2, 1 + pull, 1 + 3 * pull / 2)


def by_unpicking(rate: Fraction) -> Take:
    """One thread as unpicked: `rate` inches an inch of seam, 1 or more.

    Low and high are what a ruler leaves open: the thread out of `SAMPLE` inches of seam, both lengths off by
    up to `READING`; never below 1, a thread laid flat. 1.5 gives 71/49 to 73/47.
    """
    thread = SAMPLE * rate
    low = (thread - READING) / (SAMPLE + READING)
    return Take(max(Fraction(1), low), rate, (thread + READING) / (SAMPLE - READING), unpicked=True)


def taken(thickness: Fraction, stitches: Fraction, unpicked: Rate | None, name: str = "unpicked_top") -> Take:
    """What one thread takes: as unpicked where it was, else by the thickness. `name` is the unpicked given.

    Raises:
        Cannot: what was unpicked is shorter than its seam.
    """
    if unpicked is not None:
        if unpicked.value < 1:
            raise Cannot(
                name,
                "an inch of seam cannot hold less than an inch of thread.",
                "Divide the unpicked thread by the seam that it came from: 4 1/2 in out of 3 in is 1.5.",
            )
        return by_unpicking(unpicked.value)
    return by_thickness(thickness, stitches)


def stitches_an_inch(rate: Rate) -> Fraction:
    """Stitches an inch. Raises `Cannot` for none, or for more than a machine can set."""
    if not 0 < rate.value <= MOST_STITCHES:
        way_out = "Usual are 8 to 13; a stitch of 2.5 mm is 4 per cm."
        raise Cannot(
            "stitches_per_inch", f"it is above 0 and at most {MOST_STITCHES} stitches an inch.", way_out
        )
    return rate.value
