"""The numbers of a typed question, put into the givens that they plainly mean. Knows no screen.

“thirty blocks of 9 in” fills the number of blocks and their width; what could mean two things fills nothing.
"""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import takewhile
from typing import NamedTuple

from boltend.core.contract import CalculatorSpec, GivenSpec, Table
from boltend.core.project.plain import folded
from boltend.core.values import Notation, NotationError
from boltend.shell.start_search import words_of
from boltend.shell.typed import raw_of

Tabs = Sequence[tuple[str, str, Mapping[str, object]]]

_WORDS = {
    word: number
    for number, word in enumerate(
        words_of(
            "two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
            "seventeen eighteen nineteen twenty"
        ),
        start=2,
    )
} | {"thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
_DOZEN = re.compile(r"(?<![/.])\b(\d+|an?|one) dozen\b")
_TENS = re.compile(r"\b(twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)[- ]([a-z]+)\b")
_NUMBER = r"\d+(?:\.\d+|[ -]\d+/\d+|/\d+|[¼½¾⅛⅜⅝⅞])?"
_UNIT = r"(?: ?(?:inches|inch|in|cm|mm|m|yards|yard|yds|yd)\b| ?[\"″])?"
_LENGTH = re.compile(rf"(?<![\w/.])({_NUMBER})({_UNIT})(?![\w/])", re.IGNORECASE)
_NO_NOUN = r"(?! ?(?!by\b|x\b)[a-z])"
"""“by 72, 3 borders” is no list of two lengths."""
_LIST = rf"{_NUMBER}{_UNIT}(?:(?:, (?:and )?|; | and ){_NUMBER}{_UNIT}{_NO_NOUN})*"
_PAIR = re.compile(rf"(?<![\w/.])({_LIST}) ?(?:by|x|×) ?({_LIST})(?![\w/])", re.IGNORECASE)
_WORD = re.compile(r"[^\W\d_]+")

_BETWEEN = frozenset(words_of("a an the of at is are be with to each square finished big wide long all"))
"""Words between a number and what it counts or measures."""

_WANTED = frozenset(words_of("least reach reaches bring brings wanted want cover covers to until"))
"""Before a size that is wanted, and not in hand."""

_LENGTHS = ("finished", "length", "cut", "measured")
_PLURAL = "s"
_STEM = 5


class Taken(NamedTuple):
    """Givens for each tab, by name; and what was put where, for the person: (label, text)."""

    givens: tuple[Mapping[str, object], ...]
    said: tuple[tuple[str, str], ...]


class _Open(NamedTuple):
    """A given that nobody has filled yet."""

    tab: int
    spec: GivenSpec

    def words(self) -> set[str]:
        return {_stem(word) for word in _WORD.findall(self.spec.label)}


class _Taking:
    """One question as it is read: each given is filled once, each number goes to one place."""

    def __init__(self, opens: list[_Open], how: Notation) -> None:
        self.opens, self.how = opens, how
        self.values: dict[_Open, object] = {}
        self.said: list[tuple[str, str]] = []

    def put(self, at: _Open, text: str) -> bool:
        """Fill a given, where it takes the text."""
        if at in self.values:
            return False
        try:
            at.spec.reader.read(text, self.how, at.spec.unit)
        except (NotationError, ValueError):
            return False
        self.values[at] = raw_of(at.spec, text, self.how)
        self.said.append((at.spec.label, text))
        return True

    def named(self, noun: str, kinds: Sequence[str]) -> _Open | None:
        """The first given whose label speaks of `noun`; a label that begins with it goes first."""
        fit = [o for o in self.opens if o.spec.kind in kinds and _stem(noun) in o.words()]
        tab = [o for o in fit if o.tab == fit[0].tab]
        begins = [o for o in tab if _stem(noun) == _stem(_WORD.findall(o.spec.label)[0])]
        return next(iter(begins or tab), None)


def taken(
    sentence: str,
    tabs: Tabs,
    specs: Mapping[str, CalculatorSpec],
    tables: Callable[[str], Table | None],
    how: Notation,
) -> Taken:
    """What a typed question fills of the givens of these tabs, but for those that are said or linked."""
    opens = [
        _Open(n, given)
        for n, (_, calculator, givens) in enumerate(tabs)
        if calculator in specs
        for given in specs[calculator].givens
        if given.name not in givens and not given.setting
    ]
    taking = _Taking(opens, how)
    text = _in_figures(sentence)
    for pair in _PAIR.finditer(text):
        _take_pair(taking, text, pair)
    # What is left stands apart from what was taken, so that no word goes to a number behind it.
    text = _PAIR.sub(lambda pair: "." * len(pair.group()), text)
    for number in _LENGTH.finditer(text):
        _take_one(taking, text, number)
    _take_row(taking, text, tables)
    givens: list[dict[str, object]] = [{} for _ in tabs]
    for at, value in taking.values.items():
        givens[at.tab][at.spec.name] = value
    return Taken(tuple(givens), tuple(taking.said))


def _in_figures(sentence: str) -> str:
    text = " ".join(sentence.casefold().split())
    text = _TENS.sub(
        lambda m: str(_WORDS[m[1]] + _WORDS[m[2]]) if _WORDS.get(m[2], 10) < 10 else m.group(), text
    )
    text = _WORD.sub(lambda m: str(_WORDS.get(m.group(), m.group())), text)
    return _DOZEN.sub(lambda m: str(12 * int(m[1] if m[1].isdigit() else 1)), text)


def _take_pair(taking: _Taking, text: str, pair: re.Match[str]) -> None:
    """A size, of so much by so much: the width and the height of the first tab that wants both."""
    before = set(list(_words_back(text, pair.start()))[:3])
    noun = next(iter(_words_on(text, pair.end())), "")
    wanted = bool(before & _WANTED)
    several = any("," in part or ";" in part or " and " in part for part in pair.groups())
    twins = [
        (width, height)
        for width, height in _twins(taking.opens)
        if width not in taking.values
        and _speaks_of(width, ("wanted",)) is wanted
        and (width.spec.kind == "measured" or not several)
        and not (_speaks_of(width, ("block",)) and _stem(noun) != "block")
    ]
    for width, height in twins[:1]:
        taking.put(width, pair[1])
        taking.put(height, pair[2])


def _twins(opens: list[_Open]) -> Iterator[tuple[_Open, _Open]]:
    by_name = {(o.tab, o.spec.name): o for o in opens}
    for (tab, name), width in by_name.items():
        height = by_name.get((tab, name.replace("width", "height")))
        if height is not None and height is not width:
            yield width, height


def _speaks_of(at: _Open, nouns: Sequence[str]) -> bool:
    return any(_stem(noun) in at.words() for noun in nouns)


def _take_one(taking: _Taking, text: str, number: re.Match[str]) -> None:
    """A number beside the word for what it counts or measures."""
    kinds = _LENGTHS if number[2] else ("count",)
    nouns = [*_words_on(text, number.end())][:1]
    if number[2]:  # “blocks of 9 in”, but never “two borders 30”
        nouns += [*_words_back(text, number.start())][:1]
    for noun in nouns:
        at = taking.named(noun, kinds)
        if at is not None:
            taking.put(at, number.group().strip())
            return


def _words_on(text: str, end: int) -> Iterator[str]:
    """The words right behind a number, up to a mark or a number, without those that only join."""
    part = "".join(takewhile(lambda c: c.isalpha() or c in " -'’", text[end:]))
    return (word for word in _WORD.findall(part) if word not in _BETWEEN)


def _words_back(text: str, start: int) -> Iterator[str]:
    """The words right before a number, the nearest first."""
    part = "".join(takewhile(lambda c: c.isalpha() or c in " -'’", reversed(text[:start])))[::-1]
    words = _WORD.findall(part)
    return (word for word in reversed(words) if word not in _BETWEEN or word in _WANTED)


def _take_row(taking: _Taking, text: str, tables: Callable[[str], Table | None]) -> None:
    """The name of a row, as of a bed, in the first tab: “queen” where it is one row's name alone."""
    said = f" {' '.join(_WORD.findall(text))} "
    for at in taking.opens:
        table = tables(at.spec.table) if at.spec.table is not None and at.tab == 0 else None
        if table is None:
            continue
        named = {name: _without_place(name) for name in table.rows}
        found = [name for name, short in named.items() if f" {short} " in said]
        longest = max((len(named[name]) for name in found), default=0)
        found = [name for name in found if len(named[name]) == longest]
        if len(found) > 1 and taking.how.system != "cm":
            found = [name for name in found if name.startswith("US ")]
        if len(found) == 1:
            taking.put(at, found[0])


def _without_place(name: str) -> str:
    """A bed's name without the country that it is of."""
    first, _, rest = folded(name).partition(" ")
    return rest if rest and len(first) == len("us") else folded(name)


def _stem(word: str) -> str:
    """A word so that its plural and its other forms are the same: by its first letters."""
    return word.casefold().removesuffix(_PLURAL)[:_STEM]
