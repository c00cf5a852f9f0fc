"""The line below the form: what is wrong with the field that has the focus, or what helps with it."""

from boltend.core.contract import GivenSpec
from boltend.shell.actions import key_of
from boltend.shell.looks import Look

_HINTS = {
    "finished": "as 12 1/2 in or 32 cm; 12 1/2 in cut",
    "cut": "as 2 1/2 in or 6.5 cm; 2 in finished",
    "length": "as 42 in, 1 1/2 yd or 106 cm",
    "measured": "cut sizes with ; between, as 60 1/4; 60 3/8; or 6 of 12 1/2; 12 3/8",
    "count": "a whole number",
    "percent": "as 10 %",
    "yes_no": "Space changes it, Backspace takes the default",
    "choice": "← → step, Space lists them, Backspace takes the default",
    "fabric": "Space lists the fabrics and adds one, Backspace takes none",
    "table_row": "← → step, Space lists them",
}


def say_of(spec: GivenSpec, look: Look, row: int = -1) -> str:
    """Help for one field; a cell (row from 0) also says its label, which may stand far above it."""
    head = f"{spec.label}: " if row >= 0 else ""
    if look.trouble:
        return f"! {head}{_pointed(look)}{look.trouble}"
    if look.linked:
        goes, takes, unlinks = key_of("go_to_source"), key_of("link"), key_of("unlink")
        return f"{head}{look.beside}: {goes} goes there, {takes} takes another, {unlinks} unlinks"
    hint = "" if spec.columns else _HINTS.get("choice" if spec.options else spec.kind, "")
    if spec.options and spec.optional:
        hint = hint.replace("takes the default", "empties it")
    if spec.kind == "rows":
        hint = f"Space or {key_of('add_row')} adds a row, {key_of('link')} links all of it"
    limits = ", ".join(
        f"{word} {limit}"
        for word, limit in (("at least", spec.least), ("at most", spec.most))
        if limit is not None
    )
    return head + " · ".join(part for part in (spec.help, limits, hint) if part)


def _pointed(look: Look) -> str:
    """The character at fault, for who cannot see it marked in the field; many a trouble quotes it itself."""
    if look.at is None or look.at >= len(look.text) or "“" in look.trouble:
        return ""
    return f"at “{look.text[look.at]}”: "
