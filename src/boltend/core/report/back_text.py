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
    if told.reached or told.same:
        lines.append(f"  {which_do(book, wish, told)}")
    else:
        lines.append(f"  none: {told.why}" if told.why else "  none. The nearest:")
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
        if told.of == 1:
            return "The one value was tried."
        said = f"All {told.of}" if told.whole else f"Stopped: {told.tried} of the {told.of}"
        return f"{said} values that were asked for were tried."
    said = _how_far(told, shown(wish.least), shown(wish.most), shown(wish.step))
    more = told.finer
    if more is None:
        return f"{said}."
    where = "beside those that do" if told.hits else "about the nearest"
    return f"{said}; {where} by {shown(more.step)}, too."


def which_do(book: Workbook, wish: Wish, told: Backwards) -> str:
    """The value that just does it and what it gives, then which others do; else why none, or how near."""
    shown = shown_values(book, wish)
    if told.same:
        given, gives = wish.spot.label, (told.hits or told.misses)[0].cell.text
        does = ", which does" if told.reached else ""
        return f"{given} changes nothing here: each of {told.tried} values gives {gives}{does}."
    if told.reached:
        return " ".join((_answer(told, wish, shown), *_others(told, wish, shown)))
    if not told.misses:
        return f"No value does: {told.why}" if told.why else "Nothing was tried."
    near = min(told.best, key=lambda one: abs((one.cell.amount or 0) - wish.wanted))
    tried = "None does" if told.whole else "None of those tried does"
    return f"{tried}. The nearest: {shown(near.value)}, which gives {near.cell.text}."


def _answer(told: Backwards, wish: Wish, shown: Callable[[Fraction], str]) -> str:
    """The value that comes nearest to what is wanted, where among those that do it stands, what it gives."""
    tries = told.best
    miss = [abs((one.cell.amount or 0) - wish.wanted) for one in tries]
    nearest = [one for one, off in zip(tries, miss, strict=True) if off == min(miss)]
    one = nearest[-1] if nearest[-1] is tries[-1] and nearest[0] is not tries[0] else nearest[0]
    among = "" if told.whole and told.unbroken else " of those tried"
    place = "the nearest" if one is not tries[-1] else "the most"
    does = f"is {'the least' if one is tries[0] else place}{among} that does" if tries[1:] else "does"
    step = told.finer.step if told.finer is not None else wish.step
    by = "" if wish.only else f" (by {shown(step)})"
    exactly = "exactly " if one.cell.amount == wish.wanted and wish.reach != "exactly" else ""
    return f"{shown(one.value)} {does}{by}: it gives {exactly}{one.cell.text}."


def _others(told: Backwards, wish: Wish, shown: Callable[[Fraction], str]) -> Iterator[str]:
    """Which others do, where there are any."""
    hits, step = told.hits, shown(wish.step)
    if not hits:
        yield f"By {step} none does."
        return
    if len(hits) == 1:
        return
    first, last, end = hits[0].value, hits[-1].value, wish.value(wish.of - 1)
    if not told.unbroken:
        yield f"{len(hits)} do, between {shown(first)} and {shown(last)}, but not all of those."
    elif told.whole and (first, last) == (wish.least, end):
        yield f"All from {shown(first)} to {shown(last)} do."
    elif told.whole and last == end and not wish.only:
        yield f"All from {shown(first)} on do; {shown(last)} is as far as was looked."
    else:
        yield f"All from {shown(first)} to {shown(last)}{'' if wish.only else f' by {step}'} do."


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
        return f"Stopped: {told.tried} of {told.of} values from {least} to {most} were tried"
    span = f"from {least} to {most} by {step}"
    if told.whole:
        return f"Looked at {span}"
    near = "those nearest to the present one; a narrower range tells more"
    return f"Only {told.tried} of the {told.of} values {span} were tried, {near}"


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
