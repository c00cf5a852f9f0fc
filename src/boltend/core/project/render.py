"""New TOML text for plain data: values, tables, whole projects. Its lines end in LF."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import tomlkit
from tomlkit.items import Item, String

from boltend.core.project.blocks import Block, cut
from boltend.core.project.plain import Plain, is_link, is_table_list

_BARE = re.compile(r"[A-Za-z0-9_-]+")


def value_text(value: Any) -> str:
    """A value as written; tables and lists in it inline: `{ from = "Edge", take = "length" }`."""
    if isinstance(value, Mapping):
        inner = ", ".join(f"{key_text(key)} = {value_text(item)}" for key, item in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, list):
        return f"[{', '.join(map(value_text, value))}]"
    return str(tomlkit.item(value).as_string())


def as_item(value: Any, like: Any = None) -> Item:
    """A tomlkit item for plain data. Text keeps the kind of quotes of `like`, where they can hold it."""
    if isinstance(value, str) and isinstance(like, String):
        return tomlkit.value(_quoted_like(value, like.as_string()))
    return tomlkit.value(value_text(value))


def _quoted_like(value: str, old: str) -> str:
    mark = next(mark for mark in ('"""', "'''", '"', "'") if old.startswith(mark))
    long = len(mark) == 3
    readable = (value.replace("\n", "") if long else value).isprintable()
    if mark == '"' or not readable:
        return value_text(value)
    if mark == '"""':
        body = value.replace("\\", "\\\\").replace('"""', '""\\"')
        body = body[:-1] + '\\"' if body.endswith('"') else body
    elif "'" in value:
        return value_text(value)
    else:
        body = value
    opened = "\n" if long and (old[3:4] in ("\n", "\r") or value.startswith("\n")) else ""
    return f"{mark}{opened}{body}{mark}"


def key_text(name: str) -> str:
    """A key as written: bare where it may be."""
    return name if _BARE.fullmatch(name) else value_text(name)


def key_line(name: str, value: Any) -> str:
    """One `key = value` line."""
    return f"{key_text(name)} = {value_text(value)}\n"


def is_block(name: str, value: Any) -> bool:
    """Whether a value of a table is written under a header of its own, rather than inline."""
    if isinstance(value, Mapping):
        return not is_link(value)
    return is_table_list(value) and not all(is_link(row) for row in value) and name != "values"


def table_text(path: tuple[str, ...], data: Plain, is_list: bool) -> str:
    """A table under its header, with its sub-tables, one blank line between."""
    dotted = ".".join(map(key_text, path))
    head = f"[[{dotted}]]\n" if is_list else f"[{dotted}]\n" if path else ""
    parts = [head + "".join(key_line(k, v) for k, v in data.items() if not is_block(k, v))]
    for key, value in data.items():
        if is_block(key, value):
            rows = value if isinstance(value, list) else [value]
            parts += [table_text((*path, key), row, isinstance(value, list)) for row in rows]
    return "\n".join(part for part in parts if part)


def new_block(path: tuple[str, ...], data: Plain, is_list: bool, end: str) -> Block:
    """A table as a block ready to put into a text, its lines ending in `end`."""
    (block,) = cut(table_text(path, data, is_list).replace("\n", end)).children
    return block


def project_text(plain: Plain) -> str:
    """A whole project in the usual shape: root keys, project, fabrics, tabs, ladders, then unknown tables."""
    order = ("project", "fabric", "tab", "ladder")
    known = {key: plain[key] for key in order if key in plain}
    roots = {key: value for key, value in plain.items() if not is_block(key, value) and key not in known}
    return table_text((), {**roots, **known, **{k: v for k, v in plain.items() if k not in known}}, False)
