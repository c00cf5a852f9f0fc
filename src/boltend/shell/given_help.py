"""What a given means, for the help: its label, its help, its limits, what empty means, its choices."""

from collections.abc import Iterator

from boltend.core.contract import GivenSpec
from boltend.shell.actions import key_of
from boltend.shell.looks import Look
from boltend.shell.say import limits_of, say_of
from boltend.shell.texts import wrapped

_WIDTH = 74
"""Cells of a line of the help, less what its scroll bar takes."""

_KINDS = {
    "finished": "Finished: as it lies in the sewn quilt. A cut size, as 12 1/2 in cut, is converted.",
    "cut": "Cut: with its seam allowances, as a ruler has it. A finished size is converted.",
    "length": "A length as it is: nothing is added for seams.",
    "measured": "Measured on the cloth, cut sizes with ; between.",
    "count": "A whole number.",
    "percent": "A share, as 10 %.",
    "yes_no": "Yes or no: Space changes it, Backspace takes the default again.",
    "text": "Any words: nothing is worked out from them.",
    "fabric": "One of the project's fabrics: Space lists them, and adds one.",
    "table_row": "One of a list: Space shows it, ← and → step.",
    "colour": "A plain name or #rrggbb: Space in the empty field lists the names.",
}


def given_help(spec: GivenSpec, look: Look, row: int = -1, of: str = "") -> str:
    """Paragraphs on one given, meanings first; `of` is the label of the rows in which it is a cell."""
    where = f" · in row {row + 1} of “{of}”" if row >= 0 and of else ""
    lines = [line for text in _paragraphs(spec, look) for line in wrapped(text, _WIDTH - 2)]
    return "\n".join([f"{spec.label}{where}", *(f"  {line}" for line in lines)])


def _paragraphs(spec: GivenSpec, look: Look) -> Iterator[str]:
    if look.trouble or look.linked:
        yield say_of(spec, look)
    if spec.help:
        yield spec.help
    if spec.kind == "rows":
        yield f"Rows: Space or {key_of('add_row')} adds one, {key_of('link')} links all of them."
    elif spec.options:
        yield f"Choices: {', '.join(spec.options)}. ← and → step, Space lists them."
        yield from (f"{option}: {words}" for option, words in spec.meanings)
    elif spec.kind in _KINDS:
        yield _KINDS[spec.kind]
    limits = limits_of(spec)
    if limits:
        yield f"{limits[0].upper()}{limits[1:]}."
    yield from _empty(spec)


def _empty(spec: GivenSpec) -> Iterator[str]:
    """What holds where nothing is said."""
    if spec.default is not None:
        metric = f", in a metric project {spec.metric_default}" if spec.metric_default else ""
        yield f"Left empty: {spec.default}{metric}, unless the project or the fabric says otherwise."
    elif spec.optional:
        yield "It may be left empty."
    elif spec.kind != "rows" and spec.required:
        yield "It is needed: nothing is worked out without it."


def row_signs() -> str:
    """What the signs behind a row do, and the keys that do the same."""
    signs = (("+", "add_row", "adds one"), ("↑", "row_up", "moves it up"), ("↓", "row_down", "moves it down"),
             ("x", "remove_row", "takes it out"))  # fmt: skip
    said = ", ".join(f"{sign} {words} ({key_of(name)})" for sign, name, words in signs)
    return "\n".join(f"  {line}" for line in wrapped(f"Behind a row, by a click: {said}.", _WIDTH - 2))
