"""Whether a declared given or found makes sense: told when the plugin is loaded, not when a person works.

Only what costs nothing is looked at here; whether every text can be read is the host's to try.
"""

from difflib import get_close_matches

from boltend.core.contract.specs import LENGTH_KINDS, STEPS, ContractError, FoundSpec, GivenSpec, Valued
from boltend.core.values import ChoiceKind, NotationError
from boltend.core.values.notation import Notation

ORDERED = LENGTH_KINDS | {"measured", "area", "count", "percent", "time", "number"}
"""Kinds of which one value can be more than another, so that they can have limits."""

ROUNDED = LENGTH_KINDS | {"area", "count", "percent", "time", "number"}
"""Kinds of one number, so that they can be rounded to a step."""


def check_given(where: str, spec: GivenSpec) -> None:
    """Raise ContractError where the parts of a given do not go together."""
    _check_options(where, spec)
    for option, _ in spec.meanings:
        if option not in spec.options:
            raise ContractError(f"{where}: choices= tells of {option!r}, which is none of its options.")
    _check_tuple(where, "was", spec.was)
    _check_tuple(where, "takes", spec.takes)
    if spec.kind == "table_row" and spec.table is None:
        raise ContractError(f"{where}: a TableRow needs table=….")
    if spec.table is not None and spec.kind != "table_row":
        raise ContractError(f"{where}: table= is for a TableRow, not for {_said(spec)}.")
    if spec.kind not in ORDERED and (spec.least is not None or spec.most is not None):
        raise ContractError(f"{where}: {_said(spec)} is never less or more. Leave least= and most= out.")
    if spec.empty and (spec.required or spec.default is not None or spec.setting or spec.kind == "rows"):
        raise ContractError(
            f"{where}: empty= is for what may be left out. Write `… | None`, or leave it out."
        )
    if spec.kind == "rows" and (spec.default is not None or spec.metric_default is not None):
        raise ContractError(
            f"{where}: rows have no default. Write `Rows[…] | None` for rows that may be left out."
        )
    if spec.options and spec.default is not None:
        _check_choice(where, spec, spec.default)
    _check_step(where, spec)


def check_found(where: str, spec: FoundSpec) -> None:
    """Raise ContractError where the parts of a found do not go together."""
    _check_options(where, spec)
    _check_tuple(where, "grows_with", spec.grows_with)
    if spec.kind == "table_row":
        raise ContractError(f"{where}: a row of a table is chosen, not found. Use Text for its name.")
    if spec.kind in LENGTH_KINDS | {"area"} and not spec.direction:
        raise ContractError(f"{where}: {_said(spec)} needs one of up=, down=, nearest=.")
    if spec.bounded and not spec.direction:
        raise ContractError(f"{where}: what is bounded needs one of up=, down=, nearest=.")
    if spec.direction and spec.kind not in ROUNDED:
        raise ContractError(f"{where}: {_said(spec)} cannot be rounded. Leave {spec.direction}= out.")
    _check_step(where, spec)


def check_names(name: str, givens: tuple[GivenSpec, ...], founds: tuple[FoundSpec, ...]) -> None:
    """Raise ContractError where a name leads nowhere, or to two things."""
    names = {g.name for g in givens}
    if not founds:
        raise ContractError(f"{name}: it finds nothing. Give found= a class with at least one found(…).")
    for spec in founds:
        for grower in spec.grows_with:
            if grower not in names:
                near = get_close_matches(str(grower), names, 1)
                hint = f" Did you mean {near[0]!r}?" if near else f" It takes {', '.join(sorted(names))}."
                raise ContractError(
                    f"{name}, found {spec.name}: it grows with {grower!r}, which is no given.{hint}"
                )
    former: dict[str, str] = {}
    for given in givens:
        for was in given.was:
            if was in names or was in former:
                raise ContractError(f"{name}, given {given.name}: was={was!r} is another given's name too.")
            former[was] = given.name


def _said(spec: Valued) -> str:
    words = spec.kind.replace("_", " ")
    return words if spec.kind in ("rows", "text") else f"{'an' if words[0] == 'a' else 'a'} {words}"


def _check_options(where: str, spec: Valued) -> None:
    try:
        ChoiceKind(spec.options)
    except ValueError as error:
        raise ContractError(f"{where}: {error}.") from None


def _check_choice(where: str, spec: GivenSpec, default: str) -> None:
    try:
        ChoiceKind(spec.options).read(default, Notation())
    except NotationError as error:
        raise ContractError(f"{where}: default {error}") from None


def _check_tuple(where: str, what: str, names: object) -> None:
    """Names in a tuple: a bare text would be taken letter by letter."""
    if isinstance(names, str):
        raise ContractError(f'{where}: {what}= takes a tuple of names. Write {what}=("{names}",).')


def _check_step(where: str, spec: GivenSpec | FoundSpec) -> None:
    step = spec.step
    if step is not None and not step.name:
        pair = step.inches != step.metric
        for text in (step.inches, step.metric):
            _check_size(where, text, pair)
    if step is not None and step.name and spec.kind not in LENGTH_KINDS:
        why = f"{where}: the {step.name} step is a length, and this is {_said(spec)}."
        raise ContractError(f'{why} Write a step of its own, as "1".')


def _check_size(where: str, text: object, pair: bool) -> None:
    """A step of its own has a number in it; whether that can be read is the host's to try."""
    if isinstance(text, str) and any(letter.isnumeric() for letter in text):
        return
    if pair:
        way_out = 'A pair is of two sizes, as ("1/2 in", "1 cm").'
    else:
        near = get_close_matches(str(text).casefold().strip(), STEPS, 1)
        way_out = f"Did you mean {near[0]!r}? " if near else ""
        way_out += f'A step is one of {", ".join(STEPS)}, or a size of its own, as "1/2 in".'
    raise ContractError(f"{where}: {text!r:.60} is no step. {way_out}")
