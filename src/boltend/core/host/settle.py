"""Check what a calculator answered, and round each found once, by its declared step and direction."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple, get_args

from boltend.core.contract import (
    Answer,
    CalculatorSpec,
    FoundSpec,
    Goods,
    Line,
    Piece,
    Run,
    Settings,
    Shape,
    step_size,
)
from boltend.core.contract.answer import Grain, Join
from boltend.core.host.faults import one_line
from boltend.core.values import KINDS, Notation, Surd, ceil_div, down, nearest, up

ROUND = {"up": up, "down": down, "nearest": nearest}
GRAINS, JOINS = get_args(Grain), get_args(Join)
FRACTIONS = frozenset({"percent", "number", "time"})
"""Kinds that may go unrounded: a Fraction inside, which a plugin may give as a whole number."""

MOST_ROWS = 2_000
"""More rows than a person could read are no answer but a mistake."""

MOST_PARTS = 10_000
"""The same of lines of working and shapes of a picture."""

MOST_KINDS = 1_000
"""The same of kinds of pieces, runs and goods; each is a line of To cut or To buy."""


class WrongAnswer(Exception):
    """A calculator answered something that it did not declare; the words are short, whatever it was.

    `would_do` tells its author what would mend it, where that can be said.
    """

    def __init__(self, why: str, would_do: str = "") -> None:
        super().__init__(one_line(why))
        self.would_do = one_line(would_do)


class Settled(NamedTuple):
    """Founds as they are shown and passed on, and what they were before their one rounding."""

    found: dict[str, object]
    unrounded: dict[str, object]


def settle(spec: CalculatorSpec, answer: object, settings: Settings) -> Settled:
    """Check an answer against its specification and round its founds. Raises `WrongAnswer`, nothing else."""
    if not isinstance(answer, Answer):
        raise WrongAnswer(f"it answered {type(answer).__name__}, not an Answer.")
    if not isinstance(answer.found, Mapping):
        raise WrongAnswer("its found is no mapping from names to values.")
    try:
        settled = _settle_row("", spec.founds, answer.found, _sizes(spec, settings))
        _check_parts(answer)
    except WrongAnswer:
        raise
    except Exception as error:  # an answer may hold objects of any kind: nonsense harms its own tab only
        raise WrongAnswer(f"it cannot be read: {type(error).__name__} at one of its parts.") from error
    return settled


class _Sizes:
    """The sizes of a calculator's steps under one set of settings, looked up once."""

    def __init__(self, founds: Sequence[FoundSpec], how: Notation, named: dict[str, Fraction]) -> None:
        self.size = {f.name: step_size(f.step, f.reader, how, named) for f in founds if f.kind != "rows"}
        self.inner = {f.name: _Sizes(f.columns, how, named) for f in founds if f.kind == "rows"}


_known: dict[int, tuple[CalculatorSpec, tuple[object, ...], _Sizes]] = {}
_MOST_KNOWN = 1000


def _sizes(spec: CalculatorSpec, settings: Settings) -> _Sizes:
    # By identity: hashing a whole specification costs more than settling an answer. The entry keeps the
    # specification alive, so that its id stands for nothing else. The steps are compared, not hashed: they
    # are nearly always the very same fractions.
    steps = settings.system, settings.size_step, settings.cutting_step, settings.buying_step
    entry = _known.get(id(spec))
    if entry is None or entry[1] != steps:
        if len(_known) >= _MOST_KNOWN:
            _known.clear()
        sizes = _Sizes(spec.founds, settings.notation, settings.steps)
        entry = _known[id(spec)] = spec, steps, sizes
    return entry[2]


def _settle_row(where: str, specs: Sequence[FoundSpec], row: Mapping[str, object], sizes: _Sizes) -> Settled:
    if len(row) != len(specs) or any(s.name not in row for s in specs):
        _complain_names(where, specs, row)
    found: dict[str, object] = {}
    unrounded = dict(row)
    for spec in specs:
        value = row[spec.name]
        if value is None:
            found[spec.name] = None
        elif spec.kind == "rows":
            rows = _settle_rows(spec, value, sizes.inner[spec.name])
            found[spec.name] = tuple(r.found for r in rows)
            unrounded[spec.name] = tuple(r.unrounded for r in rows)
        else:
            found[spec.name] = _settle_value(where, spec, value, sizes)
    return Settled(found, unrounded)


def _complain_names(where: str, specs: Sequence[FoundSpec], row: Mapping[str, object]) -> None:
    declared = {s.name for s in specs}
    missing, extra = sorted(declared - set(row)), sorted(map(str, set(row) - declared))
    said = [f"{where}{name} is missing" for name in missing] + [
        f"{where}{name} is not declared" for name in extra
    ]
    mend = [f"give {name!r} in what it answers, or take it out of the class of founds" for name in missing]
    mend += [
        f"add `{name}: … = found(…)` to the class of founds, or leave it out of the answer" for name in extra
    ]
    why = "its founds are not those that it declares: " + ", ".join(said) + "."
    raise WrongAnswer(why, "For its author: " + "; ".join(mend) + ".")


def _settle_value(where: str, spec: FoundSpec, value: object, sizes: _Sizes) -> object:
    if spec.direction:
        value = _rounded(where, spec, value, sizes.size[spec.name])
    elif spec.kind in FRACTIONS:
        value = _exact(where, spec, value)
    problem = spec.reader.check(value)
    if problem is not None:
        raise WrongAnswer(f"{where}{spec.name}: {problem}.")
    return value


def _exact(where: str, spec: FoundSpec, value: object) -> object:
    if isinstance(value, Surd):  # nobody could show it, or type it back
        raise WrongAnswer(
            f"{where}{spec.name} holds a root and no rounding is declared (up=, down=, nearest=)."
        )
    return Fraction(value) if type(value) is int else value


def _rounded(where: str, spec: FoundSpec, value: object, size: Fraction | None) -> int | Fraction | Surd:
    if type(value) is int:
        value = Fraction(value)
    if not isinstance(value, (Fraction, Surd)):
        raise WrongAnswer(
            f"{where}{spec.name} is {_named(value)}, not an exact number (a Fraction).",
            "For its author: keep it exact all the way, Fraction(5, 2) and a // b, not 2.5 and int(a / b).",
        )
    if size is not None and not _on_step(value, size):
        value = ROUND[spec.direction](value, size)
    if spec.kind == "count" and value.__class__ is Fraction and value.denominator == 1:
        return value.numerator
    return value


def _on_step(value: Fraction | Surd, size: Fraction) -> bool:
    """Whether it is on its step already, as most are: then not worth three operations on fractions."""
    return (
        type(value) is Fraction
        and value.numerator * size.denominator % (value.denominator * size.numerator) == 0
    )


def _named(value: object) -> str:
    """A wrong value in a message: short, and without asking a plugin's object how it looks."""
    kind = type(value)
    return repr(value)[:40] if kind in (float, bool) else kind.__name__


def _settle_rows(spec: FoundSpec, value: object, sizes: _Sizes) -> list[Settled]:
    if not isinstance(value, Sequence) or isinstance(value, str):
        raise WrongAnswer(f"{spec.name} is {type(value).__name__}, not rows.")
    if len(value) > MOST_ROWS:
        raise WrongAnswer(f"{spec.name} has {len(value)} rows, more than {MOST_ROWS}.")
    rows = []
    for number, row in enumerate(value, 1):
        if not isinstance(row, Mapping):
            raise WrongAnswer(f"{spec.name}, row {number} is {type(row).__name__}, not a mapping.")
        rows.append(_settle_row(f"{spec.name}, row {number}, ", spec.columns, row, sizes))
    return rows


PARTS: tuple[tuple[str, type | tuple[type, ...]], ...] = (
    ("pieces", Piece),
    ("runs", Run),
    ("goods", Goods),
    ("working", (Line, str)),
    ("cautions", (Line, str)),
    ("first", (Line, str)),
    ("picture", get_args(Shape)),
)


def _check_parts(answer: Answer) -> None:
    for name, kind in PARTS:
        part = getattr(answer, name)
        if part == ():
            continue
        if type(part) not in (tuple, list) and (not isinstance(part, Sequence) or isinstance(part, str)):
            raise WrongAnswer(f"its {name} are {type(part).__name__}, not a sequence.")
        most = MOST_KINDS if name in ("pieces", "runs", "goods") else MOST_PARTS
        if len(part) > most:
            raise WrongAnswer(f"its {name} are more than {most}.")
        for item in part:
            if not isinstance(item, kind):
                raise WrongAnswer(f"its {name} hold {type(item).__name__}.")
    for text in (*answer.working, *answer.cautions, *answer.first):
        if not _is_line(text):
            said = "a line of its working, its cautions or what is done first has no words."
            raise WrongAnswer(f"{said} Make it with line(…).")
    for piece in answer.pieces:
        _check_piece(piece)
        _check_later(piece)
    for run in answer.runs:
        _check_run(run)
        _check_later(run)
    for goods in answer.goods:
        if not (_is_name(goods.name) and _is_name(goods.unit) and _is_size(goods.amount)):
            raise WrongAnswer(f"goods {goods.name!r:.40} have no sound name, unit or amount.")
        if goods.price_each is not None and KINDS["price"].check(goods.price_each) is not None:
            raise WrongAnswer(f"goods {goods.name!r:.40} have no sound price.")
        if type(goods.units) is not str:
            raise WrongAnswer(f"goods {goods.name!r:.40} have no sound word for several.")
        if type(goods.price_given) is not str:
            raise WrongAnswer(f"goods {goods.name!r:.40} name no sound given for their price.")
        if goods.part is not None and not (
            _is_size(goods.part) and goods.amount == ceil_div(goods.part, Fraction(1))
        ):
            raise WrongAnswer(f"the amount of goods {goods.name!r:.40} is not their part, up to a whole one.")


def _is_line(text: object) -> bool:
    if isinstance(text, Line):
        return type(text.words) is str and type(text.values) is tuple
    return isinstance(text, str)


def _check_later(part: Piece | Run) -> None:
    if not _is_line(part.later):
        raise WrongAnswer(f"{part.name!r:.40} has no sound words for later. Make them with line(…).")


def _check_piece(piece: Piece) -> None:
    if not (_is_name(piece.name) and _is_fabric(piece.fabric)):
        raise WrongAnswer(f"piece {piece.name!r:.40} has no sound name or fabric.")
    if not (
        _is_size(piece.across) and _is_size(piece.along) and type(piece.count) is int and piece.count >= 0
    ):
        raise WrongAnswer(f"piece {piece.name!r:.40} has no sound size or count.")
    if piece.grain not in GRAINS or piece.made_from not in ("whole", "half", "quarter"):
        raise WrongAnswer(
            f"piece {piece.name!r:.40} has an unknown grain, or is made from no part of a square."
        )


def _check_run(run: Run) -> None:
    if not (_is_name(run.name) and _is_fabric(run.fabric)):
        raise WrongAnswer(f"run {run.name!r:.40} has no sound name or fabric.")
    if not (_is_size(run.width) and type(run.wants) is tuple and all(map(_is_size, run.wants))):
        raise WrongAnswer(f"run {run.name!r:.40} has no sound width or length.")
    if run.grain not in GRAINS or run.join not in JOINS:
        raise WrongAnswer(f"run {run.name!r:.40} has an unknown grain or join.")


def _is_name(value: object) -> bool:
    return type(value) is str and bool(value)


def _is_fabric(value: object) -> bool:
    return value is None or _is_name(value)


def _is_size(value: object) -> bool:
    return type(value) in (Fraction, int) and value.numerator > 0  # type: ignore[attr-defined]  # both have one
