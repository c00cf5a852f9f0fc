"""Changing keys in the body of one table: tomlkit's reliable case, a flat document with no headers.

tomlkit misplaces comments on structural edits (see `ecosystem.md` 3.2), so it is never handed a whole file.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import tomlkit
from tomlkit.items import Array

from boltend.core.project.lines import with_ends_of
from boltend.core.project.plain import Plain, same_plain
from boltend.core.project.render import as_item, key_line

_INDENT = re.compile(r"(?:[ \t]*(?:#.*)?\n)*([ \t]*)[^ \t\n#]")


def edit_body(body: str, old: Plain, new: Plain, end: str) -> str:
    """The body with `new` in place of `old` (both hold only what differs); other lines stay byte for byte.

    A key that is only in `old` goes, one only in `new` comes last. New lines end in `end`.
    """
    source = body.replace("\r\n", "\n")
    added = {key: value for key, value in new.items() if key not in old}
    document = tomlkit.parse(source)
    _edit_table(document, old, {key: value for key, value in new.items() if key in old})
    text = document.as_string()
    # Added as text of our own: tomlkit may put a new key before a comment or beside a dotted one.
    indent = _INDENT.match(text)
    margin = indent.group(1) if indent else ""
    text += "".join(margin + key_line(key, value) for key, value in added.items())
    return with_ends_of(body, text, end)


def _edit_table(table: Any, old: Plain, new: Plain) -> None:
    for key in old:
        if key not in new:
            del table[key]
    for key, value in new.items():
        if key not in old:
            table[key] = as_item(value)
        elif not same_plain(old[key], value):
            _edit_value(table, key, old[key], value)


def _edit_value(holder: Any, key: str | int, old: Any, new: Any) -> None:
    """Change as little as may be: inside a list or an inline table only the parts that differ."""
    item = holder[key]
    if isinstance(old, Mapping) and isinstance(new, Mapping):
        _edit_table(item, old, new)
    elif isinstance(old, list) and isinstance(new, list) and isinstance(item, Array):
        _edit_array(item, old, new)
    else:
        holder[key] = as_item(new, like=item)


def common_ends(old: list[Any], new: list[Any]) -> tuple[int, int]:
    """How many elements two lists share at their start and (of the rest) at their end."""
    least = min(len(old), len(new))
    head = 0
    while head < least and same_plain(old[head], new[head]):
        head += 1
    tail = 0
    while tail < least - head and same_plain(old[-1 - tail], new[-1 - tail]):
        tail += 1
    return head, tail


def _edit_array(array: Array, old: list[Any], new: list[Any]) -> None:
    head, tail = common_ends(old, new)
    before, after = len(old) - tail, len(new) - tail
    paired = min(before, after)
    for at in range(head, paired):
        _edit_value(array, at, old[at], new[at])
    for at in reversed(range(paired, before)):
        del array[at]
    for at in range(paired, after):
        array.insert(at, as_item(new[at]))
