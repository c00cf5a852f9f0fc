"""Keys of the person's own: the table `[keys]` of `config.toml`, as `rename_tab = "f2"`, judged in words.

What cannot be done is told and left out; the action then keeps the keys that it has of itself.
"""

import difflib
import re
from collections.abc import Mapping

from boltend.shell.actions import ACTIONS, BY_NAME, key_words

NO_KEY = "no-key"
"""Stands in a keymap for an action without a key: no terminal sends it."""

_HELD = ("ctrl", "alt", "shift")
_MOVING = (
    "up",
    "down",
    "left",
    "right",
    "home",
    "end",
    "pageup",
    "pagedown",
    "insert",
    "delete",
    "backspace",
)
_PLAIN = (*_MOVING, "enter", "tab", "space", "escape")
_OTHER_NAMES = {
    "pgup": "pageup", "pgdn": "pagedown", "pgdown": "pagedown", "del": "delete", "ins": "insert",
    "esc": "escape",
    "return": "enter", "control": "ctrl", "option": "alt", "meta": "alt", "←": "left", "→": "right",
    "↑": "up", "↓": "down",
}  # fmt: skip
_IS_REALLY = {"ctrl+h": "Backspace", "ctrl+i": "Tab", "ctrl+m": "Enter", "ctrl+[": "Esc"}
"""What a terminal sends these as."""

_EDITING = {"ctrl+c": "copies", "ctrl+x": "cuts", "ctrl+v": "pastes"}
_KEEP_ONE = ("menu", "leave", "stop")
"""Actions that must stay within reach by a key: all else is in the menu."""

_AN_EXAMPLE = "Write as f2, shift+f2, ctrl+e or alt+up."


class KeyRefused(ValueError):
    """A key that an action cannot have; says why."""


def read_key(text: str) -> str:
    """A key as the shell calls it, from how a person writes it: `F2`, `^e`, `Ctrl+PgDn`.

    Raises `KeyRefused`.
    """
    said = text.strip().casefold().replace("-", "+").replace(" ", "")
    said = re.sub(r"^\^(?=.)", "ctrl+", said)
    parts = [_OTHER_NAMES.get(part, part) for part in said.split("+")]
    *held, last = parts
    if not last or any(part not in _HELD for part in held) or len(set(held)) < len(held):
        raise KeyRefused(f"“{text}” is no key. {_AN_EXAMPLE}")
    key = "+".join((*(part for part in _HELD if part in held), last))
    if key in _IS_REALLY:
        raise KeyRefused(f"{key_words(key)} is {_IS_REALLY[key]} in a terminal.")
    if key in _EDITING:
        raise KeyRefused(f"{key_words(key)} {_EDITING[key]} in a field.")
    if re.fullmatch(r"f([1-9]|1\d|2[0-4])", last):
        return key
    if last in _PLAIN:
        if key != "escape" and (last not in _MOVING or not {"ctrl", "alt"} & set(held)):
            raise KeyRefused(f"{key_words(key)} is needed in the fields.")
        return key
    if len(last) == 1 and last.isascii() and last.isalnum():
        if not {"ctrl", "alt"} & set(held):
            raise KeyRefused(f"“{text}” is needed for typing. Write ctrl+{last} or alt+{last}.")
        if last.isdigit() and "ctrl" in held:
            raise KeyRefused(f"{key_words(key)} never arrives from a terminal.")
        return key
    raise KeyRefused(f"“{text}” is no key. {_AN_EXAMPLE}")


def judged(table: object) -> tuple[dict[str, tuple[str, ...]], list[str]]:
    """The keys of the actions that are to have others, and what is wrong with the table, in words."""
    if not isinstance(table, Mapping):
        return {}, ['keys is no table. Write [keys], and below it rename_tab = "f2".']
    troubles: list[str] = []
    wanted: dict[str, tuple[str, ...]] = {}
    for name, said in table.items():
        try:
            wanted[_known(name)] = _read(name, said)
        except KeyRefused as error:
            troubles.append(f"{name}: {error}")
    return _without_clashes(wanted, troubles), troubles


def _known(name: str) -> str:
    if name in BY_NAME:
        return name
    near = difflib.get_close_matches(name, BY_NAME, 1)
    hint = f" Is {near[0]} meant?" if near else " F1 lists the names at its end."
    raise KeyRefused(f"no action has this name.{hint}")


def _read(name: str, said: object) -> tuple[str, ...]:
    """One key, several with commas between, or a list of them; none takes all keys from the action."""
    texts = said.split(",") if isinstance(said, str) else said
    if not isinstance(texts, list) or not all(isinstance(text, str) for text in texts):
        raise KeyRefused('not a text. Write a key as "f2", or several as ["f2", "ctrl+e"].')
    keys = tuple(dict.fromkeys(read_key(text) for text in texts if text.strip()))
    if not keys and name in _KEEP_ONE:
        raise KeyRefused("must have a key.")
    return keys


def _without_clashes(wanted: dict[str, tuple[str, ...]], troubles: list[str]) -> dict[str, tuple[str, ...]]:
    """Each key for one action: of two that the person names the first has it, and it goes before our own."""
    taken: dict[str, str] = {}
    given: dict[str, tuple[str, ...]] = {}
    for name, keys in wanted.items():
        for key in keys:
            if key in taken:
                troubles.append(f"{name}: {key_words(key)} is {taken[key]}’s by a line above.")
        given[name] = tuple(key for key in keys if taken.setdefault(key, name) == name)
        if keys and not given[name]:
            del given[name]
    for action in ACTIONS:
        own = given.get(action.name, action.keys)
        left = tuple(key for key in own if taken.get(key, action.name) == action.name)
        if left == own:
            continue
        lost = next(key for key in own if key not in left)
        if not left and action.name in _KEEP_ONE:
            taker = taken[lost]
            troubles.append(
                f"{taker}: {action.name} needs {key_words(lost)}. Give {action.name} another key first."
            )
            return _without_clashes({n: k for n, k in wanted.items() if n != taker}, troubles)
        keeps = f"keeps {', '.join(map(key_words, left))}" if left else "is in the menu only"
        troubles.append(
            f"{taken[lost]}: {key_words(lost)} was {action.name}’s, which {keeps}. "
            f"A line {action.name} = … settles it."
        )
        given[action.name] = left
    return given


def keymap(given: Mapping[str, tuple[str, ...]]) -> dict[str, str]:
    """The keys as Textual's keymap wants them."""
    return {name: ",".join(keys) or NO_KEY for name, keys in given.items()}
