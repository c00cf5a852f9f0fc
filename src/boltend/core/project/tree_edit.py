"""Carrying a difference of plain data into the blocks of a text: only what differs is touched."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from boltend.core.project.blocks import Block
from boltend.core.project.body_edit import common_ends, edit_body
from boltend.core.project.lexer import Names
from boltend.core.project.places import put_after, put_among, set_order, take_out
from boltend.core.project.plain import Plain, is_table_list, same_plain
from boltend.core.project.render import is_block, key_text, new_block

_ABSENT = object()


class Misfit(Exception):
    """The text is of a shape that cannot be edited in place."""


def edit_table(block: Block, path: Names, old: Plain, new: Plain, end: str) -> None:
    """Let a table's block, whose data is `old`, say `new`. `path` is the table's; new lines end in `end`."""
    body_old: dict[str, Any] = {}
    body_new: dict[str, Any] = {}
    for key in {**old, **new}:
        was, will = old.get(key, _ABSENT), new.get(key, _ABSENT)
        if was is not _ABSENT and will is not _ABSENT and same_plain(was, will):
            continue
        here = (*path, key)
        if was is not _ABSENT and block.has_key(key):
            body_old[key] = was
        elif was is not _ABSENT and _edit_below(block, here, was, will, end):
            continue
        elif will is not _ABSENT and is_block(key, will):
            _add_below(block, here, will, end)
            continue
        if will is not _ABSENT:
            body_new[key] = will
    if body_old or body_new:
        block.body = edit_body(block.body, body_old, body_new, end)


def _edit_below(block: Block, path: Names, old: Any, new: Any, end: str) -> bool:
    """Edit a value written as blocks of its own. False: they are gone, and `new` is still to be put."""
    if isinstance(old, Mapping) and isinstance(new, Mapping):
        table = block.table(path)
        if table is None:
            _edit_implied(block, path, old, new, end)
        else:
            edit_table(table, path, old, new, end)
        return True
    if is_table_list(old) and is_table_list(new):
        _edit_rows(block, path, old, new, end)
        return True
    for child in block.below(path):
        take_out(block, child)
    return new is _ABSENT


def _edit_implied(block: Block, path: Names, old: Plain, new: Plain, end: str) -> None:
    """Edit a table that has sub-tables in the text but no header; it gets one when it needs a key."""
    children = block.below(path)
    at = block.children.index(children[0]) if children else len(block.children)
    if block.children[at : at + len(children)] != children:
        raise Misfit
    implied = Block(path, children=list(children))
    edit_table(implied, path, old, new, end)
    kept = implied.children
    if implied.body or not kept:
        implied.header = f"[{'.'.join(map(key_text, path))}]" + end
        implied.gap = implied.gap or (end if kept else "")
        kept = [implied]
    block.children[at : at + len(children)] = kept


def _edit_rows(block: Block, path: Names, old: list[Plain], new: list[Plain], end: str) -> None:
    elements = block.elements(path)
    if len(elements) != len(old):
        raise Misfit
    head, tail = common_ends(old, new)
    before, after = len(old) - tail, len(new) - tail
    paired = min(before, after)
    for at in range(head, paired):
        edit_table(elements[at], path, old[at], new[at], end)
    for at in reversed(range(paired, before)):
        take_out(block, elements.pop(at))
    for at in range(paired, after):
        row = new_block(path, new[at], True, end)
        put_among(block, row, elements, at, len(block.children), end)
        elements.insert(at, row)


def _add_below(block: Block, path: Names, value: Any, end: str) -> None:
    rows = value if isinstance(value, list) else [value]
    for row in rows:
        put_after(block, new_block(path, row, isinstance(value, list), end), len(block.children), end)


def edit_element(block: Block, word: str, old: Plain, new: Plain, end: str) -> Block | None:
    """Edit one `[[word]]` in place; where that goes wrong, a fresh block for it, whose comments are lost."""
    gap = block.last().gap
    lead = block.lead
    try:
        edit_table(block, (word,), old, new, end)
        if same_plain(tomllib.loads(block.text()), {word: [new]}):
            return None
    except (Misfit, ValueError, KeyError, TypeError, AttributeError):
        pass  # tomlkit raises of all kinds on shapes that it cannot edit; the check is what counts
    fresh = new_block((word,), new, True, end)
    fresh.lead, fresh.last().gap = lead, gap
    return fresh


def arrange(root: Block, wanted: list[Block], current: list[Block], fallback: int, end: str) -> None:
    """Let the elements of an array of tables be `wanted`, some of them new, in that order."""
    for block in current:
        if block not in wanted:
            take_out(root, block)
    kept = [block for block in wanted if block in current]
    set_order(root, kept)
    placed = list(kept)
    for index, block in enumerate(wanted):
        if block not in current:
            alone_at = min(fallback, len(root.children))
            put_among(root, block, placed, index, alone_at, end)
            placed.insert(index, block)
