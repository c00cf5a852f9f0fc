"""Between what stands in a field and what stands in the project: text to raw value and back.

Nothing is worked out here: the kinds of the core read and write, this only picks the form that is kept.
"""

from collections.abc import Mapping
from typing import Any

from boltend.core.contract import GivenSpec
from boltend.core.project.plain import is_link
from boltend.core.values import Notation, NotationError, counted, listed, visible

_LONGEST_COUNT = 12
"""Digits; a longer one is no count anyway, and stays a text with its trouble."""


def raw_of(spec: GivenSpec, text: str, how: Notation) -> Any | None:
    """What to keep for a typed text; None clears the given. Text that does not read is kept as it is."""
    if not text.strip():
        return None
    if spec.kind in ("count", "number") and _is_digits(text):
        return int(text)
    if spec.kind == "yes_no" and text in ("yes", "no"):
        return text == "yes"
    if spec.kind == "measured":
        try:
            spec.reader.read(text, how, spec.unit)
        except (NotationError, ValueError):
            return text
        return listed(text)
    return text


def _is_digits(text: str) -> bool:
    # No leading nought: 007 stays as it was typed.
    return text.isascii() and text.isdigit() and len(text) <= _LONGEST_COUNT and str(int(text)) == text


def text_of(raw: object) -> str:
    """A raw value as text for a field: what a person would type for it, with nothing unseen in it."""
    if raw is None or is_link(raw):
        return ""
    if isinstance(raw, bool):
        return "yes" if raw else "no"
    if isinstance(raw, list):
        return "; ".join(counted([text_of(item) for item in raw]))
    return visible(raw) if isinstance(raw, str) else visible(str(raw))


def same_text(spec: GivenSpec, raw: object, text: str, how: Notation) -> bool:
    """Whether a field that shows `text` already says `raw`: then it is left alone, blanks and all."""
    if is_link(raw) or isinstance(raw, Mapping):
        return False
    return raw_of(spec, text, how) == raw


def typed_value(spec: GivenSpec, value: Any, how: Notation) -> Any | None:
    """A worked-out value as it would be typed: what an unlinked given keeps."""
    if value is None:
        return None
    if spec.kind != "rows":
        return spec.reader.to_toml(value, how, spec.unit)
    rows = []
    for row in value:
        cells = {c.name: typed_value(c, row.get(c.name), how) for c in spec.columns}
        rows.append({name: cell for name, cell in cells.items() if cell is not None})
    return rows
