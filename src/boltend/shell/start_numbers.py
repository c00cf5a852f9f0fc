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
_AND = r"(?:, (?:and )?|; | and )"
_NO_NOUN = r"(?! ?(?!by\b|x\b)[a-z])"
"""“by 72, 3 borders” is no list of two lengths."""
_LIST = rf"{_NUMBER}{_UNIT}(?:{_AND}{_NUMBER}{_UNIT}{_NO_NOUN})*"
_PAIR = re.compile(rf"(?<![\w/.])({_LIST}) ?(?:by|x|×) ?({_LIST})(?![\w/])", re.IGNORECASE)
_SEVERAL = re.compile(rf"(?<![\w/.])(?:{_NUMBER}{_UNIT}{_AND}){{2,}}{_NUMBER}{_UNIT}(?![\w/])")
_SIZE_BETWEEN = re.compile(rf"(?: (?:finished|square|big|cut))*[ ]{_NUMBER} ?(?:inches|inch|in|cm|\"|″)")
_WORD = re.compile(r"[^\W\d_]+")

_BETWEEN = frozenset(words_of("a an the of at is are be with to each square finished big all"))
"""Words between a number and what it counts or measures."""

_WANTED = frozenset(words_of("least reach reaches bring brings wanted want cover covers to until"))
"""Before a size that is wanted, and not in hand."""

_SIDES = {"wide": "width", "across": "width", "high": "height", "tall": "height", "long": "height"}

_ALSO = {"apart": "spaci", "squar": "precu", "strip": "precu"}
"""What a number is said to be, and how the given for it is called; by their stems."""

_ROWS = ("borde",)
"""What rows are asked for: a border's width is no “border step”."""

_LENGTHS = ("finished", "length", "cut", "measured")
_PLURAL = "s"
_STEM = 5


class Taken(NamedTuple):
    """Givens for each tab, by name; what was put where, for the person: (label, text); numbers not used."""

    givens: tuple[Mapping[str, object], ...]
    said: tuple[tuple[str, str], ...]
    left: tuple[str, ...] = ()


class _Open(NamedTuple):
    """A given that nobody has filled yet."""

    tab: int
    spec: GivenSpec

    @property
    def noun(self) -> str:
        """What its label begins with: “Blocks in hand” are blocks, “Thickness of the quilt” is no quilt."""
        return _stem(next(iter(_WORD.findall(self.spec.label)), ""))

    def speaks_of(self, noun: str) -> bool:
        """Whether a word stands anywhere in its label."""
        return _stem(noun) in map(_stem, _WORD.findall(self.spec.label))


class _Taking:
    """One question as it is read: each given is filled once, each number goes to one place."""

    def __init__(self, text: str, opens: list[_Open], how: Notation) -> None:
        self.text, self.opens, self.how = text, opens, how
        self.values: dict[_Open, object] = {}
        self.said: list[tuple[int, str, str]] = []
        """In which tab, under which label, which text."""
        self._used: list[tuple[int, int]] = []

    def free(self, pattern: re.Pattern[str]) -> Iterator[re.Match[str]]:
        """Where a pattern stands in what no given has taken yet."""
        for match in pattern.finditer(self.text):
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

    def put(self, at: _Open, text: str) -> bool:
        """Fill a given, where it takes the text."""
        if at in self.values or not self.reads(at.spec, text):
            return False
        self.values[at] = raw_of(at.spec, text, self.how)
        self.said.append((at.tab, at.spec.label, text))
        return True

    def named(self, noun: str, kinds: Sequence[str]) -> _Open | None:
        """The first given whose label begins with a noun, or with what the trade calls so."""
        if _stem(noun) in _ROWS:
            return None
        nouns = (_stem(noun), _ALSO.get(_stem(noun), ""))
        return next((o for o in self.opens if o.spec.kind in kinds and o.noun in nouns), None)


def taken(
    sentence: str,
    tabs: Tabs,
    specs: Mapping[str, CalculatorSpec],
    tables: Callable[[str], Table | None],
    how: Notation,
) -> Taken:
    """What a typed question fills of the givens of these tabs, but for those that are said or linked."""
    opens, rows = [], []
    for n, (_, calculator, givens) in enumerate(tabs):
        for given in specs[calculator].givens if calculator in specs else ():
            if given.kind == "rows":
                rows.append((_Open(n, given), givens.get(given.name)))
            elif given.name not in givens and not given.setting:
                opens.append(_Open(n, given))
    taking = _Taking(_in_figures(sentence), opens, how)
    _take_row(taking, tables)
    for at, said in rows:
        _take_rows(taking, at, said)
    for pair in taking.free(_PAIR):
        _take_pair(taking, pair)
    for several in taking.free(_SEVERAL):
        _take_several(taking, several)
    for number in taking.free(_LENGTH):
        _take_one(taking, number)
    filled: list[dict[str, object]] = [{} for _ in tabs]
    for at, value in taking.values.items():
        filled[at.tab][at.spec.name] = value
    left = tuple(number.group().strip() for number in taking.free(_LENGTH))
    said_in_order = sorted(taking.said, key=lambda said: said[0])
    return Taken(tuple(filled), tuple((label, text) for _, label, text in said_in_order), left)


def _in_figures(sentence: str) -> str:
    text = " ".join(sentence.casefold().split())
    text = _TENS.sub(
        lambda m: str(_WORDS[m[1]] + _WORDS[m[2]]) if _WORDS.get(m[2], 10) < 10 else m.group(), text
    )
    text = _WORD.sub(lambda m: str(_WORDS.get(m.group(), m.group())), text)
    return _DOZEN.sub(lambda m: str(12 * int(m[1] if m[1].isdigit() else 1)), text)


def _take_rows(taking: _Taking, at: _Open, said: object) -> None:
    """The widths of rows, as of borders: “two borders, 2 in and 4 in”, from the inside out."""
    width = next((c for c in at.spec.columns if c.name == "width"), None)
    rows = [dict(row) for row in said if isinstance(row, Mapping)] if isinstance(said, list) else []
    if width is None or any("width" in row for row in rows):
        return
    noun = re.escape(at.noun)
    lists = re.compile(
        rf"\b{noun}[a-z]*\b(?: (?:of|at|are|with))*[:,]? ({_LIST})(?![\w/])|({_LIST}) (?:\w+ )?{noun}[a-z]*\b"
    )
    for found in taking.free(lists):
        widths = [match.group().strip() for match in _LENGTH.finditer(found[1] or found[2])]
        with_unit = any(match[2] for match in _LENGTH.finditer(found[1] or found[2]))
        if with_unit and all(taking.reads(width, text) for text in widths):
            rows += [{} for _ in widths[len(rows) :]]
            taking.values[at] = [{**row, "width": text} for row, text in zip(rows, widths, strict=False)]
            taking.said.append((at.tab, at.spec.label.partition(",")[0], ", ".join(widths)))
            taking.use(found)
            return


def _take_pair(taking: _Taking, pair: re.Match[str]) -> None:
    """A size, of so much by so much: the width and the height of the first tab that wants both."""
    wanted = bool(_before(taking.text, pair.start()) & _WANTED)
    noun = next(iter(_words_on(taking.text, pair.end())), "")
    several = any("," in part or ";" in part or " and " in part for part in pair.groups())
    for width, height in _twins(taking.opens):
        if (
            width not in taking.values
            and width.speaks_of("wanted") is wanted
            and (width.spec.kind == "measured" or not several)
            and not (width.noun == "block" and _stem(noun) != "block")
        ):
            if taking.put(width, pair[1]) and taking.put(height, pair[2]):
                taking.use(pair)
            return


def _twins(opens: list[_Open]) -> Iterator[tuple[_Open, _Open]]:
    by_name = {(o.tab, o.spec.name): o for o in opens}
    for (tab, name), width in by_name.items():
        height = by_name.get((tab, name.replace("width", "height")))
        if height is not None and height is not width:
            yield width, height


def _take_several(taking: _Taking, several: re.Match[str]) -> None:
    """A list of measurements, where one given alone takes such a list."""
    measured = [o for o in taking.opens if o.spec.kind == "measured" and o not in taking.values]
    if len(measured) == 1 and taking.put(measured[0], re.sub(r",? and |, ", "; ", several.group())):
        taking.use(several)


def _take_one(taking: _Taking, number: re.Match[str]) -> None:
    """A number beside the word for what it counts or measures."""
    text, end = taking.text, number.end()
    if number[2]:  # “blocks of 9 in”, but never “two borders 30”
        nouns = [*_words_on(text, end)][:1] + [*_words_back(text, number.start())][:1]
        if nouns and nouns[0] in _SIDES and _before(text, number.start()) & _WANTED:
            side = _SIDES[nouns[0]]
            at = next((o for o in taking.opens if o.spec.name == f"target_{side}"), None)
            if at is not None and taking.put(at, number.group().strip()):
                taking.use(number)
            return
    else:  # “30 finished 9 in blocks” are blocks, and 30
        between = _SIZE_BETWEEN.match(text, end)
        nouns = [*_words_on(text, between.end() if between else end)][:1]
    kinds = _LENGTHS if number[2] else ("count",)
    for noun in nouns:
        at = taking.named(noun, kinds)
        if at is not None:
            if taking.put(at, number.group().strip()):
                taking.use(number)
            return


def _before(text: str, start: int) -> set[str]:
    """The three words before a number."""
    return set([*_words_back(text, start)][:3])


def _words_on(text: str, end: int) -> Iterator[str]:
    """The words right behind a number, up to a mark or a number, without those that only join."""
    part = "".join(takewhile(lambda c: c.isalpha() or c in " -'’", text[end:]))
    return (word for word in _WORD.findall(part) if word not in _BETWEEN)


def _words_back(text: str, start: int) -> Iterator[str]:
    """The words right before a number, the nearest first."""
    part = "".join(takewhile(lambda c: c.isalpha() or c in " -'’", reversed(text[:start])))[::-1]
    words = _WORD.findall(part)
    return (word for word in reversed(words) if word not in _BETWEEN or word in _WANTED)


def _take_row(taking: _Taking, tables: Callable[[str], Table | None]) -> None:
    """The name of a row, as of a bed or a precut, in the first tab, where it is one row's name alone."""
    for at in taking.opens:
        table = tables(at.spec.table) if at.spec.table is not None and at.tab == 0 else None
        if table is None:
            continue
        found: dict[str, re.Match[str]] = {}
        for name in table.rows:
            match = next(taking.free(_row_pattern(name)), None)
            if match is not None:
                found[name] = match
        longest = max((len(match.group()) for match in found.values()), default=0)
        names = [name for name, match in found.items() if len(match.group()) == longest]
        if len(names) > 1 and taking.how.system != "cm":
            names = [name for name in names if name.startswith("US ")] or names[: _only_precuts(names)]
        if len(names) == 1 and taking.put(at, names[0]) and names[0][0].isdigit():
            taking.use(found[names[0]])  # its size is its name


def _row_pattern(name: str) -> re.Pattern[str]:
    """How a row is called in passing: “queen”, “10 in squares” for the 10 in square pack."""
    short = _without_place(name)
    if short[:1].isdigit():
        words = short.split()
        size = next((n for n, word in enumerate(words) if word in ("square", "strip")), None)
        if size is not None:
            return re.compile(rf"(?<![\w/.]){re.escape(' '.join(words[: size + 1]))}s?\b")
    return re.compile(rf"(?<!\w){re.escape(short)}(?!\w)")


def _only_precuts(names: Sequence[str]) -> int:
    """Of precuts that are called alike the first is meant; of anything else none."""
    return 1 if all(name[0].isdigit() for name in names) else 0


def _without_place(name: str) -> str:
    """A bed's name without the country that it is of."""
    first, _, rest = folded(name).partition(" ")
    return rest if rest and first.isalpha() and len(first) == len("us") else folded(name)


def _stem(word: str) -> str:
    """A word so that its plural and its other forms are the same: by its first letters."""
    return word.casefold().removesuffix(_PLURAL)[:_STEM]
