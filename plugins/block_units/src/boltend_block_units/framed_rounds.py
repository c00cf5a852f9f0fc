"""A centre and the rounds of strips round it, each outside the last, in exact inches."""

from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import Cannot, Fabric, Finished, Settings, given, row
from boltend_block_units.parts import Size, sized

MOST_ROUNDS = 20
"""More rounds than any block wears: a slip of the keyboard."""


@row
class Round:
    """A round of strips, of one width on all four sides."""

    width: Finished = given(
        "Width",
        least="1/8 in",
        most="36 in",
        step="1/4 in",
        help="Of a strip, finished.",
        example=("1 in", "2.5 cm"),
    )
    fabric: Fabric | None = given("Fabric")


@dataclass(frozen=True, slots=True)
class Laid:
    """A round in its place: its strips' cut sizes, and the finished side of the square before and after it.

    A last round that is made oversize is `extra` wider than it finishes.
    """

    name: str
    fabric: str | None
    width: Fraction
    extra: Fraction
    before: Fraction
    strip: Size
    side: Size
    end: Size

    @property
    def after(self) -> Fraction:
        """The finished side of the square with this round."""
        return self.before + 2 * self.width


@dataclass(frozen=True, slots=True)
class Frame:
    """A framed square: the finished side of its centre, the cut of that, and the rounds."""

    core: Fraction
    centre: Size
    rounds: tuple[Laid, ...]
    seam: Fraction

    @property
    def finished(self) -> Fraction:
        """The finished side of the whole."""
        return self.rounds[-1].after

    @property
    def sewn(self) -> Fraction:
        """The raw side of the whole before it is trimmed, with what is oversize; strips at their exact
        width."""
        return self.finished + 2 * self.rounds[-1].extra + 2 * self.seam


def frame(core: Fraction, rounds: tuple[Round, ...], oversize: Fraction, setting: Settings) -> Frame:
    """Lay the rounds round a centre that finishes at `core`, the whole `oversize` larger by its last round.

    Raises `Cannot` where there is no round, or too many.
    """
    if not rounds:
        raise Cannot("rounds", "there is none.", "Add a round with its width.")
    if len(rounds) > MOST_ROUNDS:
        raise Cannot("rounds", f"there are more than {MOST_ROUNDS}.", "Keep those that the block wears.")
    both, laid, side = 2 * setting.seam, [], core
    for number, each in enumerate(rounds, 1):
        extra = oversize / 2 if number == len(rounds) else Fraction(0)
        strip, long = each.width + extra + both, side + both
        cuts = sized(strip, setting), sized(long, setting), sized(long + 2 * (each.width + extra), setting)
        laid.append(Laid(f"Round {number}", each.fabric, each.width, extra, side, *cuts))
        side = laid[-1].after
    return Frame(core, sized(core + both, setting), tuple(laid), setting.seam)


def sewn_seams(frame: Frame) -> Fraction:
    """All seams of one square, raw edge to raw edge: two as long as a side, two as long as an end, a
    round."""
    return sum((2 * each.side.cut + 2 * each.end.cut for each in frame.rounds), Fraction(0))
