"""Searching a list by words: what has all of them first, and what has most of them where none has all."""

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from math import log2
from typing import NamedTuple, TypeVar

from boltend.shell.start_cues import LEFT_WHOLE, NUMBERS, cues_of, without_costs, without_measures

T = TypeVar("T")

_MARKS = "?!.,;:()“”‘’\"'"

SAME = {
    "batting": "wadding filling",
    "backing": "lining back",
    "half-square triangles": "hst",
    "quarter-square triangles": "qst",
    "fabric": "cloth material",
    "on point": "diagonal",
    "set on point": "setting triangles",
    "sash": "lattice",
    "how large": "big size",
    "which quilts": "how big large",
    "precut": "square pack strip roll",
    "bring my top to": "reach at least make it how wide must be bigger larger wider enlarge",
    "unequal": "different sizes not the same odd uneven square up too small",
    "bed": "mattress hang down",
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
        "x inch inches cm yd yds yard yards them she he has have her some size make makes made need needs "
        "know want must quilt quilts"
    )
)
"""Words of a question that say nothing of what it is about."""

_OF_COSTS = frozenset(
    words_of("fabric fabrics cloth material all total everything would buy list shop shopping customer")
)
"""Words beside a cost of which nothing else is asked."""

_OUT_OF_A_PACK = re.compile(
    r"\d(?: in| inch|\")? (?:square|strip)s?\b(?! blocks?\b)|\b(?:square pack|strip roll|fat quarter)"
)
"""“10 in squares” and the like are precuts, whatever else is made of squares."""

_YARDS = re.compile(r"\d ?(?:yds?|yards?)\b")
"""Out of so many yards squares are cut: no pack of them is meant."""

_PACKS = frozenset(words_of("square squares strip strips pack packs roll rolls fat quarter quarters"))

_SHORT = 4
"""Letters of a word that is met only where a word begins with it: “over” is no part of “cover”."""

_SENTENCE = 2
"""More telling words than these are a sentence, of which not every word need be met."""

_CUE = 10
"""What it counts that a sentence asks for it by how it is made: somewhat more than a word of a title."""

_EARLY = 2
"""Telling words of a title that say what it is about: “How much backing” is more so than “… and backing”."""


def is_number(word: str) -> bool:
    """Whether a word is a number, in figures or, up to a hundred, in words."""
    return word[0].isdigit() or all(part in NUMBERS for part in word.split("-"))


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
    if not said or not items:
        return list(items)
    low = " ".join(wanted.casefold().split())
    if not numbers:
        low = without_costs(low, _SMALL | _OF_COSTS)
    words = words_of(without_measures(low)) if not numbers else said
    words = [word for word in words if not is_number(word)] or said
    asked = cues_of(low) if not numbers else []
    if LEFT_WHOLE in asked or (_OUT_OF_A_PACK.search(low) and not _YARDS.search(low)):
        meant = ["precut", "whole"] if LEFT_WHOLE in asked else ["precuts"]
        words = [*(word for word in words if word not in _PACKS), *meant]
    texts = [_Text(f" {title(item).casefold()} ", f" {rest(item).casefold()} ") for item in items]
    telling = [word for word in words if word not in _SMALL]
    for tried in (*([said] if numbers else []), telling or words):
        whole = {n for n, text in enumerate(texts) if tried and all(_score(word, text) for word in tried)}
        if whole:
            break
    else:
        had = [sum(_score(word, text) > 0 for word in telling) for text in texts]
        most = max(had, default=0)
        whole = {n for n, count in enumerate(had) if count == most > 0}
    whole |= {n for n, text in enumerate(texts) if any(cue in text.title for cue in asked)}
    weights = {word: _weight(word, texts) for word in tried}
    ranks = [_rank(weights, words, asked, text) for text in texts]
    if len(weights) > _SENTENCE:  # not every word of a sentence need be met
        best = max(ranks)[0]
        whole |= {n for n, rank in enumerate(ranks) if rank[0] > best / 2}
    return [items[n] for n in sorted(sorted(whole), key=ranks.__getitem__, reverse=True)]


class _Text(NamedTuple):
    """What is searched of one item, with a blank before and behind every word."""

    title: str
    rest: str


def _weight(word: str, texts: Sequence[_Text]) -> float:
    """How much a word tells: the fewer titles have it, the more. The small words tell nothing."""
    had = sum(_score(word, text) > 0 for text in texts)
    return 1 + log2(len(texts) / max(1, had)) / 3


def _rank(
    weights: Mapping[str, float], words: Sequence[str], asked: Sequence[str], text: _Text
) -> tuple[float, int]:
    """How well a text answers; the small words of a question only settle what is equal without them."""
    telling = {word: weight for word, weight in weights.items() if word not in _SMALL} or weights
    met = sum(weight * _score(word, text) for word, weight in telling.items())
    pairs = sum(
        f" {one} {other}" in text.title + text.rest
        for one, other in pairwise(words)
        if one not in _SMALL or other not in _SMALL
    )
    cues = _CUE * sum(cue in text.title for cue in asked)
    return met + 2 * pairs + cues, sum(f" {word} " in text.title for word in words if word in _SMALL)


def _score(word: str, text: _Text) -> int:
    """How well one word is met: 0 not at all. Of a plural the singular will do."""
    title, rest = text
    forms = [(word, 0)]
    if len(word) > 3 and word.endswith("s"):
        forms.append((word[:-1], 1))
    for form, less in forms:
        within = form if len(form) > _SHORT else f" {form}"
        if within in title:
            before = sum(word not in _SMALL for word in title.partition(form)[0].split())
            early = max(0, _EARLY - before)
            return (8 if f" {form}" in title else 6) + early - less
        if within in rest:
            return (3 if f" {form}" in rest else 2) - less
    return 0
