"""What is taken of a typed question so far: which givens are filled, and which of its words are used."""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from boltend.core.contract import GivenSpec
from boltend.core.values import Notation, NotationError
from boltend.core.values.lengths import show_length
from boltend.shell.start_reading import kind_said, words_in
from boltend.shell.typed import raw_of

_ALSO = {
    "apart": "spaci",
    "squar": "precu",
    "strip": "precu",
    "patch": "squar",
    "piece": "squar",
    "sashi": "sash",
    "tuck": "pillo",
    **dict.fromkeys(("fat", "pack", "roll"), "precu"),
}
"""What a number is said to be, and how the given for it is called; by their stems."""

_PIECES = ("piece", "square", "patch")
"""Whose sizes are told as cut: in a quilt of them another is seen."""

_ROWS = ("borde",)
"""What rows are asked for: a border's width is no “border step”."""

_PLURAL = "s"
_STEM = 5


class Open(NamedTuple):
    """A given that nobody has filled yet."""

    tab: int
    spec: GivenSpec

    @property
    def noun(self) -> str:
        """What its label begins with: “Blocks in hand” are blocks, “Thickness of the quilt” is no quilt."""
        return stem(next(iter(words_in(self.spec.label)), ""))

    def speaks_of(self, noun: str) -> bool:
        """Whether a word stands anywhere in its label."""
        return stem(noun) in map(stem, words_in(self.spec.label))


class Taking:
    """One question as it is read: each given is filled once, each number goes to one place."""

    def __init__(self, text: str, opens: list[Open], how: Notation) -> None:
        self.text, self.opens, self.how = text, opens, how
        self.values: dict[Open, object] = {}
        self.said: list[tuple[int, str, str]] = []
        """In which tab, under which label, which text."""
        self._used: list[tuple[int, int]] = []

    def free(self, pattern: re.Pattern[str]) -> Iterator[re.Match[str]]:
        """Where a pattern stands in what no given has taken yet."""
        text = self.text
        for start, end in self._used:
            text = f"{text[:start]}{'|' * (end - start)}{text[end:]}"
        for match in pattern.finditer(text):
            if not any(match.start() < end and start < match.end() for start, end in self._used):
                yield match

    def use(self, match: re.Match[str]) -> None:
        """These words are taken: they go to no other given."""
        self._used.append(match.span())

    def reads(self, spec: GivenSpec, text: str) -> bool:
        """Whether a given takes a text."""
        try:
            spec.reader.read(text, self.how, spec.unit)
        except (NotationError, ValueError):
            return False
        return True

    def put(self, at: Open, text: str, kind: str = "") -> bool:
        """Fill a given, where it takes the text; its `kind` is told."""
        if at in self.values or not self.reads(at.spec, text):
            return False
        self.values[at] = raw_of(at.spec, text, self.how)
        self.said.append((at.tab, at.spec.label, self._told(at, text, kind)))
        return True

    def _told(self, at: Open, text: str, kind: str) -> str:
        """What was taken, and as what: of a piece's cut size also how large it is once it is sewn."""
        if "finished" in text:
            return text
        plain = text.removesuffix(" cut")
        if at.spec.kind == "cut" and any(map(at.speaks_of, _PIECES)):
            cut = at.spec.reader.read(text, self.how, at.spec.unit)
            return f"{plain} cut, which finishes at {show_length(cut - 2 * self.how.seam, self.how)}"
        return f"{plain} {kind}".strip()

    def named(self, noun: str, kinds: Sequence[str]) -> Open | None:
        """The first given whose label begins with a noun, or with what the trade calls so."""
        if stem(noun) in _ROWS:
            return None
        nouns = (stem(noun), _ALSO.get(stem(noun), ""))
        return next((o for o in self.opens if o.spec.kind in kinds and o.noun in nouns), None)

    def length(self, number: re.Match[str], spec: GivenSpec, more: str = "", unit: str = "") -> str:
        """A length as it is typed into a given: with its kind, where that is not the given's own.

        `more`: the kind, and `unit`: the unit, where none is said beside it.
        """
        plain = f"{number[1]}{number[2] or unit}".strip()
        kind = kind_said(self.text, number.start(), number.start(3)) or more
        own = "cut" if spec.kind == "measured" else spec.kind
        return plain if kind in ("", own) else f"{plain} {kind}"


def stem(word: str) -> str:
    """A word so that its plural and its other forms are the same: by its first letters."""
    return word.casefold().removesuffix(_PLURAL)[:_STEM]
