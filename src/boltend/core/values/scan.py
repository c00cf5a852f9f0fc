"""Reading what a person typed, one character after the other: bounded, exact, and never evaluated.

Every text is checked first (length, hidden characters, foreign digits), so nothing behind it can take long.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple, NoReturn, TypeVar

from boltend.core.values.errors import NotationError, code_point

LONGEST = 100
"""Characters that one value may take."""
WHOLE_DIGITS = 12
DECIMALS = 12
FRACTION_DIGITS = 15
"""Digits of a numerator or denominator: what an exact conversion of a typed value may need to be shown in."""

_VULGAR = {c: Fraction(unicodedata.numeric(c)).limit_denominator(10) for c in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_SPACES = " \u00a0\u2009\u202f"  # plain, no-break, thin and narrow no-break: all come in by pasting
_SLASHES = "/\u2044\u2215"
_MINUS = "-\u2212"
_MINUSES, _DIGIT = frozenset(_MINUS), frozenset("0123456789")
_DIGITS = re.compile(r"[0-9]+")
_WORD = re.compile(r"[^\W\d_²³]+")
_R = TypeVar("_R")


class Scanned(NamedTuple):
    """A number as it was typed: its value, where it begins and ends, and whether a decimal point wrote it."""

    value: Fraction
    start: int
    end: int
    decimal: bool


def checked(text: str, longest: int = LONGEST) -> str:
    """Return `text` if it is short and all of it can be seen; else raise NotationError."""
    if not isinstance(text, str):
        raise TypeError(f"a text is read, not {type(text).__name__}")
    if len(text) > longest:
        raise NotationError(
            text, longest, f"this is {len(text)} characters long", f"keep it to {longest} characters"
        )
    if not (text.isascii() and text.isprintable()):
        for at, character in enumerate(text):
            _check_character(text, at, character)
    return text


def _check_character(text: str, at: int, character: str) -> None:
    refuse_unseen(text, at, character)
    if character.isdecimal() and not character.isascii():
        plain = "".join(str(unicodedata.decimal(c)) if c.isdecimal() else c for c in text)
        raise NotationError(
            text,
            at,
            f"this digit ({code_point(character)}) is not one of 0 to 9",
            "write plain digits",
            (plain,),
        )
    if character in "≈~≃≅":
        raise NotationError(
            text, at, f"{character} marks a rounded value, which is only for reading", "type the exact value"
        )


def refuse_unseen(text: str, at: int, character: str) -> None:
    """Raise NotationError for a control, bidi, zero-width or surrogate character."""
    if unicodedata.category(character) in ("Cc", "Cf", "Cs", "Zl", "Zp"):
        name = unicodedata.name(character, "a control character").lower()
        raise NotationError(
            text, at, f"a character that does not show: {code_point(character)}, {name}", "take it out",
            (text.replace(character, ""),),
        )  # fmt: skip


def guarded(text: str, read: Callable[[str], _R]) -> _R:
    """Read `text`; of the texts that an error offers, keep only those that read."""
    try:
        return read(text)
    except NotationError as error:
        if not error.offers:
            raise
        good = tuple(offer for offer in dict.fromkeys(error.offers) if readable(offer, read))
        quoted = " or ".join(f"“{offer}”" for offer in good)
        way_out = (
            f"{error.way_out}{'' if error.way_out == 'write' else ':'} {quoted}" if good else error.way_out
        )
        raise NotationError(error.text, error.at, error.why, way_out, good) from None


def readable(text: str, read: Callable[[str], object]) -> bool:
    """Tell whether `read` takes a text."""
    try:
        read(text)
    except NotationError:
        return False
    return True


class Scanner:
    """A place in one checked text, moving forward only."""

    __slots__ = ("pos", "text")

    def __init__(self, text: str, longest: int = LONGEST) -> None:
        self.text = checked(text, longest)
        self.pos = 0

    def fail(self, at: int, why: str, way_out: str, *offers: str) -> NoReturn:
        """Raise the error that points at character `at`."""
        raise NotationError(self.text, at, why, way_out, offers)

    def peek(self, ahead: int = 0) -> str:
        """Return the character at hand (or `ahead` of it), ``""`` at the end."""
        at = self.pos + ahead
        return self.text[at : at + 1]

    def spaces(self) -> bool:
        """Go past spaces; tell whether there were any."""
        start = at = self.pos
        while self.text[at : at + 1] in _SPACES and at < len(self.text):
            at += 1
        self.pos = at
        return at > start

    def word(self) -> str:
        """Take the letters at hand, lower case; ``""`` if there are none."""
        match = _WORD.match(self.text, self.pos)
        if not match:
            return ""
        self.pos = match.end()
        return match.group().casefold()

    def take(self, *options: str) -> str:
        """Take the first of `options` that stands here; ``""`` if none does."""
        for option in options:
            if self.text.startswith(option, self.pos):
                self.pos += len(option)
                return option
        return ""

    def starts_number(self) -> bool:
        """Tell whether a number begins here."""
        c = self.peek()
        return c in _DIGIT or c in _VULGAR or (c == "." and self.peek(1).isdigit())

    def sign(self, what: str, *, may_be_negative: bool = True) -> int:
        """Take a minus sign in front of a number: -1, or 1 without one."""
        self.spaces()
        if self.peek() == "+":
            self.fail(self.pos, "a plus sign is not needed", "leave it out", self.text.replace("+", "", 1))
        if self.peek() not in _MINUSES:
            return 1
        if not may_be_negative:
            self.fail(self.pos, f"{what} is never below 0", "write 0 or more")
        self.pos += 1
        return -1

    def end(self) -> None:
        """Take spaces and the end of the text; anything else is refused."""
        self.spaces()
        if self.peek():
            self.refuse_here()

    def number(self, example: str) -> Scanned:
        """Take one number: whole, decimal, a fraction or a mixed number."""
        if not self.starts_number():
            if not self.peek():
                self.fail(self.pos, "a number is missing here", f"write for example {example}")
            self.refuse_here(f"a number is wanted here; write for example {example}")
        start = self.pos
        value, decimal = self._number()
        self._refuse_after_number()
        return Scanned(value, start, self.pos, decimal)

    def refuse_here(self, otherwise: str = "") -> NoReturn:
        """Refuse the character at hand, with the reason that people most often need."""
        c, at = self.peek(), self.pos
        if c == ",":
            self._refuse_comma()
        if c == "^" or self.text.startswith("**", at):
            self.fail(at, "powers are not worked out here", "write the result")
        if c in "xX×*·" and not self.peek(1).isalpha():
            self.refuse_two(at, at + 1)
        if c in "+-−–—":
            self.fail(at, "sums are not worked out here", "write the result")
        if c == ":":
            self.fail(at, "a colon has no meaning here", "write hours and minutes as 2 h 30 min")
        if otherwise:
            why, _, way_out = otherwise.partition("; ")
            self.fail(at, why, way_out)
        if self.starts_number():
            self.fail(at, "two numbers side by side", "write one value")
        self.fail(at, f"“{c}” has no meaning here", "leave it out")

    def refuse_two(self, at: int, behind: int) -> NoReturn:
        """Refuse `6 x 12 1/2`: a size, or so many of a size, where one value belongs; offer either."""
        self.fail(
            at, "two values where one belongs (a size, or so many of one)",
            "write one of them here, the other in its own field",
            self.text[:at].rstrip(_SPACES), self.text[behind:].lstrip(_SPACES),
        )  # fmt: skip

    def _number(self) -> tuple[Fraction, bool]:
        if self.peek() in _VULGAR:
            return self._vulgar(), False
        if self.peek() == ".":
            return self._decimals(), True
        at = self.pos
        digits = self._digits()
        if self.peek() == ".":
            self._whole(digits, at)
            return int(digits) + self._decimals(), True
        if self.peek() and self.peek() in _SLASHES and not self._says_per():
            return self._fraction(digits, at), False
        whole, part = self._whole(digits, at), self._fraction_behind(digits, at)
        # One fraction made, where a sum would make three.
        return Fraction(whole * part.denominator + part.numerator, part.denominator), False

    def _digits(self) -> str:
        match = _DIGITS.match(self.text, self.pos)
        digits = match.group() if match else ""
        self.pos += len(digits)
        return digits

    def _whole(self, digits: str, at: int) -> int:
        if len(digits) > WHOLE_DIGITS:
            self.fail(at + WHOLE_DIGITS, f"a number of {len(digits)} digits", f"use {WHOLE_DIGITS} at most")
        return int(digits)

    def _vulgar(self) -> Fraction:
        value = _VULGAR[self.peek()]
        self.pos += 1
        return value

    def _decimals(self) -> Fraction:
        point = self.pos
        self.pos += 1
        digits = self._digits()
        if not digits:
            self.fail(
                point, "digits are missing after the point", "leave the point out",
                self.text[:point] + self.text[point + 1 :],
            )  # fmt: skip
        if len(digits) > DECIMALS:
            self.fail(point + 1 + DECIMALS, f"{len(digits)} decimals", f"use {DECIMALS} at most")
        return Fraction(int(digits), 10 ** len(digits))

    def _fraction(self, top: str, at: int) -> Fraction:
        """The rest of a fraction, from its slash."""
        if len(top) > FRACTION_DIGITS:
            self.fail(
                at + FRACTION_DIGITS, f"{len(top)} digits in a fraction", f"use {FRACTION_DIGITS} at most"
            )
        self.pos += 1
        under_at = self.pos
        under = self._digits()
        if not under:
            self.fail(
                under_at, "the lower number of the fraction is missing", "write it as 5/8, without spaces"
            )
        if len(under) > FRACTION_DIGITS:
            self.fail(
                under_at + FRACTION_DIGITS,
                f"{len(under)} digits in a fraction",
                f"use {FRACTION_DIGITS} at most",
            )
        if not int(under):
            self.fail(under_at, "nothing can be divided by 0", "write another number under the line")
        return Fraction(int(top), int(under))

    def _fraction_behind(self, whole: str, whole_at: int) -> Fraction | int:
        """The fraction of a mixed number: ``12 1/2``, ``12-1/2``, ``12½``; 0 if there is none."""
        start = self.pos
        spaced = self.spaces()
        if self.peek() in _VULGAR:
            return self._vulgar()
        if self.peek() and self.peek() in "-−–—":
            self._hyphen(spaced)
        elif not spaced or not self.peek().isdigit():
            self.pos = start
            return 0
        at = self.pos
        top = self._digits()
        head = self.text[:whole_at]
        if not self.peek() or self.peek() not in _SLASHES:
            self.fail(
                at, "two numbers side by side", "write one",
                f"{head}{whole}{self.text[at:]}", f"{head}{whole}/{self.text[at:]}",
            )  # fmt: skip
        part = self._fraction(top, at)
        if part.numerator >= part.denominator:
            good = (
                f"{int(whole) + part.numerator // part.denominator} {part % 1}"
                if part % 1
                else f"{int(whole) + part}"
            )
            self.fail(
                at, "the fraction of a mixed number must be below 1", "carry the whole part over",
                f"{head}{good}{self.text[self.pos :]}",
            )  # fmt: skip
        return part

    def _hyphen(self, spaced: bool) -> None:
        """Take the hyphen of ``12-1/2``: no spaces on either side, and a fraction behind it."""
        at = self.pos
        behind = self.text[at + 1 :].lstrip(_SPACES)
        before = self.text[:at].rstrip(_SPACES)
        if spaced or len(behind) < len(self.text) - at - 1:
            self.fail(
                at, "is this a mixed number or a subtraction?", "write the mixed number, or the result",
                f"{before} {behind}",
            )  # fmt: skip
        if self.peek() not in _MINUS:
            self.fail(at, f"“{self.peek()}” is a dash", "write a space", f"{before} {behind}")
        if not re.match(r"[0-9]+[/\u2044\u2215]", behind):
            self.fail(at, "sums are not worked out here", "write the result")
        self.pos += 1

    def _refuse_after_number(self) -> None:
        """What cannot follow a number, said before it is taken for a unit."""
        c, at = self.peek(), self.pos
        if not c:
            return
        if c == ",":
            self._refuse_comma()
        if (c in _SLASHES and not self._says_per()) or c == ".":
            self.fail(at, f"a second “{c}” in one number", "write one number, such as 12 1/2 or 12.5")
        if c in _VULGAR:
            self.fail(at, "a second fraction", "write one number")
        if c in "eE" and re.match(r"[eE][+-]?[0-9]", self.text[at:]):
            self.fail(at, "powers of ten are not read here", "write the number in full")
        if c == "_":
            self.fail(at, "an underscore inside a number", "leave it out", self.text.replace("_", ""))
        here = self.pos
        if self.spaces():
            self._refuse_second_number()
        self.pos = here

    def _refuse_second_number(self) -> None:
        if self.starts_number():
            self.fail(self.pos, "a second number without a unit between", "write one value")
        if self.peek() and self.peek() in _SLASHES and not self._says_per():
            self.fail(
                self.pos, "a space before the slash", "write the fraction without spaces",
                re.sub(r"\s*([/\u2044\u2215])\s*", r"\1", self.text),
            )  # fmt: skip

    def _says_per(self) -> bool:
        """Tell whether the slash at hand stands before a word: ``12.50/yd``."""
        return self.text[self.pos + 1 :].lstrip(_SPACES)[:1].isalpha()

    def _refuse_comma(self) -> NoReturn:
        at = self.pos
        before, after = self.text[:at], self.text[at + 1 :]
        if re.match(r"[0-9]{3}(?![0-9])", after):
            self.fail(
                at, "a comma inside a number: thousands or decimals?", "write it without",
                (before + after).replace(",", ""), f"{before}.{after}",
            )  # fmt: skip
        if after[:1].isdigit():
            self.fail(at, "a comma inside a number", "write the decimals after a point", f"{before}.{after}")
        self.fail(at, "a comma has no meaning here", "write one value, decimals after a point")
