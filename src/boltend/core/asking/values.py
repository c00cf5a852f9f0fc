"""The values of a ladder as a person types them: a list with `;`, a range, words of the choices offered."""

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from boltend.core.asking.ladder import MOST_RUNGS
from boltend.core.asking.spots import AskError, Spot
from boltend.core.asking.wish import RANGED, read_step, step_of
from boltend.core.contract import GivenSpec
from boltend.core.flow import Workbook
from boltend.core.flow.givens import out_of_limits
from boltend.core.flow.nodes import near
from boltend.core.values import Notation, NotationError

_RANGE = re.compile(r"(?:from\s+)?(?P<low>\S.*?)\s+to\s+(?P<high>\S.*?)(?:\s+by\s+(?P<step>\S.*))?", re.I)

_FEW = 8
"""Choices that are all taken, where nothing else is said."""

_STRIDES = {"cm": (1, 2, 5), "in": (1, 2, 4)}
"""Multiples of a step that a person would take, before ten and a hundred, or eight and sixty-four of them."""


def options_of(book: Workbook, spec: GivenSpec) -> tuple[str, ...]:
    """The words that a given chooses from: its own, the rows of its table, the project's fabrics."""
    if spec.kind == "yes_no":
        return "yes", "no"
    if spec.kind == "fabric":
        return tuple(row.name for row in book.project.fabrics if row.name)
    table = book.table(spec.table) if spec.table is not None else None
    return tuple(table.rows) if table is not None else spec.options


def read_values(book: Workbook, spot: Spot, text: str) -> list[Any]:
    """Raw values for `Ladder.values`, each once. Raises `AskError`."""
    raws: list[Any] = []
    for part in (each.strip() for each in text.replace("\n", ";").split(";")):
        if part:
            raws += _read(book, spot, part)
        if len(raws) > MOST_RUNGS:
            raise AskError(f"these are more than {MOST_RUNGS} values.", "Take a wider stride.")
    once = [raw for n, raw in enumerate(raws) if raw not in raws[:n]]
    if not once:
        raise AskError("a ladder needs values.", "Write them with ; between.")
    return once


def read_tries(book: Workbook, spot: Spot, text: str) -> dict[str, Any]:
    """What `read_wish` takes of the same spellings: `least`, `most` and `step`, or `values`; of nothing none.

    Raises `AskError`.
    """
    spec, how = spot.spec, book.results[spot.tab].settings.notation
    text = text.strip()
    if not text:
        return {}
    try:
        span = _RANGE.fullmatch(text) if ";" not in text else None
        if span is None:
            return {"values": read_values(book, spot, text)}
        low, high = sorted(Fraction(_value(spec, span[end], how)) for end in ("low", "high"))
    except AskError as error:
        first = f"{error.way_out.rstrip('.')}. " if error.way_out else ""
        raise AskError(error.why, f"{first}{_spelt(book, spot)}") from None
    ends = {"least": _raw(spec, low, how), "most": _raw(spec, high, how)}
    return ends if span["step"] is None else {**ends, "step": span["step"]}


def step_words(book: Workbook, spot: Spot) -> str:
    """Which step is meant where none is said; nothing of a given without steps."""
    if spot.spec.kind not in RANGED:
        return ""
    settings = book.results[spot.tab].settings
    step = _text(spot.spec, step_of(spot.spec, settings), settings.notation)
    return f" The step of “{spot.label}” is {step}."


def _spelt(book: Workbook, spot: Spot) -> str:
    """How values are written, with values of the given's own kind."""
    spec, settings = spot.spec, book.results[spot.tab].settings
    step = step_of(spec, settings)
    two, six, five = (_text(spec, count * step, settings.notation) for count in (4, 12, 10))
    return f"As {two} to {six} by {_text(spec, step, settings.notation)}, or {two}; {five}; {six}."


def _read(book: Workbook, spot: Spot, part: str) -> Iterator[Any]:
    spec, how = spot.spec, book.results[spot.tab].settings.notation
    options = options_of(book, spec)
    if options:
        word = chosen(part, options, spot.value(book))
        yield spec.reader.to_toml(spec.reader.read(word, how, spec.unit), how, spec.unit)
        return
    span = _RANGE.fullmatch(part) if spec.kind in RANGED else None
    values = [_value(spec, part, how)] if span is None else _span(book, spot, span, how)
    for value in values:
        problem = out_of_limits(spec, value, how)
        if problem:
            raise AskError(f"“{part:.40}”: {problem}")
        yield spec.reader.to_toml(value, how, spec.unit)


def _value(spec: GivenSpec, text: str, how: Notation) -> Any:
    try:
        return spec.reader.read(text, how, spec.unit)
    except NotationError as error:
        raise AskError(f"“{text:.40}”: {error.why}.", error.way_out) from None


def _span(book: Workbook, spot: Spot, span: re.Match[str], how: Notation) -> list[Any]:
    spec = spot.spec
    low, high = (Fraction(_value(spec, span[end], how)) for end in ("low", "high"))
    settings = book.results[spot.tab].settings
    step = step_of(spec, settings) if span["step"] is None else read_step(spec, span["step"], settings)
    count = int(abs(high - low) // step) + 1
    if count > MOST_RUNGS:
        raise AskError(f"these are {count} values.", f"Take a wider stride: at most {MOST_RUNGS} are shown.")
    step = step if high >= low else -step
    values = [low + n * step for n in range(count)]
    return [int(value) for value in values] if spec.kind == "count" else values


def chosen(word: str, options: Sequence[str], now: Any = None) -> str:
    """The option that is meant: called so, or with all these words.

    Of several, one that begins as the present value does (US, JP …) and has the fewest words.
    Raises `AskError`.
    """
    said = word.casefold().split()
    for option in options:
        if option.casefold().split() == said:
            return option
    like = str(now or "").casefold().split()[:1]
    fitting: dict[tuple[bool, int], list[str]] = {}
    for option in options:
        words = option.casefold().split()
        if all(any(each.startswith(one) for each in words) for one in said):
            fitting.setdefault((words[:1] != like, len(words)), []).append(option)
    if not fitting:
        raise AskError(f"“{word:.40}” is none of the choices.", near(word, options))
    best = fitting[min(fitting)]
    if len(best) > 1:
        raise AskError(f"“{word:.40}” could be {' or '.join(best[:4])}.", "Write more of it.")
    return best[0]


def suggested(book: Workbook, spot: Spot) -> str:
    """Values to begin with: the choices near the present one, or two strides to each side of it."""
    spec, now = spot.spec, spot.value(book)
    options = list(options_of(book, spec))
    how = book.results[spot.tab].settings.notation
    if options:
        alike = [o for o in options if o.split()[:1] == str(now or "").split()[:1]]
        few = options if len(options) <= _FEW else alike
        if len(few) > _FEW or not few:
            at = few.index(now) if now in few else 0
            few = (few or options)[max(0, at - 2) : at + 3]
        return "; ".join(few)
    if now is None:
        return ""
    if spec.kind not in RANGED:
        raw = spec.reader.to_toml(now, how, spec.unit)
        # Several measurements are one value, but ; between them would part them here.
        return "" if isinstance(raw, list) and len(raw) > 1 else str(raw[0] if isinstance(raw, list) else raw)
    stride = _stride(Fraction(now), step_of(spec, book.results[spot.tab].settings), how.system)
    values = [now + n * stride for n in range(-2, 3)]
    inside = [value for value in values if value >= 0 and not out_of_limits(spec, _typed(spec, value), how)]
    low, high = (_text(spec, value, how) for value in (inside[0], inside[-1]))
    return f"from {low} to {high} by {_text(spec, stride, how)}" if len(inside) > 1 else low


def _typed(spec: GivenSpec, value: Fraction) -> Any:
    return int(value) if spec.kind == "count" else value


def _raw(spec: GivenSpec, value: Fraction, how: Notation) -> Any:
    return spec.reader.to_toml(_typed(spec, value), how, spec.unit)


def _text(spec: GivenSpec, value: Fraction, how: Notation) -> str:
    return str(_raw(spec, value, how))


def _stride(now: Fraction, step: Fraction, system: str) -> Fraction:
    """A tenth of the present value or the next more, in steps as they stand on a ruler."""
    decimal = system == "cm" or step == 1
    strides, power = _STRIDES["cm" if decimal else "in"], 10 if decimal else 8
    scale = 1
    while True:
        for each in strides:
            if each * scale * step * 10 >= now:
                return each * scale * step
        scale *= power
