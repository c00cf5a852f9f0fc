"""Working backwards in words."""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import Any

from boltend.core.asking import Backwards, Finer, Try, Wish
from boltend.core.flow import Workbook
from boltend.core.values import KINDS, Notation, Price, visible

MOST_TOLD = 12


def back_text(book: Workbook, wish: Wish, told: Backwards) -> str:
    """What was asked, the values that reach it, or the nearest misses, and how far it was looked."""
    tab, shown, how = book.project.tab(wish.tab).name, shown_values(book, wish), book.basis.how
    lines = [f"{wish.spot.label} of “{tab}”, for {wish.take.label} {wish.reach} {wanted_words(wish, how)}:"]
    between = told.finer is not None and told.finer.hits
    if not told.hits and told.same:
        lines.append(f"  none. {which_do(book, wish, told)}")
    elif not told.hits and not between:
        lines.append(f"  none: {told.why}" if told.why else "  none. The nearest:")
    elif between:
        lines.append(f"  {which_do(book, wish, told)}")
    if not told.same:
        lines += _values(told.best, shown)
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
    if wish.only:
        tried = "All" if told.whole else f"Stopped: {told.tried}"
        said = f"{tried} of the {told.of} values that were asked for were tried."
        return said.replace("All of the", "All") if told.of > 1 else "The one value was tried."
    said = _how_far(told, shown(wish.least), shown(wish.most), shown(wish.step))
    more = told.finer
    if more is None:
        return said
    if told.hits:
        none = "" if more.hits else "; none of them does"
        return f"{said} Next to those that do {more.tried} more by {shown(more.step)}{none}."
    return f"{said} About the nearest {more.tried} more, down to {shown(more.step)}."


def which_do(book: Workbook, wish: Wish, told: Backwards) -> str:
    """How many values reach it, and from where to where: a range where none between is missing.

    Where none does: that the nearest follow, or why there is none.
    """
    shown, hits, more = shown_values(book, wish), told.hits, told.finer
    if not hits and more is not None and more.hits:
        one = "1 value does" if len(more.hits) == 1 else f"{len(more.hits)} values do"
        return f"By steps of {shown(wish.step)} none does; by steps of {shown(more.step)} {one}:"
    if not hits:
        if told.same:
            given, gives = wish.spot.label, told.misses[0].cell.text
            return f"{given} changes nothing here: each of {told.tried} values gives {gives}."
        if told.misses:
            nor = f", nor any by {shown(more.step)} about the nearest" if more is not None else ""
            return f"No value that was tried does{nor}. The nearest:"
        return f"No value does: {told.why}" if told.why else "Nothing was tried."
    also = _also(told, wish, shown)
    if len(hits) == 1:
        return f"1 value does by {shown(wish.step)}.{also}" if also else "1 value does:"
    first, last = hits[0].value, hits[-1].value
    if not told.unbroken:
        return f"{len(hits)} values do, between {shown(first)} and {shown(last)}, but not all of those:{also}"
    count, end = wish.place(last) - wish.place(first) + 1, wish.value(wish.of - 1)
    if told.whole and (first, last) == (wish.least, end):
        span = f"all from {shown(first)} to {shown(last)}"
    elif told.whole and last == end and not wish.only:
        span = f"each from {shown(first)} on, looked at as far as {shown(last)}"
    else:
        span = f"each from {shown(first)} to {shown(last)}"
    return f"{count} values do: {span}.{also}"


def _also(told: Backwards, wish: Wish, shown: Callable[[Fraction], str]) -> str:
    """What a finer step finds before the first value that does, or behind the last."""
    more = told.finer
    if more is None or not more.hits:
        return ""
    one = min(more.hits, key=lambda one: abs((one.cell.amount or 0) - wish.wanted))
    exactly = " exactly" if one.cell.amount == wish.wanted else ""
    return f" By steps of {shown(more.step)}, {shown(one.value)} does too: it gives {one.cell.text}{exactly}."


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
        "finer": None if told.finer is None else _finer_json(told.finer, plain),
    }


def _finer_json(more: Finer, plain: Callable[[Sequence[Try]], Any]) -> dict[str, Any]:
    """What was tried between the steps."""
    return {
        "step": str(more.step),
        "hits": plain(more.hits),
        "misses": plain(more.misses),
        "tried": more.tried,
    }
