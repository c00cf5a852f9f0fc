"""Reads the sums in a line of working, as a person with a pencil would: `2 × 9 in + 3 × 2 in sash = 24 in`.

Only a sum that can be read whole is read; a word that is no mere name of a number ends it. Nothing here knows
a calculator: what stands left of `=` or `makes` is worked out, and held against what stands right of it.
"""

import math
import re
from fractions import Fraction
from typing import NamedTuple

INCHES = {
    "in": Fraction(1),
    "yd": Fraction(36),
    "ft": Fraction(12),
    "cm": Fraction(50, 127),
    "%": Fraction(1, 100),
}
NAMES = {
    "finished", "raw", "cut", "seam", "seams", "overage", "sash", "sashes", "border", "drop",
    "wanted", "top", "strip", "strips", "thickness", "tail", "waste", "spacer", "oversize", "inner",
    "ones", "whole", "blocks", "units", "for", "joins", "the", "two", "sides", "across",
    "down", "a", "at", "foot", "unit", "segments", "along", "sets", "to", "square",
    "it",
}  # fmt: skip
"""Words that name the number before them, and change nothing."""
TOKEN = re.compile(
    r"(?P<number>≈? ?\d+(?: \d+/\d+|/\d+|\.\d+)?)|(?P<of>seams? of )|(?P<per>per in)|(?P<word>[^\W\d]+)"
    r"|(?P<sign>[×÷+−()√=%])|(?P<space>\s+)|(?P<stop>.)"
)


class Sum(NamedTuple):
    """The text of one sum, both its sides in inches or bare, and how far they may be apart."""

    text: str
    left: float | Fraction
    right: float | Fraction
    slack: float
    counted: bool

    @property
    def holds(self) -> bool:
        """Whether both sides are the same: exactly, or where one is marked ≈ as near as its digits say.

        What is `counted` comes in wholes: a length over a length is a number of strips or panels.
        """
        if self.counted:
            return self.right in (math.floor(self.left), math.ceil(self.left))
        return abs(self.left - self.right) <= self.slack


class _Ended(Exception):
    """No more can be read."""


class _Reader:
    def __init__(self, tokens: list[str]) -> None:
        self.tokens, self.at = tokens, 0

    def peek(self) -> str:
        return self.tokens[self.at] if self.at < len(self.tokens) else ""

    def take(self) -> str:
        self.at += 1
        return self.tokens[self.at - 1]

    def sum(self) -> float | Fraction:
        value = self.product()
        while self.peek() in ("+", "−"):
            value = value + self.product() if self.take() == "+" else value - self.product()
        return value

    def product(self) -> float | Fraction:
        value = self.value()
        while self.peek() in ("×", "÷"):
            value = value * self.value() if self.take() == "×" else value / self.value()
        return value

    def value(self) -> float | Fraction:
        token = self.peek()
        if token == "(":
            self.take()
            value = self.sum()
            if self.peek() != ")":
                raise _Ended
            self.take()
            return value
        if token == "√":
            self.take()
            return math.sqrt(self.value())
        if not token[:1].isdigit():
            raise _Ended
        self.take()
        value = sum((Fraction(part) for part in token.split()), Fraction(0))
        if self.peek() in INCHES:
            value *= INCHES[self.take()]
        return value


def sums(line: str) -> list[Sum]:
    """Every sum of a line that can be read whole, with a sign of arithmetic in it."""
    parts: list[list[str]] = [[]]
    signs: list[str] = []  # between two parts: "=" or a stop
    for found in TOKEN.finditer(line):
        kind, text = found.lastgroup, found[0]
        if kind == "number":
            parts[-1].append(text.replace("≈", "≈ ").strip())
        elif kind == "of":
            parts[-1].append("×")  # 2 seams of 1/4 in
        elif text in ("=", "makes", "make"):
            signs.append("=")
            parts.append([])
        elif text in INCHES or kind == "sign":
            parts[-1].append(text)
        elif kind in ("space", "per") or _is_name(text, parts[-1]):
            continue
        else:
            signs.append("stop")
            parts.append([])
    said = []
    for left, sign, right in zip(parts, signs, parts[1:], strict=False):
        if sign == "=" and left and right and set("×÷+−") & {*left, *right}:
            made = _made(left, right)
            if made is not None:
                said.append(made)
    return said


def _is_name(word: str, before: list[str]) -> bool:
    """Whether a word only names the number before it; after a bare number `seams` is a length of its own."""
    if word not in NAMES or not before or before[-1] in "×÷+−(√":
        return False
    return not word.startswith("seam") or before[-1] in INCHES


def _made(left: list[str], right: list[str]) -> Sum | None:
    rounded = [token for token in (*left, *right) if token.startswith("≈")]
    text = f"{' '.join(left)} = {' '.join(right)}"
    values = []
    for side in (left, right):
        reader = _Reader([token.lstrip("≈ ") for token in side])
        try:
            values.append(reader.sum())
        except (_Ended, ZeroDivisionError, ValueError):
            return None
        if reader.at < len(side):
            return None
    slack = 0.0
    if rounded or "√" in text:
        digits = min((len(token.partition(".")[2]) for token in rounded), default=3)
        slack = float(10.0**-digits) + 1e-3 * abs(float(values[1]))
    counted = "÷" in left and len(right) == 1 and right[0].isdigit()
    return Sum(text, values[0], values[1], slack, counted)
