"""The numbers and the words of a typed question, as they stand in it. Knows no screen, and no calculator."""

import re
from collections.abc import Iterator
from itertools import pairwise, takewhile

from boltend.core.values import Notation
from boltend.core.values.lengths import inches_of, nearly_alike
from boltend.shell.start_search import words_of

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
_TIMES = re.compile(r"(?<=[\d\"″¼½¾⅛⅜⅝⅞]) ?([x×]|by) ?(?=\d)")
_DOZEN = re.compile(r"(?<![/.])\b(\d+|an?|one) dozen\b")
_TENS = re.compile(r"\b(twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)[- ]([a-z]+)\b")

NUMBER = r"\d+(?:\.\d+|[ -]\d+/\d+|/\d+|[¼½¾⅛⅜⅝⅞])?"
UNIT = r"(?: ?(?:inches|inch|in|cm|mm|m|yards|yard|yds|yd)\b| ?[\"″])?"
KIND = r"(?: (?:finished|unfinished|raw|cut)\b(?! \d))?"
_AND = r"(?:, (?:and )?|; | and )"
_NO_NOUN = r"(?! ?(?!by\b|x\b|and \d)[a-z])"
"""“by 72, 3 borders” is no list of two lengths."""
_LIST = rf"{NUMBER}{UNIT}{KIND}(?:{_AND}{NUMBER}{UNIT}{KIND}{_NO_NOUN})*"

LENGTH = re.compile(rf"(?<![\w/.])({NUMBER})({UNIT})({KIND})(?![\w/])", re.IGNORECASE)
"""One number, with its unit and what is said of its kind."""
PAIR = re.compile(rf"(?<![\w/.])({_LIST}) ?(?:by|x|×) ?({_LIST})(?![\w/])", re.IGNORECASE)
"""So much by so much."""
ONE_PAIR = re.compile(
    rf"(?<![\w/.])({NUMBER}{UNIT}{KIND}) ?(?:by|x|×) ?({NUMBER}{UNIT}{KIND})(?![\w/])", re.IGNORECASE
)
SEVERAL = re.compile(rf"(?<![\w/.])(?:{NUMBER}{UNIT}{KIND}{_AND}){{2,}}{NUMBER}{UNIT}{KIND}(?![\w/])")
"""Three or more in a row."""
_IN_A_ROW = re.compile(rf"(?<![\w/.])(by |x )?({NUMBER}{UNIT}(?: {NUMBER}{UNIT})+)(?= ?(by|x|×)\b)?(?![\w/])")
_UP, _ACROSS = "long|high|tall|deep|down", "wide|across"
_SIDED = re.compile(
    rf"((?:, |\band )?)(?<![\w/.])({NUMBER}{UNIT}{KIND}) ({_UP}|{_ACROSS})"
    rf"(?: (?:by|x) ({NUMBER}{UNIT}{KIND})(?: ({_UP}|{_ACROSS})\b)?"
    rf"|,?(?: and)? ({NUMBER}{UNIT}{KIND}) ({_UP}|{_ACROSS})\b)"
)
"""“60 wide by 72 long”, “72 long and 60 wide”."""
_SIZE_BETWEEN = re.compile(rf"(?: (?:finished|square|big|cut))*[ ]{NUMBER} ?(?:inches|inch|in|cm|\"|″)")

_WORD = re.compile(r"[^\W\d_]+")
_BETWEEN = frozenset(words_of("a an the of at is are be with to each square finished unfinished big all"))
"""Words between a number and what it counts or measures."""
_WANTED = frozenset(words_of("least reach reaches bring brings wanted want cover covers to until"))
"""Before a size that is wanted, and not in hand."""
_WORKS = frozenset(("quilt", "bind", "back"))
"""“to quilt 60 by 72” wants no size."""

_SAID_BEFORE = re.compile(r"\b(finish\w*|unfinished|raw)(?: (?:size|of|is|at|to|top|quilt))* $")
_SAID_BEHIND = re.compile(r" (?:[a-z]+ )?(finished|unfinished|raw|cut)\b(?! \d)")
INCHES = Notation()
"""Where no unit is said, inches are meant."""


def in_figures(sentence: str) -> str:
    """A sentence in small letters, its numbers in figures, and commas between lengths in a row."""
    text = _TIMES.sub(r" \1 ", " ".join(re.sub(r"[()]", " ", sentence.casefold()).split()))
    text = _TENS.sub(
        lambda m: str(_WORDS[m[1]] + _WORDS[m[2]]) if _WORDS.get(m[2], 10) < 10 else m.group(), text
    )
    text = _WORD.sub(lambda m: str(_WORDS.get(m.group(), m.group())), text)
    text = _DOZEN.sub(lambda m: str(12 * int(m[1] if m[1].isdigit() else 1)), text)
    return _IN_A_ROW.sub(_with_commas, _SIDED.sub(_by_sides, text))


def _by_sides(sided: re.Match[str]) -> str:
    """“60 by 72”, the width first; behind other measurements of the same side the order stays."""
    before, first, side = sided.group(1, 2, 3)
    second = sided[4] or sided[6]
    turned = not before and side in _UP and (sided[5] or sided[7] or "wide") in _ACROSS
    return f"{before}{second} by {first}" if turned else f"{before}{first} by {second}"


def beside_by(pair: re.Match[str]) -> re.Match[str]:
    """Of a pair of lists whose numbers are not nearly the same only the two beside “by” are meant.

    “60 x 72, 2 1/2 in strips” is 60 by 72.
    """
    sides = [
        [inches_of(number.group(), INCHES) for number in LENGTH.finditer(side)] for side in pair.groups()
    ]
    return (
        pair
        if all(map(nearly_alike, sides))
        else ONE_PAIR.search(pair.string, pair.start(), pair.end()) or pair
    )


def _with_commas(row: re.Match[str]) -> str:
    """“60 1/4 60 3/8 60 1/4” is three times nearly the same; “12 12 in blocks” are twelve of 12 in."""
    several = [number.group() for number in LENGTH.finditer(row[2])]
    values = [inches_of(text, INCHES) for text in several]
    measured = len(several) > 2 or row[1] or row[3]
    if measured and nearly_alike(values):
        return (row[1] or "") + ", ".join(several)
    return row.group()


def kind_said(text: str, start: int, end: int) -> str:
    """What is said of a length's kind beside it: “finished”, “cut”, or nothing."""
    said = _SAID_BEHIND.match(text, end) or _SAID_BEFORE.search(text, 0, start)
    if said is None:
        return ""
    return "finished" if said[1].startswith("finish") else "cut"


def words_on(text: str, end: int) -> Iterator[str]:
    """The words right behind a number, up to a mark or a number, without those that only join."""
    part = "".join(takewhile(lambda c: c.isalpha() or c in " -'’", text[end:]))
    return (word for word in _WORD.findall(part) if word not in _BETWEEN)


def words_back(text: str, start: int) -> Iterator[str]:
    """The words right before a number, the nearest first."""
    part = "".join(takewhile(lambda c: c.isalpha() or c in " -'’", reversed(text[:start])))[::-1]
    words = _WORD.findall(part)
    return (word for word in reversed(words) if word not in _BETWEEN or word in _WANTED)


def is_wanted(text: str, start: int) -> bool:
    """Whether one of the three words before a number says that a size is wanted."""
    words = ["", *words_back(text, start)][:4]
    return any(word in _WANTED and not (word == "to" and on in _WORKS) for on, word in pairwise(words))


def past_a_size(text: str, end: int) -> int:
    """Where a size between a count and its noun ends: “30 finished 9 in blocks” are blocks, and 30."""
    between = _SIZE_BETWEEN.match(text, end)
    return between.end() if between else end


def words_in(text: str) -> list[str]:
    """All words of a text."""
    return _WORD.findall(text)
