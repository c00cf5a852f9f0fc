"""The numbers of a typed question, put into the givens that they plainly mean. Knows no screen.

“thirty blocks of 9 in” fills the number of blocks and their width; what could mean two things fills nothing.
"""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

from boltend.core.contract import CalculatorSpec, Table
from boltend.core.values import Notation
from boltend.core.values.lengths import inches_of
from boltend.shell.start_cloths import has_cloth, take_cloth, take_whole_squares
from boltend.shell.start_prices import PriceSaid, take_prices
from boltend.shell.start_reading import (
    INCHES,
    LENGTH,
    NUMBER,
    PAIR,
    SEVERAL,
    beside_by,
    in_figures,
    is_wanted,
    kind_said,
    past_a_size,
    words_back,
    words_in,
    words_on,
)
from boltend.shell.start_rows import take_row, take_rows
from boltend.shell.start_taking import Open, Taking, stem

Tabs = Sequence[tuple[str, str, Mapping[str, object]]]

_SIDES = {"wide": "width", "across": "width", "high": "height", "tall": "height", "long": "height"}

_LENGTHS = ("finished", "length", "cut", "measured")
_CLOTH = "usable_width"
_OTHERS = "other_widths"
_CLOTH_WIDTHS = ((36, 61), (88, 120))
"""Inches between the selvages of bolts and of wide backs, from and to: common practice, no source."""
_PARTS = {"block": ("block",), "piece": ("squar", "piece", "patch", "recta"), "precut": ("precu",)}
"""Sizes of a part, by a word of their labels, and how a size is called that is meant for them: no quilt's."""
_WHOLE = frozenset(("quilt", "top", "measures", "measure", "measured", "measuring"))
_OF_TOP = "top_width"
_SHORTEST = 4
_NEXT_NUMBER = re.compile(rf" [a-z]+ {NUMBER}")
_BARE_PAIR = re.compile(r"\d+ ?(?:by|x|×) ?\d+")
_OF_CLOTH = frozenset(("back", "backing", "wide", "cloth", "fabric", "goods", "width", "from", "off"))


class Taken(NamedTuple):
    """Givens for each tab, by name; what was put where, for the person: (label, text); numbers not used.

    `price` is that of all cloth which the tabs buy.
    """

    givens: tuple[Mapping[str, object], ...]
    said: tuple[tuple[str, str], ...]
    left: tuple[str, ...] = ()
    price: PriceSaid | None = None


def taken(
    sentence: str,
    tabs: Tabs,
    specs: Mapping[str, CalculatorSpec],
    tables: Callable[[str], Table | None],
    how: Notation,
) -> Taken:
    """What a typed question fills of the givens of these tabs, but for those that are said or linked."""
    text = in_figures(sentence)
    opens, rows, cloths = [], [], []
    for n, (_, calculator, givens) in enumerate(tabs):
        for given in specs[calculator].givens if calculator in specs else ():
            if given.kind == "rows":
                rows.append((Open(n, given), givens.get(given.name)))
            elif given.name not in givens and not given.setting:
                opens.append(Open(n, given))
            elif given.name == _CLOTH:
                cloths.append(Open(n, given))
    taking = Taking(text, opens, how)
    price, no_price = take_prices(taking)
    bed = take_row(taking, tables)
    for at, said in rows:
        if has_cloth(at.spec):
            take_cloth(taking, at, tables)
        else:
            take_rows(taking, at, said)
    _take_yards(taking)
    of_top = any(_OF_TOP in specs[calculator].by_name for _, calculator, _ in tabs if calculator in specs)
    for pair in taking.free(PAIR):
        _take_pair(taking, beside_by(pair), bed, of_top=of_top)
    compared = [at for at in cloths if _is_compared(specs[tabs[at.tab][1]], tabs[at.tab][0], text)]
    cloth = cloths if len(cloths) == 1 else compared if len(compared) == 1 else []
    for at in cloth:
        _take_width(taking, at, several=bool(compared))
    for several in taking.free(SEVERAL):
        _take_several(taking, several)
    for number in taking.free(LENGTH):
        _take_one(taking, number)
    for at in cloth if compared else ():
        _take_width(taking, at, several=True, last=True)
    take_whole_squares(taking)
    filled: list[dict[str, object]] = [{} for _ in tabs]
    for at, value in taking.values.items():
        filled[at.tab][at.spec.name] = value
    left = (*(number.group().strip() for number in taking.free(LENGTH)), *no_price)
    said_in_order = sorted(taking.said, key=lambda said: said[0])
    told = tuple((label, text) for _, label, text in said_in_order)
    return Taken(tuple(filled), told, left, price)


def _is_compared(spec: CalculatorSpec, tab: str, text: str) -> bool:
    """Whether a tab compares widths of cloth, and is named: “back” and “backings” are the backing."""
    words = [word for word in words_in(text) if len(word) >= _SHORTEST]
    return _OTHERS in spec.by_name and any(stem(tab).startswith(stem(word)) for word in words)


def _take_yards(taking: Taking) -> None:
    """A length in yards, where one given alone is measured in them: what a pattern prints."""
    yards = [o for o in taking.opens if o.spec.unit == "yd" and o not in taking.values]
    for number in taking.free(LENGTH):
        if len(yards) == 1 and number[2].strip().startswith("y") and taking.put(yards[0], number.group()):
            taking.use(number)


def _take_pair(taking: Taking, pair: re.Match[str], bed: Mapping[str, object], *, of_top: bool) -> None:
    """A size, of so much by so much: the width and the height of the first tab that wants both.

    That of a whole quilt is finished where nothing says that it is a top, or was measured; `of_top`: the
    question is about a top, which is measured raw edge to raw edge.
    """
    noun = next(words_on(taking.text, pair.end()), "")
    wanted = is_wanted(taking.text, pair.start()) and noun != "top"
    said, near = _kind_of_size(taking.text, pair), _of_what(taking.text, pair, noun)
    of_part = any(stem(noun) in called for called in _PARTS.values())
    twins = [*_twins(taking.opens, "count")] if stem(noun) == "block" and _counts(taking, pair) else []
    for width, height in [*twins, *_twins(taking.opens)]:
        lists = [[*LENGTH.finditer(taking.text, *pair.span(n))] for n in (1, 2)]
        several = any(len(numbers) > 1 for numbers in lists)
        if (
            width not in taking.values
            and width.speaks_of("wanted") is wanted
            and (width.spec.kind == "measured" or not several)
            and all(stem(noun) in called for part, called in _PARTS.items() if width.speaks_of(part))
            and not (width.speaks_of("mattress") and not _is_of_a_bed(taking.text, pair, noun, bed))
        ):
            whole = width.spec.kind in ("measured", "finished") and not wanted and not of_part
            raw = near != "quilt" if near else several or of_top
            kind = said or (("cut" if raw else "finished") if whole else "")
            texts = [
                "; ".join(taking.length(number, side.spec, kind, lists[1][-1][2]) for number in numbers)
                for side, numbers in zip((width, height), lists, strict=True)
            ]
            if width.speaks_of("mattress") and _is_this_bed(texts, bed):
                taking.use(pair)  # the table says the same
            elif taking.put(width, texts[0], kind) and taking.put(height, texts[1], kind):
                taking.use(pair)
            return


def _counts(taking: Taking, pair: re.Match[str]) -> bool:
    """Whether so many by so many blocks are counted: their size is said besides, and has its unit."""
    sizes = [number for number in taking.free(LENGTH) if not pair.start() <= number.start() < pair.end()]
    return bool(_BARE_PAIR.fullmatch(pair[0])) and any(number[2] for number in sizes)


def _kind_of_size(text: str, pair: re.Match[str]) -> str:
    """What is said of a size's kind, beside it or of one of its sides."""
    said = kind_said(text, pair.start(), pair.end()) or kind_said(pair[0], 0, pair.start(2) - pair.start())
    last = [*LENGTH.finditer(text, *pair.span(2))][-1][3].strip()
    return said or ("" if not last else "finished" if last == "finished" else "cut")


def _of_what(text: str, pair: re.Match[str], noun: str) -> str:
    """Whether a size is said to be a quilt's, or one that was measured: by the nearest of these words."""
    return noun if noun in _WHOLE else next((w for w in words_back(text, pair.start()) if w in _WHOLE), "")


def _is_of_a_bed(text: str, pair: re.Match[str], noun: str, bed: Mapping[str, object]) -> bool:
    """Whether a size is a mattress's: a bed is named, and the size is no quilt's."""
    near = [noun, *[*words_back(text, pair.start())][:2]]
    return not {"quilt", "top"} & set(near) and (bool(bed) or bool({"bed", "mattress"} & set(near)))


def _is_this_bed(texts: Sequence[str], bed: Mapping[str, object]) -> bool:
    sizes = [bed.get("width"), bed.get("length")]
    of_bed = [inches_of(size, INCHES) for size in sizes if isinstance(size, str)]
    return of_bed == [inches_of(text, INCHES) for text in texts]


def _twins(opens: list[Open], kind: str = "") -> Iterator[tuple[Open, Open]]:
    """Givens that go together: a width and its height or length, or as counts, across and down."""
    by_name = {(o.tab, o.spec.name): o for o in opens}
    for (tab, name), width in by_name.items():
        others = (name.replace("width", to) for to in ("height", "length")) if not kind else ("down",)
        for other in others if not kind or (name == "across" and width.spec.kind == kind) else ():
            height = by_name.get((tab, other))
            if height is not None and height is not width:
                yield width, height


def _take_several(taking: Taking, several: re.Match[str]) -> None:
    """A list of measurements, where one given alone takes such a list."""
    measured = [o for o in taking.opens if o.spec.kind == "measured" and o.spec.required]
    if len(measured) == 1 and measured[0] not in taking.values:
        numbers = LENGTH.finditer(taking.text, *several.span())
        kind = kind_said(taking.text, *several.span())
        if taking.put(measured[0], "; ".join(taking.length(n, measured[0].spec, kind) for n in numbers)):
            taking.use(several)


def _take_one(taking: Taking, number: re.Match[str]) -> None:
    """A number beside the word for what it counts or measures."""
    text, end = taking.text, number.end()
    before = [*words_back(text, number.start())][:1]
    behind = [*words_on(text, end)][:1]
    if number[2]:  # “blocks of 9 in”, but never “two borders 30”
        if behind and behind[0] in _SIDES and is_wanted(text, number.start()):
            side = _SIDES[behind[0]]
            at = next((o for o in taking.opens if o.spec.name == f"target_{side}"), None)
            if at is not None and taking.put(at, taking.length(number, at.spec)):
                taking.use(number)
            return
        # “blocks 9 in sashing 2 in”: the word behind is that of the next number.
        nouns = [*before, *behind] if _NEXT_NUMBER.match(text, end) else [*behind, *before]
        tries: list[tuple[str, Sequence[str]]] = [(noun, _LENGTHS) for noun in nouns]
    else:  # “30 finished 9 in blocks” are blocks, and 30; “drop 13” is a length
        tries = [(noun, ("count",)) for noun in [*words_on(text, past_a_size(text, end))][:1]]
        tries += [(noun, _LENGTHS) for noun in before if taking.named(noun, ("count",)) is None]
    for noun, kinds in tries:
        at = taking.named(noun, kinds)
        if at is not None and at not in taking.values:
            if taking.put(at, taking.length(number, at.spec) if kinds is _LENGTHS else number[1]):
                taking.use(number)
            return


def _take_width(taking: Taking, at: Open, *, several: bool, last: bool = False) -> None:
    """How wide the cloth of a tab is: so much of cloth; where `several` are compared, the first of them.

    At `last` it is the one number that no other given has taken.
    """
    pairs = [pair.span() for pair in PAIR.finditer(taking.text)]
    free = [
        number
        for number in taking.free(LENGTH)
        if _is_cloth(number, taking.how)
        and not any(start <= number.start() < end for start, end in pairs)  # a size is no width of cloth
    ]
    if not (several and (len(free) > 1 or last)):
        free = [number for number in free if _speaks_of_cloth(taking.text, number)][:1]
    if not free or (last and len(free) > 1) or not taking.put(at, free[0].group().strip()):
        return
    taking.use(free[0])
    others = next((o for o in taking.opens if (o.tab, o.spec.name) == (at.tab, _OTHERS)), None)
    if others is not None and taking.put(others, "; ".join(other.group().strip() for other in free[1:])):
        for other in free[1:]:
            taking.use(other)


def _speaks_of_cloth(text: str, number: re.Match[str]) -> bool:
    """Whether a word beside a number says that it is a width of cloth."""
    beside = {next(words_on(text, number.end()), ""), next(words_back(text, number.start()), "")}
    return bool(beside & _OF_CLOTH)


def _is_cloth(number: re.Match[str], how: Notation) -> bool:
    """Whether cloth is sold so wide; a fraction was measured."""
    inches = inches_of(number.group(), how)
    width = any(least <= inches <= most for least, most in _CLOTH_WIDTHS)
    return width and "/" not in number[1] and not number[2].strip().startswith("y")
