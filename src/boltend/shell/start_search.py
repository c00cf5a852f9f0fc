"""Searching a list by words: what has all of them first, and what has most of them where none has all."""

from collections.abc import Callable, Sequence
from itertools import compress
from typing import TypeVar

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
}
"""Other words for the trade's words: who types one finds what bears the other. From memory, no source."""


def words_of(text: str) -> list[str]:
    """The words of a search, folded, without their question marks and the like."""
    stripped = (word.strip(_MARKS) for word in text.casefold().split())
    return [word for word in stripped if word]


_SMALL = frozenset(
    words_of(
        "a about am an and any are as at be by can do does for from give have how i if in is it many me much "
        "my of off on or our so than that the their there they this to what when which will with you your"
    )
)
"""Words of a question that say nothing of what it is about."""

_NUMBERS = frozenset(
    words_of(
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred dozen"
    )
)

_EARLY = 2
"""Telling words of a title that say what it is about: “How much backing” is more so than “… and backing”."""

_HOW_MANY = "many"
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

    Best has the words in its title, and at the beginning of a word there. Numbers are what a person will type
    later, and ask for nothing but how many, unless `numbers` are part of what is searched. Where no item has
    all, the small words of a question are left aside; where still none has, those come that have most of the
    others.
    """
    said = words_of(wanted)
    if not said:
        return list(items)
    words = [word for word in said if not is_number(word)] or said
    telling_first = next((word for word in said if word not in _SMALL), "")
    if len(words) < len(said) and telling_first not in words:
        items = sorted(items, key=lambda item: -_score(_HOW_MANY, f" {title(item).casefold()}", ""))
    texts = [(f" {title(item).casefold()}", f" {rest(item).casefold()}") for item in items]
    telling = [word for word in words if word not in _SMALL]
    for tried in (*([said] if numbers else []), words, telling):
        scores = [[_score(word, *text) for word in tried] for text in texts]
        scored = zip(scores, items, strict=True)
        # The small words of a question say nothing of which answer is the better one.
        tells = [word not in _SMALL for word in tried] if telling else [True] * len(tried)
        whole = [
            ((sum(compress(score, tells)), sum(score)), item)
            for score, item in scored
            if score and all(score)
        ]
        if whole:
            return _best(whole)
    had = [(sum(map(bool, score)), sum(score), item) for score, item in zip(scores, items, strict=True)]
    most = max((count for count, _, _ in had), default=0)
    return _best([((score, 0), item) for count, score, item in had if count == most]) if most else []


def _best(scored: list[tuple[tuple[int, int], T]]) -> list[T]:
    return [item for _, item in sorted(scored, key=lambda pair: pair[0], reverse=True)]


def _score(word: str, title: str, rest: str) -> int:
    """How well one word is met: 0 not at all. Of a plural the singular will do."""
    forms = [(word, 0)]
    if len(word) > 3 and word.endswith("s"):
        forms.append((word[:-1], 1))
    for form, less in forms:
        if form in title:
            early = sum(before not in _SMALL for before in title.partition(form)[0].split()) < _EARLY
            return (8 if f" {form}" in title else 6) + early - less
        if form in rest:
            return (4 if f" {form}" in rest else 2) - less
    return 0
