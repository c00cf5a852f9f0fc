"""The text of a project file, and how an edit of the project is carried into it.

Everything that an edit does not concern survives byte for byte: comments, order, spacing, unknown keys, line
ends, a byte-order mark, a missing last line end. The result is always read back with tomllib and compared
with what was meant. All that knows of tomlkit stands behind this class, so that another library could serve.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cached_property
from typing import Any, NamedTuple

from boltend.core.project.blocks import Block, cut
from boltend.core.project.lines import BOM, usual_end
from boltend.core.project.model import Project
from boltend.core.project.plain import Plain, same_plain


class CannotWrite(Exception):
    """The project could not be written as text that means the same. Nothing was saved."""


class Edited(NamedTuple):
    """A new text, and what could not be kept in it (empty where all was)."""

    text: str
    note: str = ""


@dataclass(frozen=True)
class Document:
    """A text as it stands in the file, without its byte-order mark."""

    text: str
    bom: bool = False

    @classmethod
    def from_text(cls, text: str) -> Document:
        """Take a text as read (line ends untouched)."""
        return cls(text.removeprefix(BOM), text.startswith(BOM))

    @cached_property
    def _blocks(self) -> Block:
        return cut(self.text)

    @cached_property
    def _rows(self) -> dict[str, list[Block]]:
        return {}

    def _elements(self, word: str) -> list[Block]:
        """The `[[word]]` blocks; kept, for a thousand problems ask for the lines of a thousand tabs."""
        if word not in self._rows:
            self._rows[word] = self._blocks.elements((word,))
        return self._rows[word]

    def apply(self, saved: Project, wanted: Project) -> Edited:
        """The text for `wanted`, where this text says `saved` (same keys for the same tabs).

        Raises CannotWrite where no text could be made that reads back as `wanted`.
        """
        if saved is wanted:
            return Edited(BOM * self.bom + self.text)
        # Late: tomlkit takes 10 to 20 ms to import, and most runs never save.
        from boltend.core.project.text_edit import edited_text

        meant = wanted.to_plain()
        done = edited_text(self.text, saved, wanted)
        if done is not None and _says(done[0], meant):
            return Edited(BOM * self.bom + done[0], done[1])
        return self._afresh(meant)

    def _afresh(self, meant: dict[str, Any]) -> Edited:
        from boltend.core.project.render import project_text  # late, as above

        try:
            text = project_text(meant)
        except (ValueError, TypeError) as error:
            raise CannotWrite(f"The project cannot be written as TOML: {error}") from error
        if not _says(text, meant):
            raise CannotWrite("The project, written as TOML, does not read back the same.")
        lost = (
            "The file was written afresh; its comments and spacing could not be kept."
            if self.text.strip()
            else ""
        )
        return Edited(BOM * self.bom + text.replace("\n", usual_end(self.text)), lost)

    def line_of(self, word: str, index: int | None, path: tuple[str | int, ...] = ()) -> int | None:
        """The line (from 1) of a key: among the root keys (`word` empty), in `[word]`, or in a `[[word]]`."""
        block = self._blocks
        if word:
            rows = block.table((word,)) if index is None else _nth(self._elements(word), index)
            if rows is None:
                return block.key_lines.get((word,))
            block = rows
        return _find_line(block, path)


def _nth(blocks: list[Block], index: int) -> Block | None:
    return blocks[index] if index < len(blocks) else None


def _find_line(block: Block, path: tuple[str | int, ...]) -> int | None:
    """Walk down as far as blocks go, then as far as keys are on lines of their own."""
    line = block.line or None
    while path:
        names = tuple(part for part in path if isinstance(part, str))
        for length in range(len(names), 0, -1):
            if names[:length] in block.key_lines:
                return block.key_lines[names[:length]]
        dotted = [at for key, at in block.key_lines.items() if key[: len(names)] == names]
        if dotted:
            return dotted[0]
        here = (*block.path, str(path[0]))
        if len(path) > 1 and isinstance(path[1], int):
            below, path = _nth(block.elements(here), path[1]), path[2:]
        else:
            below, path = block.table(here), path[1:]
        if below is None:
            deeper = block.below(here)
            return deeper[0].line if deeper else line
        block, line = below, below.line
    return line


def _says(text: str, meant: Plain) -> bool:
    try:
        return same_plain(tomllib.loads(text), meant)
    except (ValueError, RecursionError):
        return False
