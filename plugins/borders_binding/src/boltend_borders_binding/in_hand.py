"""What is in hand of one fabric, held against what this tab alone takes of it."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boltend.plugin import Line, length, line, yards

NOT_SAID = "Say what is in hand."


@dataclass(frozen=True, slots=True)
class Held:
    """Whether it is enough (None: nobody said what there is, or of which fabric), and that in words."""

    verdict: Literal["enough", "not enough"] | None = None
    working: tuple[Line, ...] = ()
    cautions: tuple[Line, ...] = ()


def held(have: Fraction | None, alone: Fraction | None) -> Held:
    """Hold a length in hand against `alone`, what is taken with its end squared once; inches.

    `alone` is None where several fabrics are taken, for nobody says which of them is in hand.
    """
    if have is None:
        return Held()
    if alone is None:
        said = (
            "What is in hand counts here for one fabric alone: of several, say it of each among the fabrics."
        )
        return Held(cautions=(line(said),))
    if have < alone:
        said = "The {} in hand is not enough: {} would be. To buy has what is bought beside it."
        return Held("not enough", cautions=(line(said, yards(have), length(alone)),))
    said = "The {} in hand is enough: {} are needed, and {} are left."
    return Held("enough", working=(line(said, yards(have), length(alone), length(have - alone)),))
