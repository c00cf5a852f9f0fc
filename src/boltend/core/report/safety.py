"""Cautions that belong to a whole print, not to one tab."""

from collections.abc import Iterable

from boltend.core.contract import Answer

# Common practice, no source.
CUTTING_CAUTION = (
    "Rotary cutters and irons hurt: close the blade whenever you lay it down, cut away from yourself, keep "
    "fingers behind the ruler's edge and both out of children's reach. Follow the makers' and local advice."
)

# The same advice as in the crib sizes of `bed_size` and `batting`: common practice, no source.
INFANT_CAUTION = (
    "A quilt is no bedding for a sleeping infant under twelve months: follow your local safe-sleep guidance."
)


def any_cut(answers: Iterable[Answer | None]) -> bool:
    """Whether anything is cut or trimmed at all, so that a blade is taken in hand."""
    return any(answer is not None and (answer.pieces or answer.runs or answer.first) for answer in answers)
