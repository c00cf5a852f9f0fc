"""Working backwards in words."""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import Any

from boltend.core.asking import Backwards, Try, Wish
from boltend.core.flow import Workbook
from boltend.core.values import KINDS, Notation, Price, visible

MOST_TOLD = 12


def back_text(book: Workbook, wish: Wish, told: Backwards) -> str:
    """What was asked, the values that reach it, or the nearest misses, and how far it was looked."""
    tab, shown, how = book.project.tab(wish.tab).name, shown_values(book, wish), book.basis.how
    lines = [f"{wish.spot.label} of “{tab}”, for {wish.take.label} {wish.reach} {wanted_words(wish, how)}:"]
    lines += _values(told.hits, shown)
    if not told.hits and told.same:
        lines.append(f"  none. {which_do(book, wish, told)}")
    elif not told.hits:
        lines.append(f"  none: {told.why}" if told.why else "  none. The nearest:")
        lines += _values(told.misses, shown)
    lines.append(how_far(book, wish, told))
    return "\n".join(map(visible, lines)) + "\n"


def wanted_words(wish: Wish, how: Notation) -> str:
    """What is wanted, as it is shown."""
    found = wish.take.found
    if found is None:
        return str(KINDS["price"].show(Price(wish.wanted, how.currency), how))
    value: Any = int(wish.wanted) if found.kind == "count" else wish.wanted
    return str(found.reader.show(value, how, found.unit))


def shown_values(book: Workbook, wish: Wish) -> Callable[[Fraction], str]:
    """How a value of the given is shown."""
    how, spec = book.results[wish.tab].settings.notation, wish.given
    return lambda value: spec.reader.show(int(value) if spec.kind == "count" else value, how, spec.unit)


def how_far(book: Workbook, wish: Wish, told: Backwards) -> str:
    """Which values were looked at, and whether there may be others."""
    shown = shown_values(book, wish)
    return _how_far(told, shown(wish.least), shown(wish.most), shown(wish.step))


def which_do(book: Workbook, wish: Wish, told: Backwards) -> str:
    """How many values reach it, and from where to where: a range where none between is missing.

    Where none does: that the nearest follow, or why there is none.
    """
    shown, hits = shown_values(book, wish), told.hits
    if not hits:
        if told.same:
            given, gives = wish.spot.label, told.misses[0].cell.text
            return f"{given} changes nothing here: each of {told.tried} values gives {gives}."
        if told.misses:
            return "No value that was tried does. The nearest:"
        return f"No value does: {told.why}" if told.why else "Nothing was tried."
    if len(hits) == 1:
        return "1 value does:"
    first, last = hits[0].value, hits[-1].value
    if not told.unbroken:
        return f"{len(hits)} values do, between {shown(first)} and {shown(last)}, but not all of those:"
    count = int((last - first) / wish.step) + 1
    if told.whole and (first, last) == (wish.least, wish.least + (wish.of - 1) * wish.step):
        span = f"all from {shown(first)} to {shown(last)}"
    elif told.whole and last == wish.least + (wish.of - 1) * wish.step:
        span = f"each from {shown(first)} on, looked at as far as {shown(last)}"
    else:
        span = f"each from {shown(first)} to {shown(last)}"
    return f"{count} values do: {span}."


def _values(tries: Sequence[Try], shown: Any) -> Iterator[str]:
    if len(tries) > MOST_TOLD:
        half = MOST_TOLD // 2
        yield from _values(tries[:half], shown)
        yield f"  … {len(tries) - 2 * half} more …"
        yield from _values(tries[-half:], shown)
        return
    width = max((len(shown(one.value)) for one in tries), default=0)
    for one in tries:
        yield f"  {shown(one.value):>{width}}  gives {one.cell.text or one.cell.why}"


def _how_far(told: Backwards, least: str, most: str, step: str) -> str:
    if told.stopped:
        return f"Stopped: {told.tried} of {told.of} values from {least} to {most} were tried."
    span = f"from {least} to {most} by {step}"
    if told.whole:
        some = f" ({told.tried} worked out; the found never shrinks)" if told.tried < told.of else ""
        return f"All values {span} were looked at{some}."
    near = "those nearest to the present one; a narrower range tells more"
    return f"Only {told.tried} of the {told.of} values {span} were tried, {near}."


def back_json(wish: Wish, told: Backwards) -> dict[str, Any]:
    """The same for a program."""

    def plain(tries: Sequence[Try]) -> list[dict[str, Any]]:
        return [
            {"value": one.raw, "text": one.cell.text, "exact": str(one.cell.amount), "why": one.cell.why}
            for one in tries
        ]

    return {
        "given": wish.spot.name,
        "reach": wish.reach,
        "hits": plain(told.hits),
        "misses": plain(told.misses),
        "tried": told.tried,
        "of": told.of,
        "whole": told.whole,
        "why": told.why,
    }
