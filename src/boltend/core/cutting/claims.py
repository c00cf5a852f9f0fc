"""What may be said of a plan: never more than is proved."""

from collections.abc import Callable
from fractions import Fraction


def inches_text(length: Fraction) -> str:
    """Show a length in inches as a mixed number; callers with a notation of their own pass another."""
    whole, rest = divmod(length, 1)
    if not rest:
        return f"{whole} in"
    return f"{whole} {rest} in" if whole else f"{rest} in"


def claim_of(
    goal: str,
    answer: Fraction,
    bound: Fraction,
    lacking: bool,
    show: Callable[[Fraction], str] = inches_text,
) -> str:
    """Put a plan's standing in words; `lacking` says that some pieces that fit are not cut."""
    least = show(bound) if goal == "length" else f"{bound} {'sheet' if bound == 1 else 'sheets'}"
    if lacking:
        return f"not enough cloth for every piece; all of them would take at least {least}"
    if answer == bound:
        return f"proved least: no way of cutting from edge to edge takes less than {least}"
    return f"a good plan; the least possible is at least {least}"
