"""Helpers on plain data, as tomllib gives it: dicts, lists, strings, numbers, truth values, dates."""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Iterable, Mapping
from typing import Any

Plain = Mapping[str, Any]


def folded(name: str) -> str:
    """The form in which two names are compared: NFC, casefold, NFC again (casefold can undo NFC)."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold()).strip()


def same_plain(one: Any, other: Any) -> bool:
    """Equal in value *and* type. Python calls 1, 1.0 and True equal; a file must not confuse them."""
    if one is other:
        return True
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.keys() == other.keys() and all(same_plain(one[k], other[k]) for k in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same_plain, one, other))
    if type(one) is not type(other):
        return False
    if isinstance(one, float) and math.isnan(one):
        return math.isnan(other)
    return bool(one == other)


def is_table_list(value: Any) -> bool:
    """Whether a value is rows: a list, not empty, of tables only."""
    return isinstance(value, list) and bool(value) and all(isinstance(v, Mapping) for v in value)


def is_link(value: Any) -> bool:
    """Whether a raw given (or a cell) is a link: `{ from = "Lantern blocks", take = "width" }`."""
    return isinstance(value, Mapping) and isinstance(value.get("from"), str)


def free_name(wanted: str, taken: Iterable[str]) -> str:
    """`wanted`, or `wanted 2`, `wanted 3` …: the first that is not taken (compared folded)."""
    return FreeNames(taken).like(wanted)


class FreeNames:
    """Names that are free among many, for many: each number is tried once."""

    def __init__(self, taken: Iterable[str]) -> None:
        self._used = {folded(name) for name in taken}
        self._free: dict[str, int] = {}

    def like(self, wanted: str) -> str:
        """What `free_name` says."""
        if folded(wanted) not in self._used:
            return wanted
        stem, _, tail = wanted.rpartition(" ")
        base = stem if stem and tail.isascii() and tail.isdigit() and len(tail) < 6 else wanted
        number = self._free.get(base, 2)
        while folded(f"{base} {number}") in self._used:
            number += 1
        self._free[base] = number
        return f"{base} {number}"

    def take(self, name: str) -> None:
        """From now on this one is taken."""
        self._used.add(folded(name))
