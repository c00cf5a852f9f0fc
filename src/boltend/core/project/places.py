"""Putting blocks in, taking them out, and setting them in another order, with the gaps kept sensible."""

from __future__ import annotations

from boltend.core.project.blocks import Block
from boltend.core.project.lines import split_lines


def _loose(gap: str) -> bool:
    """Whether a gap holds comments."""
    return bool(gap.strip())


def _before(parent: Block, at: int) -> Block:
    """The block whose gap comes right before the child at this index."""
    return parent.children[at - 1].last() if at else parent


def take_out(parent: Block, block: Block) -> None:
    """Remove a child. Loose comments on either side stay; of plain blank lines one side's go."""
    at = parent.children.index(block)
    before, after = _before(parent, at), block.last()
    if _loose(before.gap) and _loose(after.gap):
        lines = split_lines(after.gap)
        while lines and not lines[0].strip() and before.gap.endswith(("\n\n", "\n\r\n")):
            del lines[0]
        gap = before.gap + "".join(lines)
    elif _loose(before.gap) or (before.gap and after.gap and not _loose(after.gap)):
        gap = before.gap
    else:
        gap = after.gap
    before.gap = gap
    del parent.children[at]


def put_after(parent: Block, block: Block, at: int, end: str) -> None:
    """Insert a child at an index, close after what stands there; loose comments of that gap come after it."""
    before, last = _before(parent, at), block.last()
    last.gap, before.gap = before.gap, end if before.header or before.body else ""
    if last.gap and not last.gap.startswith(("\n", "\r\n")):
        last.gap = end + last.gap
    elif not last.gap and at < len(parent.children):
        last.gap = end
    parent.children.insert(at, block)


def put_before(parent: Block, block: Block, at: int, end: str) -> None:
    """Insert a child right before the one at this index; loose comments of the gap stay above both."""
    before = _before(parent, at)
    block.last().gap = end
    if (before.header or before.body) and not before.gap:
        before.gap = end
    parent.children.insert(at, block)


def set_order(parent: Block, wanted: list[Block]) -> None:
    """Let the children in `wanted` stand in that order in the places that they hold now, gaps staying put."""
    places = [at for at, child in enumerate(parent.children) if child in wanted]
    gaps = [parent.children[at].last().gap for at in places]
    for at, block, gap in zip(places, wanted, gaps, strict=True):
        parent.children[at] = block
        block.last().gap = gap


def put_among(
    parent: Block, block: Block, elements: list[Block], index: int, fallback: int, end: str
) -> None:
    """Insert an element of an array of tables at `index` among its fellows; at child `fallback` if alone."""
    if index > 0:
        put_after(parent, block, parent.children.index(elements[index - 1]) + 1, end)
    elif elements:
        put_before(parent, block, parent.children.index(elements[0]), end)
    else:
        put_after(parent, block, fallback, end)
