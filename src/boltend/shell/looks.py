"""What a field looks like: its text, what stands there while empty, where it comes from, what is wrong."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from boltend.core.contract import GivenSpec
from boltend.core.flow import Result
from boltend.core.flow.givens import GivenState, example_of
from boltend.core.report.tab_sheet import given_entry
from boltend.core.report.words import say_value
from boltend.core.values import Notation, NotationError, visible
from boltend.shell.both import both_shown
from boltend.shell.waits import NOTHING, Brought


@dataclass(frozen=True)
class Place:
    """Where a field stands: a given of the tab in sight, or one cell of its rows."""

    given: str
    row: int = -1
    column: str = ""


@dataclass(frozen=True)
class Look:
    """All that a row of the form shows. `at` is the character at fault, where it is known."""

    text: str = ""
    faint: str = ""
    linked: bool = False
    beside: str = ""
    trouble: str = ""
    at: int | None = None
    needed: bool = False


_KINDS = re.compile(r" (?:finished|cut)$")


def without_kind(look: Look) -> Look:
    """A value that comes from elsewhere without its kind, where there is no room for that."""
    return replace(look, text=_KINDS.sub("", look.text)) if look.linked else look


def look_of(
    state: GivenState, result: Result, text: str, said: str = "", brought: Brought = NOTHING, row: int = -1
) -> Look:
    """The look of one given, or of a cell of a `row`.

    `text` is its raw value as text, `said` what the result says of it, `brought` what its link brings.
    """
    spec = state.spec
    how = result.settings.notation
    entry = given_entry(state, result, also=both_shown(), takes=brought.takes)
    if state.link is not None:
        shown = say_value(spec, brought.value, how) if brought.value is not None else ""
        return Look(shown, "no value yet", True, entry.origin, said or _short(state, spec))
    if state.trouble is None:
        origin = "" if state.speaks == "typed" else entry.origin
        faint = entry.value if state.speaks not in ("typed", "empty") else _faint(spec, row)
        return Look(text, faint, False, _beside(state, origin, entry.also), said)
    if state.speaks == "empty":
        example = example_of(spec, how)
        # "e.g.": without colour an example must not look like a value, as it did behind "as".
        faint = f"e.g. {example}" if example else ""
        return Look(text, faint, False, f"needed {_kind(spec)}".strip(), "", None, True)
    trouble, at = _pointed(state, how)
    return Look(text, "", False, _kind(spec), trouble, at)


def _beside(state: GivenState, origin: str, other: str) -> str:
    kind = _kind(state.spec) if state.speaks in ("typed", "empty") else ""
    if isinstance(state.raw, (str, list)) and _SAYS_A_KIND.search(str(state.raw)):
        kind = ""  # one kind in a line: that of the number
    return " ".join(part for part in (kind, origin, other) if part)


def _kind(spec: GivenSpec) -> str:
    return spec.kind if spec.kind in ("finished", "cut") else "cut" if spec.kind == "measured" else ""


_SAYS_A_KIND = re.compile(r"\b(?:finished|unfinished|raw|cut)\b")
_NUMBERS = ("finished", "cut", "length", "count")

NOT_CHOSEN = "not chosen"
"""An optional choice left empty: none of its words, and yet no “none”, for the calculator then chooses."""


def _faint(spec: GivenSpec, row: int) -> str:
    if not spec.optional:
        return ""
    return empty_words(spec, row)


def empty_words(spec: GivenSpec, row: int) -> str:
    """What stands for an optional given that is left empty: its calculator's words, if it has some."""
    return spec.empty_at(row) or (NOT_CHOSEN if spec.options else "none")


def number_for_a_name(cells: Mapping[str, GivenState], how: Notation) -> str:
    """What is said of a row's name that reads as what the row still needs, or nothing."""
    name = cells.get("name")
    if name is None or not isinstance(name.raw, str):
        return ""
    for cell in cells.values():
        if cell.speaks == "empty" and cell.trouble is not None and cell.spec.kind in _NUMBERS:
            try:
                cell.spec.reader.read(name.raw, how, cell.spec.unit)
            except ValueError:
                return ""
            return f"“{visible(name.raw)}” is only a number: is that the {cell.spec.label.lower()}?"
    return ""


def _pointed(state: GivenState, how: Notation) -> tuple[str, int | None]:
    """What is wrong with a typed text, and at which character."""
    if isinstance(state.raw, str):
        try:
            state.spec.reader.read(state.raw, how, state.spec.unit)
        except NotationError as error:
            # A choice is at fault as a whole.
            return f"{error.why}; {error.way_out}", None if state.spec.options else seen_at(
                state.raw, error.at
            )
        except ValueError:
            pass
    return _short(state, state.spec), None


def seen_at(text: str, at: int) -> int:
    """Where a character of a text stands once what is unseen in it is written out."""
    return len(visible(text[:at]))


def _short(state: GivenState, spec: GivenSpec) -> str:
    """The trouble without the label, which stands beside it already."""
    return without_label(str(state.trouble), spec.label) if state.trouble is not None else ""


def without_label(words: str, label: str) -> str:
    """A trouble without the label in front."""
    head, found, rest = words.partition(f"{label}: ")
    return rest if found and (not head or head.startswith("row ")) else words
