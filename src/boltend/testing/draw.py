"""Givens drawn by hypothesis from what a calculator declares: as a person, or a link, might give them."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from random import Random
from typing import Any

from hypothesis import strategies as st

from boltend.core.contract import GivenSpec
from boltend.core.values import KINDS, Notation, Price, Rate, ThreadNumber, rate_unit

HOW = Notation()
FABRICS = ("Slate", "Moss", "Chalk")
SIXTEENTH = Fraction(1, 16)

SPANS: Mapping[str, tuple[int, int, Fraction]] = {
    # kind: usual least and most where no limit is declared, and the stride that people use
    "finished": (0, 200, SIXTEENTH),
    "cut": (0, 200, SIXTEENTH),
    "length": (0, 400, SIXTEENTH),
    "measured": (1, 200, SIXTEENTH),
    "area": (0, 20_000, Fraction(1, 4)),
    "count": (0, 400, Fraction(1)),
    "percent": (0, 100, Fraction(1, 2)),
    "number": (0, 100, Fraction(1, 4)),
    "time": (0, 600, Fraction(1)),
}
"""Kinds of one number (or a list of them): what a limit can be declared of."""

SETTINGS: Mapping[str, tuple[object, ...]] = {
    "seam": ("1/4 in", "0 in", "3/16 in", "3/8 in", "1/2 in", "1 in"),
    "usable_width": ("42 in", "20 in", "40 in", "43 1/2 in", "54 in", "106 cm", "108 in"),
    "overage": ("4 in", "0 in", "2 1/2 in", "3 in", "8 in"),
    "squaring": ("1/2 in", "0 in", "1 in", "2 in"),
    "layers": (8, 1, 2, 3, 4, 12),
    "prewash_across": ("0 %", "2 %", "3 1/2 %", "10 %"),
    "prewash_along": ("0 %", "3 %", "5 1/2 %", "12 %"),
    "size_step": ("1/16 in", "1/32 in", "1/8 in", "1/4 in", "1 mm"),
    "cutting_step": ("1/8 in", "1/16 in", "1/4 in", "1 mm"),
    "buying_step": ("1/8 yd", "1 in", "1/4 yd", "1 yd", "10 cm"),
}
"""Settings that a project may have: the usual one first, then what else people sew with."""

FEW = (1, 2, 3)
"""Counts at which what was written for many often goes wrong."""

_USUAL_STEPS = 160  # a draw stays this many strides from an end more often than not

NONSENSE: tuple[object, ...] = (
    "", "   ", "abc", "1/0 in", "-1", "-3 1/2 in", "0", "0 in", "1/1000000 in", "9999999 in", "99999999999",
    "3 5/8 furlongs", "nan", "1e9", "12,5 cm", "½", "[/x]", "a\x00b", "x" * 400, True, False, 0, -1, 3,
    10**15, 2.5, [], [1], {}, {"from": "It", "take": "nothing"}, {"from": 3}, ["60 in", 4], [{}], [{"no": 1}],
)  # fmt: skip
"""What nobody should give: beyond every limit, of every wrong kind, or nothing at all."""


def limits(spec: GivenSpec) -> tuple[Fraction | None, Fraction | None]:
    """The declared limits of a given of one number (or of a list of them), in base units."""
    return _limit(spec, spec.least), _limit(spec, spec.most)


def _limit(spec: GivenSpec, text: str | None) -> Fraction | None:
    if text is None:
        return None
    value = spec.reader.read(text, HOW, spec.unit)
    return Fraction(value[0] if spec.kind == "measured" else value)


def shown(spec: GivenSpec, value: Fraction) -> object:
    """One number as it stands in a project file."""
    if spec.kind == "count":
        return int(value)
    whole: Any = (value,) if spec.kind == "measured" else value
    return spec.reader.show(whole, HOW, spec.unit)


def span(spec: GivenSpec) -> tuple[Fraction, Fraction, Fraction]:
    """The least and the most of a given of one number, declared or usual, and its stride."""
    low, high, stride = SPANS[spec.kind]
    least, most = limits(spec)
    first = Fraction(low) if least is None else least
    return first, max(first, Fraction(high)) if most is None else most, stride


def anywhere(spec: GivenSpec) -> st.SearchStrategy[Fraction]:
    """Numbers spread evenly from one limit of a given to the other."""
    first, last, stride = span(spec)
    steps, some = int((last - first) / stride), _spread(spec)
    return st.sampled_from(sorted({first + some.randint(0, steps) * stride for _ in range(100)}))


def numbers(spec: GivenSpec) -> st.SearchStrategy[Fraction]:
    """Numbers within a given's limits: near its least, anywhere, its limits, and of an odd fraction.

    Chosen from a list made once: hypothesis by itself prefers small numbers, and equal ones, too much for a
    few dozen draws to reach the sizes of a quilt.
    """
    first, last, stride = span(spec)
    steps, some = int((last - first) / stride), _spread(spec)
    near = [some.randint(0, min(steps, _USUAL_STEPS)) for _ in range(40)]
    tens = [some.randint(0, min(steps, 16 * _USUAL_STEPS)) for _ in range(40)]
    values = [first + k * stride for k in (0, 1, *near, *tens, some.randint(0, steps))]
    if spec.kind not in ("count", "measured", "time"):
        values += [first + Fraction(some.randint(0, 700), 7) * stride for _ in range(12)]
    within = sorted({value for value in values if value <= last} | {last})
    few = [Fraction(n) for n in FEW if spec.kind == "count" and first <= n <= last]
    return st.sampled_from(few * (len(within) // 8) + within)


def _spread(spec: GivenSpec) -> Random:
    return Random(spec.name)  # the same numbers every time


def value_of(spec: GivenSpec, tables: Mapping[str, Sequence[str]]) -> st.SearchStrategy[object]:
    """A value of a given, within its limits, as it stands in a project file. `tables` names their rows."""
    if spec.kind == "measured":
        many = st.lists(numbers(spec), min_size=1, max_size=5)
        return many.map(lambda values: spec.reader.show(tuple(values), HOW, spec.unit))
    if spec.kind in SPANS:
        return numbers(spec).map(lambda value: shown(spec, value))
    if spec.kind == "rows":
        return st.lists(_row(spec.columns, tables), min_size=1, max_size=3)
    if spec.options:
        return st.sampled_from(spec.options)
    return _of_kind(spec, tables)


def _of_kind(spec: GivenSpec, tables: Mapping[str, Sequence[str]]) -> st.SearchStrategy[object]:
    if spec.kind == "table_row":
        return st.sampled_from(tables[spec.table or ""])
    if spec.kind == "fabric":
        return st.sampled_from(FABRICS)
    if spec.kind == "yes_no":
        return st.booleans()
    if spec.kind == "colour":
        return st.sampled_from(["#204060", "#d9b650", "#ffffff", "#000000"])
    if spec.kind == "text":
        return st.text(max_size=12).filter(lambda text: KINDS["text"].check(text) is None)
    quarters = st.integers(0, 400).map(lambda k: Fraction(k, 4))
    return quarters.map(lambda amount: spec.reader.show(_worth(spec, amount), HOW, spec.unit))


def _worth(spec: GivenSpec, amount: Fraction) -> object:
    """A value of more than a number."""
    if spec.kind == "price":
        return Price(amount, "USD", "yard" if "yd" in spec.unit or "yard" in spec.unit else None)
    if spec.kind == "rate":
        return Rate(amount, rate_unit(spec.unit or "per in"))
    return ThreadNumber(amount + 1, "tex")


def _row(
    columns: Sequence[GivenSpec], tables: Mapping[str, Sequence[str]]
) -> st.SearchStrategy[dict[str, object]]:
    return st.fixed_dictionaries(
        {c.name: value_of(c, tables) for c in columns if c.required},
        optional={c.name: value_of(c, tables) for c in columns if not c.required},
    )


def givens(
    specs: Sequence[GivenSpec], example: Mapping[str, object], tables: Mapping[str, Sequence[str]]
) -> st.SearchStrategy[dict[str, object]]:
    """Givens within their limits: each as in the example, drawn anew, or (where it may be) left out."""
    each: dict[str, st.SearchStrategy[object]] = {}
    for spec in specs:
        choices = [value_of(spec, tables)]
        if spec.name in example:
            choices.append(st.just(example[spec.name]))
        if not spec.required:
            choices.append(st.none())
        each[spec.name] = st.one_of(choices)
    return st.fixed_dictionaries(each).map(_present)


def settings() -> st.SearchStrategy[dict[str, object]]:
    """Settings of a project, one to all of them another than usual."""
    each = {name: st.sampled_from(values) for name, values in SETTINGS.items()}
    return st.fixed_dictionaries(each)


def wild(
    specs: Sequence[GivenSpec], example: Mapping[str, object], tables: Mapping[str, Sequence[str]]
) -> st.SearchStrategy[dict[str, object]]:
    """Givens of which one to three are nonsense."""
    names = st.lists(st.sampled_from([s.name for s in specs]), min_size=1, max_size=3, unique=True)
    spoiled = names.flatmap(lambda some: st.fixed_dictionaries({n: st.sampled_from(NONSENSE) for n in some}))
    return st.tuples(givens(specs, example, tables), spoiled).map(lambda pair: {**pair[0], **pair[1]})


def _present(raw: dict[str, object]) -> dict[str, object]:
    return {name: value for name, value in raw.items() if value is not None}
