"""Values and lines as words, in the project's own units."""

import re
from collections.abc import Sequence
from fractions import Fraction

from boltend.core.contract import FoundSpec, GivenSpec, Line, Shown, step_size
from boltend.core.flow import Result
from boltend.core.values import KINDS, Notation, Surd, nearest
from boltend.core.values.units import INCHES, shown_unit

_LONGEST_DENOMINATOR = 64
"""A finer fraction says less to a person than its decimal behind ≈."""


def say_value(spec: GivenSpec | FoundSpec, value: object, how: Notation) -> str:
    """A given's or found's value as text; rows are counted, nothing is a dash."""
    if value is None:
        return "–"
    if spec.kind == "rows":
        count = len(value) if isinstance(value, tuple) else 0
        return f"{count} row" if count == 1 else f"{count} rows"
    return spec.reader.show(value, how, spec.unit, say_kind=spec.is_length)


def say_line(line: Line | str, how: Notation) -> str:
    """A line of working or a caution as text."""
    if isinstance(line, str):
        return line
    texts = [_say(value, how) for value in line.values]
    # Not by str.format: its fields reach into objects and can ask for a gigabyte of blanks.
    first, *others = line.words.split("{}")
    if len(others) != len(texts):
        return " ".join((line.words, *texts))  # a plugin's slip costs the line its looks, not the print
    return first + "".join(text + words for text, words in zip(texts, others, strict=True))


def _say(value: object, how: Notation) -> str:
    if isinstance(value, Shown):
        return _say_shown(value, how)
    if isinstance(value, Fraction) and value.denominator == 1:
        return str(value.numerator)
    if isinstance(value, Fraction | Surd):
        return _say_shown(Shown("number", value), how)
    return str(value)


def _say_shown(shown: Shown, how: Notation) -> str:
    value = shown.value
    if shown.kind not in KINDS or KINDS[shown.kind].check(value) is not None:
        return str(value)  # a plugin's slip in a line of words costs that line its unit, not the print
    is_length = shown.kind in ("finished", "cut", "length")
    text = KINDS["length" if is_length else shown.kind].show(value, how, shown.unit)
    if not isinstance(value, Fraction):
        return text
    # A working line is read, not typed back: beyond sixty-fourths the decimal tells more.
    parts = _parts(text)
    if is_length:
        # What has no short form in its own unit was shown in another: 2985 21/25 in are no yards to read.
        strange = shown.unit and not text.endswith(f" {shown.unit}") and not _on_a_ruler(parts)
        return _in_decimals(value, how, shown.unit) if strange or parts > _LONGEST_DENOMINATOR else text
    return f"≈ {_short(shown, how)}" if parts > _LONGEST_DENOMINATOR else text


def _parts(text: str) -> int:
    """The denominator in a text, 1 where there is none."""
    number = text.rpartition("/")[2].split()[0] if "/" in text else ""
    return int(number) if number.isdigit() else 1


def _on_a_ruler(parts: int) -> bool:
    return parts & (parts - 1) == 0


def _in_decimals(inches: Fraction, how: Notation, unit: str) -> str:
    """A length in its own unit to three decimals, behind ≈ where that is not all of it."""
    name = shown_unit(unit, how)
    exact = inches / INCHES[name]
    short = nearest(exact, Fraction(1, 1000))
    return f"{'' if short == exact else '≈ '}{KINDS['number'].show(short, how)} {name}"


def _estimated(text: str, value: object, spec: FoundSpec, how: Notation) -> str:
    """What is no exact number stands behind ≈, and a length in the project's own system, if no other does."""
    if isinstance(value, Fraction) and spec.is_length:
        own = shown_unit(spec.unit, how)
        if text.rpartition(" ")[2] in INCHES and not text.endswith((f" {own}", f" {how.system}")):
            text = _in_decimals(value, how, spec.unit)
    return text if "≈" in text else f"≈ {text}"


def _short(shown: Shown, how: Notation) -> str:
    """A number to three decimals, and a time to a tenth of a minute."""
    places = Fraction(1, 10) if shown.kind == "time" else Fraction(1, 1000)
    return KINDS[shown.kind].show(nearest(shown.value, places), how, shown.unit)


_DIRECTIONS = {"up": "up to the next", "down": "down to a whole", "nearest": "to the nearest"}


def rounding_lines(result: Result) -> list[str]:
    """A line for each found that its one rounding changed: exact, rounded, and to which step."""
    lines = []
    how = result.settings.notation
    for spec in result.spec.founds if result.spec else ():
        before, after = result.unrounded.get(spec.name), result.found.get(spec.name)
        if not spec.direction or before is None or after is None or before == after:
            continue
        step = spec.reader.show(_step(spec, result), how, spec.unit)
        exact = _say_shown(Shown(spec.kind, before, spec.unit), how)
        if spec.bounded:
            exact = _estimated(exact, before, spec, how)
        shown = say_value(spec, after, how)
        lines.append(f"{spec.label}: {exact}, {_DIRECTIONS[spec.direction]} {step}: {shown}")
    return lines


def _step(spec: FoundSpec, result: Result) -> Fraction:
    size = step_size(spec.step, spec.reader, result.settings.notation, result.settings.steps)
    return size if size is not None else Fraction(1)


def working_lines(result: Result) -> list[str]:
    """All the working of a tab: what links converted, the calculator's lines, the roundings."""
    how = result.settings.notation
    said = [
        say_line(line, how) for line in (*result.notes, *(result.answer.working if result.answer else ()))
    ]
    return said + [line for line in rounding_lines(result) if not told(line, said)]


def told(rounding: str, said: Sequence[str]) -> bool:
    """Whether the calculator's own line of a found leads to the rounded value already."""
    label, value = rounding.partition(": ")[0], rounding.rpartition(": ")[2]
    whole = re.compile(rf"(?<!\S)(?<!\d\s){re.escape(value)}(?=[.,;]?(?:\s|$))")
    return any(line.startswith(f"{label}: ") and whole.search(line) for line in said)


def caution_lines(result: Result) -> list[str]:
    """The cautions of a tab."""
    how = result.settings.notation
    cautions = [say_line(line, how) for line in (result.answer.cautions if result.answer else ())]
    return [*cautions, "Stopped early: the best found so far."] if result.stopped else cautions


def first_lines(result: Result) -> list[str]:
    """What a tab has done before anything is cut."""
    return [
        say_line(line, result.settings.notation) for line in (result.answer.first if result.answer else ())
    ]
