"""What a typed sentence asks for by how it is made, beyond its single words. Knows no screen."""

import re
from collections.abc import Container
from functools import cache

NUMBERS = frozenset(
    re.findall(
        r"[a-z]+",
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred dozen",
    )
)
"""Words that are numbers."""

_N = r"\d+(?:[ -]\d+/\d+|/\d+|\.\d+|[¼½¾⅛⅜⅝⅞])?"
_IN = r"(?: ?(?:inch(?:es)?|in|cm|\"|″))"
_BY = rf"{_N}{_IN}? ?(?:by|x|×) ?{_N}"
_FEW = "(?:" + "|".join(sorted(NUMBERS - {"one", "hundred"})) + ")(?:-[a-z]+)?"
_MEASURED = re.compile(rf"({_N}{_IN}) (?:wide|high|tall|long|deep|square|finished|cut)\b")
"""“5 in wide” is 5 in."""

NO_BORDER = re.compile(r"\b(?:no|without(?: an?y?)?|not any) borders?\b", re.IGNORECASE)
"""“no border” asks for none."""

PRICE = re.compile(
    r"(?<![\w/.,])(?P<at>(?:at|@) ?)?(?P<sign>[$€£] ?)?"
    rf"(?P<number>\d+,\d\d|{_N})(?P<name> ?(?:[$€£]|(?:dollar|euro)s?\b))?"
    r"(?:(?: ?/ ?| (?:a|per|the) )(?P<per>yards?|yds?|yd|met(?:re|er)s?|m)\b)?"
    r"(?(per)|(?(sign)|(?(name)|(?!))))(?![\w/.]*\d)"
)
"""Money: a number for a yard or a metre, or with the sign or the name of a currency."""

_COSTS = re.compile(r"\b(?:prices?|costs?|charge|money)\b")
_HOW_MUCH = re.compile(
    r"\bhow much (?:(?:is|are) (?:it|this|that|they|all)|(?:will|would) (?:it|this|that|they|all) be)\b"
)
_OF_ANYTHING = re.compile(r"[^\W\d_]+")


def without_costs(text: str, empty: Container[str]) -> str:
    """A sentence without what it says of money, where it asks for something besides.

    `empty`: words that say nothing of what it asks for.
    """
    text = _HOW_MUCH.sub("cost", text)
    rest = _COSTS.sub(" ", PRICE.sub(" ", text))
    return rest if any(word not in empty for word in _OF_ANYTHING.findall(rest)) else text


LEFT_WHOLE = "squares are the blocks"
"""Of squares that are set with a sash, or counted and sized, nothing is cut."""

CUES = (
    (
        rf"\b(?:to|reach|until|want|wants)(?: (?:get|make|reach|at|least|about|be|to|it))* {_BY}"
        rf"|\bmake (?:[a-z]+ ){{0,3}}{_BY}"
        rf"|\bto(?: at least)? {_N}{_IN} (?:wide|high|tall|long)",
        "the size i want",
    ),
    (
        rf"(?<![\d/.] )(?<!by )(?<!x )\b(?:\d+|{_FEW}|dozen)(?: (?:[a-z]+|{_N}{_IN})){{0,2}} blocks?\b"
        r"(?! across| down)",
        "so many blocks",
    ),
    (
        r"^(?!.*\b(?:backings?|bindings?|borders?|patterns?|prints?|printed|enough|says)\b)"
        r".*(?:\d ?(?:yds?|yards?)\b|\d fat (?:quarters?|eighths?)\b.*\bsquares?\b)",
        "these yards",
    ),
    (
        r"^(?!.*\d ?(?:yds?|yards?)\b)(?!.*\b(?:pieces?|patch|triangles?|blocks? of|fat|cut)\b)"
        rf"(?=.*{_N}{_IN} (?:squares|square packs?)\b.*\bsash|.*\bsash.*{_N}{_IN} (?:squares|square packs?)\b"
        rf"|.*\b(?:\d+|{_FEW}) squares of {_N}{_IN})",
        LEFT_WHOLE,
    ),
    (r"(?=.*\b(?:backing|pattern|prints?|printed|enough|says)\b).*\d ?(?:yds?|yards?)\b", "printed"),
    (r"\d ?(?:by|x|×) ?\d+ blocks?\b", "is a top"),
    (_COSTS.pattern, "cost"),
    (rf"\bblocks? (?:are|measure|came|come)(?: out| at)? {_N}", "unequal"),
    (
        r"^(?!.*\d ?(?:yds?|yards?)\b)"
        rf".*(?:\bborders?(?: (?:of|at|is|are|each|both|to be))* {_N}"
        rf"|{_N}{_IN}(?: wide)?(?: [a-z]+)? borders?\b)",
        "my borders make",
    ),
)
"""How a sentence is made, and what it so asks for, in the words of the titles that answer that."""


@cache
def _compiled() -> tuple[tuple[re.Pattern[str], str], ...]:
    # When first searched: it takes 3 ms, which the first paint need not wait for.
    return tuple((re.compile(pattern), title) for pattern, title in CUES)


def cues_of(text: str) -> list[str]:
    """What a sentence asks for by how it is made."""
    return [title for pattern, title in _compiled() if pattern.search(text)]


def without_measures(text: str) -> str:
    """A sentence without the words that only say how a length is taken, and without what there is none of."""
    return _MEASURED.sub(r"\1", NO_BORDER.sub("", text))
