"""A text cut into blocks: the preamble, then each table with its own comments, sub-tables below their table.

A block owns the comment lines directly above its header. What stands between two tables (blank lines, and
comments with a blank line on either side) is a *gap*: it belongs to the place, and stays when a table goes.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from boltend.core.project.lexer import Line, Names, lex

_KEY_IN_COMMENT = re.compile(r"\s*#+\s*[A-Za-z0-9_.\"'-]+\s*=")


@dataclass(eq=False)
class Block:
    """One table of the text. Its whole text is lead + header + body + gap, then its children's."""

    path: Names
    is_list: bool = False
    lead: str = ""
    header: str = ""
    body: str = ""
    gap: str = ""
    children: list[Block] = field(default_factory=list)
    line: int = 0
    key_lines: dict[Names, int] = field(default_factory=dict)

    def text(self) -> str:
        """The block and all below it."""
        return "".join(
            part for block in self.walk() for part in (block.lead, block.header, block.body, block.gap)
        )

    def walk(self) -> Iterator[Block]:
        """This block and all below it, in the order of the text."""
        yield self
        for child in self.children:
            yield from child.walk()

    def last(self) -> Block:
        """The block whose gap ends this one's text."""
        return self.children[-1].last() if self.children else self

    def has_key(self, name: str) -> bool:
        """Whether the body says something of this key (also dotted: `name.x = 1`)."""
        return any(names[0] == name for names in self.key_lines)

    def elements(self, path: Names) -> list[Block]:
        """The `[[path]]` blocks directly below."""
        return [child for child in self.children if child.path == path and child.is_list]

    def table(self, path: Names) -> Block | None:
        """The `[path]` block directly below."""
        return next((child for child in self.children if child.path == path and not child.is_list), None)

    def below(self, path: Names) -> list[Block]:
        """All direct children whose path begins with this one."""
        return [child for child in self.children if child.path[: len(path)] == path]

    def copied(self) -> Block:
        """A copy that shares nothing."""
        return copy.deepcopy(self)


def cut(text: str) -> Block:
    """The preamble as a block, with every table below it. `cut(text).text() == text`, always."""
    lines = lex(text)
    heads = [i for i, line in enumerate(lines) if line.kind == "header"]
    starts = [_lead_start(lines, head) for head in heads]
    ends = [*starts, len(lines)]
    root = Block(())
    _fill(root, lines, 0, ends[0])
    trail = [root]
    for head, start, end in zip(heads, starts, ends[1:], strict=True):
        block = Block(
            lines[head].names,
            lines[head].is_list,
            lead=_join(lines[start:head]),
            header=lines[head].text,
            line=head + 1,
        )
        _fill(block, lines, head + 1, end)
        while not _belongs(block, trail[-1]):
            trail.pop()
        trail[-1].children.append(block)
        trail.append(block)
    return root


def _belongs(block: Block, parent: Block) -> bool:
    return len(block.path) > len(parent.path) and block.path[: len(parent.path)] == parent.path


def _join(lines: list[Line]) -> str:
    return "".join(line.text for line in lines)


def _lead_start(lines: list[Line], head: int) -> int:
    while head > 0 and lines[head - 1].kind == "comment":
        head -= 1
    return head


def _fill(block: Block, lines: list[Line], start: int, end: int) -> None:
    """Share out the lines between a header and the next table's comments: body, then gap."""
    stop = start
    for at in range(start, end):
        line = lines[at]
        if line.kind == "key":
            block.key_lines.setdefault(line.names, at + 1)
        # A comment right under the body, or a key that was commented out, is the table's own.
        own_comment = line.kind == "comment" and (at == stop or _KEY_IN_COMMENT.match(line.text))
        if line.kind in ("key", "more") or own_comment:
            stop = at + 1
    block.body = _join(lines[start:stop])
    block.gap = _join(lines[stop:end])
