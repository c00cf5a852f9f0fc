"""The settings that one cloth is cut by, where its tabs may say different ones."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from boltend.core.contract import Line, Settings, length, line, percent


@dataclass(frozen=True)
class _Safe:
    """Which of several values is safe for all: the narrowest width, the greatest loss."""

    name: str
    words: str
    choose: Callable[[list[Any]], Any]
    show: Callable[[Fraction], object]


_SAFE = (
    _Safe("usable_width", "usable width", min, length),
    _Safe("squaring", "squaring loss", max, length),
    _Safe("prewash_across", "prewash loss of the width", max, percent),
    _Safe("prewash_along", "prewash loss of the length", max, percent),
)


def agreed_settings(
    shares: Sequence[tuple[str, Settings]], own: Mapping[str, object], *, precut: bool
) -> tuple[Settings, tuple[Line, ...]]:
    """One cloth has one width and is squared and washed once: what its tabs say of it, made one.

    `shares` are the tabs with their settings, `own` what the fabric says of itself. Where tabs differ the
    safe value holds for all, and a note says so. A precut is squared and washed only where it says so of
    itself, or a tab does: the project's and a calculator's settings speak for bolts.
    """
    settings = shares[0][1]
    notes: list[Line] = []
    chosen: dict[str, Any] = {"layers": min(each.layers for _, each in shares)}
    for safe in _SAFE:
        said = [(tab, _value(each, safe.name, own, precut=precut)) for tab, each in shares]
        value = chosen[safe.name] = safe.choose([each for _, each in said])
        others = [(tab, each) for tab, each in said if each != value]
        if others and not (precut and safe.name == "usable_width"):
            tab, other = others[0]
            words = "“{}” reckons with a {} of {}; together they are cut by {}, which is safe for all."
            notes.append(line(words, tab, safe.words, safe.show(other), safe.show(value)))
    return replace(settings, **chosen), tuple(notes)


def _value(settings: Settings, name: str, own: Mapping[str, object], *, precut: bool) -> Fraction:
    if precut and name != "usable_width" and name not in own and name not in settings.fixed:
        return Fraction(0)
    value: Fraction = getattr(settings, name)
    return value
