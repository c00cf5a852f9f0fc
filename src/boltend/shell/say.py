"""The line below the form: what is wrong with the field that has the focus, or what helps with it."""

from collections.abc import Sequence

from boltend.core.contract import GivenSpec
from boltend.shell.actions import key_of
from boltend.shell.looks import Look

ROOM = 78
"""Cells of the line at 80 columns; the help has the rest."""

_HINTS = {
    "finished": "as 12 1/2 in, 32 cm, 12 in cut",
    "cut": "as 2 1/2 in, 6.5 cm, 2 in finished",
    "length": "as 42 in, 1 1/2 yd, 106 cm",
    "measured": "60 1/4; 60 3/8 or 6 of 12 1/2; 12 3/8",
    "text": "any words",
    "count": "a whole number",
    "percent": "as 10 %",
    "yes_no": "Space changes it, Backspace: the default",
    "choice": "← → step, Space lists, Backspace: the default",
    "fabric": "type its name, Space lists and adds, Backspace: none",
    "table_row": "← → step, Space lists them",
}


def say_of(spec: GivenSpec, look: Look, row: int = -1, room: int = ROOM) -> str:
    """Help for one field, in about so many cells; a cell (row from 0) also says its label, far above it."""
    head = f"{spec.label}: " if row >= 0 else ""
    if look.trouble:
        return f"! {head}{_pointed(look)}{look.trouble}"
    if look.linked:
        goes, takes, unlinks = key_of("go_to_source"), key_of("link"), key_of("unlink")
        return f"{head}{look.beside}: {goes} goes there, {takes} takes another, {unlinks} unlinks"
    hint = "" if spec.columns else _HINTS.get("choice" if spec.options else spec.kind, "")
    if spec.options and spec.optional:
        hint = hint.replace(": the default", " empties it")
    if spec.kind == "rows":
        hint = f"Space or {key_of('add_row')} adds a row, {key_of('link')} links all of it"
    keys = (f"{key_of('remove_row')} removes the row", f"{key_of('add_row')} adds a row") if row >= 0 else ()
    parts = (spec.help, hint, *keys, limits_of(spec))  # a limit is told when it is passed
    return head + _fitting([part for part in parts if part], room - len(head))


def limits_of(spec: GivenSpec) -> str:
    """`at least 1, at most 500`, or nothing."""
    limits = (("at least", spec.least), ("at most", spec.most))
    return ", ".join(f"{word} {limit}" for word, limit in limits if limit is not None)


def _fitting(parts: Sequence[str], room: int) -> str:
    """As many parts as fit whole, what means most first: none is cut off in its middle but a first one."""
    said = "".join(parts[:1])
    for part in parts[1:]:
        if len(said) + 3 + len(part) <= room:
            said += f" · {part}"
    return said


def _pointed(look: Look) -> str:
    """The character at fault, for who cannot see it marked in the field; many a trouble quotes it itself."""
    if look.at is None or look.at >= len(look.text) or "“" in look.trouble:
        return ""
    return f"at “{look.text[look.at]}”: "
