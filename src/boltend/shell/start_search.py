"""Searching a list by words: what has all of them first, and what has most of them where none has all."""

import re
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple, TypeVar

T = TypeVar("T")

_MARKS = "?!.,;:()“”‘’\"'"

SAME = {
    "batting": "wadding filling",
    "backing": "lining back",
    "half-square triangles": "hst",
    "quarter-square triangles": "qst",
    "fabric": "cloth material",
    "on point": "diagonal",
    "sash": "lattice",
    "how large": "big size",
    "precut": "square pack strip roll",
    "bring my top to": "reach at least make it how wide must be",
}
"""Other words for the trade's words: who types one finds what bears the other. From memory, no source."""


def words_of(text: str) -> list[str]:
    """The words of a search, folded, without their question marks and the like."""
    stripped = (word.strip(_MARKS) for word in text.casefold().split())
    return [word for word in stripped if word]


_SMALL = frozenset(
    words_of(
        "a about am an and any are as at be by can do does for from give how i if in is it many me much "
        "my of off on or our so than that the their there they this to what when which will with you your "
        "x inch inches cm make makes made need needs know want must quilt quilts"
    )
)
"""Words of a question that say nothing of what it is about."""

_NUMBERS = frozenset(
    words_of(
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred dozen"
    )
)

_OUT_OF_A_PACK = re.compile(
    r"\d(?: in| inch|\")? (?:square|strip)s?\b|\b(?:square pack|strip roll|fat quarter)"
)
"""“10 in squares” and the like are precuts, whatever else is made of squares."""

_PACKS = frozenset(words_of("square squares strip strips pack packs roll rolls fat quarter quarters"))

_SHORT = 4
"""Letters of a word that is met only where a word begins with it: “over” is no part of “cover”."""

_EARLY = 2
"""Telling words of a title that say what it is about: “How much backing” is more so than “… and backing”."""

_SO_MANY = "so many"
"""What somebody asks for who begins with a number: “thirty blocks” is so many blocks."""


def is_number(word: str) -> bool:
    """Whether a word is a number, in figures or, up to a hundred, in words."""
    return word[0].isdigit() or all(part in _NUMBERS for part in word.split("-"))


def with_others(text: str) -> str:
    """A text to be searched, with the other words for what it speaks of."""
    low = text.casefold()
    return " ".join([text, *(others for word, others in SAME.items() if word in low)])


def matching(
    items: Sequence[T],
    wanted: str,
    title: Callable[[T], str],
    rest: Callable[[T], str],
    *,
    numbers: bool = False,
) -> list[T]:
    """The items that have every word of `wanted`, best first.

    Best has the words in its title, and at the beginning of a word there. Numbers are what the answer needs,
    and ask for nothing but how many, unless `numbers` are part of what is searched. The small words of a
    question only settle what is equal without them. Where no item has all others, those come that have most.
    """
    said = words_of(wanted)
    if not said:
        return list(items)
    words = [word for word in said if not is_number(word)] or said
    if _OUT_OF_A_PACK.search(wanted.casefold()):
        words = [*(word for word in words if word not in _PACKS), "precuts"]
    telling_first = next((word for word in said if word not in _SMALL), "")
    # Who begins with a number has so many.
    more = [_SO_MANY] if len(words) < len(said) and telling_first not in words else []
    texts = [_Text(f" {title(item).casefold()} ", f" {rest(item).casefold()} ") for item in items]
    telling = [word for word in words if word not in _SMALL]
    for tried in (*([said] if numbers else []), telling or words):
        whole = [n for n, text in enumerate(texts) if tried and all(_score(word, text) for word in tried)]
        if whole:
            break
    else:
        had = [sum(_score(word, text) > 0 for word in telling) for text in texts]
        most = max(had, default=0)
        whole = [n for n, count in enumerate(had) if count == most > 0]
    return [items[n] for n in sorted(whole, key=lambda n: _rank(tried, words, more, texts[n]), reverse=True)]


class _Text(NamedTuple):
    """What is searched of one item, with a blank before and behind every word."""

    title: str
    rest: str


def _rank(tried: Sequence[str], words: Sequence[str], more: Sequence[str], text: _Text) -> tuple[int, int]:
    """How well a text answers; the small words of a question only settle what is equal without them."""
    telling = [word for word in tried if word not in _SMALL] or tried
    met = sum(_score(word, text) for word in telling)
    pairs = sum(f" {one} {other}" in text.title + text.rest for one, other in pairwise(telling))
    pairs += 4 * sum(f" {phrase} " in text.title for phrase in more)
    return met + pairs, sum(f" {word} " in text.title for word in words if word in _SMALL)


def _score(word: str, text: _Text) -> int:
    """How well one word is met: 0 not at all. Of a plural the singular will do."""
    title, rest = text
    forms = [(word, 0)]
    if len(word) > 3 and word.endswith("s"):
        forms.append((word[:-1], 1))
    for form, less in forms:
        within = form if len(form) > _SHORT else f" {form}"
        if within in title:
            early = sum(before not in _SMALL for before in title.partition(form)[0].split()) < _EARLY
            return (8 if f" {form}" in title else 6) + early - less
        if within in rest:
            return (4 if f" {form}" in rest else 2) - less
    return 0
