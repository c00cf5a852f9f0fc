"""One difference between two projects on its way into one text."""

from __future__ import annotations

from typing import Any

from boltend.core.project.blocks import Block, cut
from boltend.core.project.lines import usual_end
from boltend.core.project.model import NO_SETTINGS, FabricRow, LadderRow, Project, Tab
from boltend.core.project.plain import Plain
from boltend.core.project.render import new_block
from boltend.core.project.tree_edit import Misfit, arrange, edit_element, edit_table

Row = Tab | FabricRow | LadderRow
ORDER = ("project", "fabric", "tab", "ladder")


def edited_text(text: str, saved: Project, wanted: Project) -> tuple[str, str] | None:
    """The text with `wanted` in place of `saved`, and what was lost; None where it cannot be edited in place.

    The caller must read the text back: nothing is promised about it.
    """
    try:
        return _Edit(text, saved, wanted).run()
    except (Misfit, ValueError, KeyError, TypeError, AttributeError):
        return None  # tomlkit raises of all kinds on shapes that it cannot edit


class _Edit:
    """One difference on its way into one text."""

    def __init__(self, text: str, saved: Project, wanted: Project) -> None:
        self.end = usual_end(text)
        self.unfinished = bool(text) and not text.endswith("\n")
        self.blank_end = text.endswith(("\n\n", "\n\r\n"))
        self.root = cut(text + self.end if self.unfinished else text)
        self.saved, self.wanted = saved, wanted
        self.notes: list[str] = []

    def run(self) -> tuple[str, str]:
        """The new text and what was lost."""
        if not self.root.text().strip():
            raise Misfit
        self._edit_root()
        for word, old, new in (
            ("fabric", self.saved.fabrics, self.wanted.fabrics),
            ("tab", self.saved.tabs, self.wanted.tabs),
            ("ladder", self.saved.ladders, self.wanted.ladders),
        ):
            if len(old) != len(new) or any(was is not will for was, will in zip(old, new, strict=True)):
                self._edit_rows(word, old, new)
        return self._ended_as_before(self.root.text()), " ".join(self.notes)

    def _ended_as_before(self, text: str) -> str:
        """No blank lines that a removed table left at the end; a last line end only if there was one."""
        stripped = text.rstrip("\r\n")
        if self.unfinished:
            return stripped
        return (
            text
            if self.blank_end or not stripped
            else stripped + text[len(stripped) :].partition("\n")[0] + "\n"
        )

    def _edit_root(self) -> None:
        old, new = dict(self.saved.root), dict(self.wanted.root)
        if self.saved.settings is not NO_SETTINGS:
            old["project"] = self.saved.settings
        if self.wanted.settings is not NO_SETTINGS:
            new["project"] = self.wanted.settings
        fresh = "project" in new and "project" not in old and self.wanted.settings is not NO_SETTINGS
        if fresh:
            del new["project"]
        edit_table(self.root, (), old, new, self.end)
        if fresh:
            block = new_block(("project",), self.wanted.settings, False, self.end)
            arrange(self.root, [block], [], 0, self.end)

    def _edit_rows(self, word: str, old: tuple[Row, ...], new: tuple[Row, ...]) -> None:
        current = self.root.elements((word,))
        if len(current) != len(old):
            raise Misfit
        known = {row.key: (row, block) for row, block in zip(old, current, strict=True)}
        pristine = {key: known[key][1].copied() for key in _origins(new) if key in known}
        wanted = [self._wanted_block(word, row, new, known, pristine) for row in new]
        current = [known[row.key][1] for row in old]
        arrange(self.root, wanted, current, self._place_for(word), self.end)

    def _wanted_block(
        self,
        word: str,
        row: Row,
        rows: tuple[Row, ...],
        known: dict[int, tuple[Any, Block]],
        pristine: dict[int, Block],
    ) -> Block:
        if row.key in known:
            was, block = known[row.key]
            if was.data is not row.data:
                block = self._edited(word, was.data, row.data, block)
                known[row.key] = (was, block)
            return block
        source = _source(row, rows, known)
        if source is None:
            return new_block((word,), row.data, True, self.end)
        copy = pristine[source].copied()
        # A comment above the header is a title of the first tab, or of the whole section: not copied.
        copy.lead = ""
        fresh = edit_element(copy, word, known[source][0].data, row.data, self.end)
        return fresh or copy

    def _edited(self, word: str, old: Plain, new: Plain, block: Block) -> Block:
        fresh = edit_element(block, word, old, new, self.end)
        if fresh is None:
            return block
        at = self.root.children.index(block)
        self.root.children[at] = fresh
        self.notes.append(f'Comments inside {word} "{new.get("name", "")}" could not be kept.')
        return fresh

    def _place_for(self, word: str) -> int:
        """Where the first `[[word]]` goes: after all that comes before it in the usual order."""
        earlier = ORDER[: ORDER.index(word) + 1]
        at = 0
        for index, child in enumerate(self.root.children):
            if child.path[0] in earlier:
                at = index + 1
        return at


def _origins(rows: tuple[Row, ...]) -> set[int]:
    return {row.origin for row in rows if isinstance(row, Tab) and row.origin is not None}


def _source(row: Row, rows: tuple[Row, ...], known: dict[int, tuple[Any, Block]]) -> int | None:
    """The saved tab whose text a new tab copies: its origin, or its origin's origin where that is new too."""
    by_key = {other.key: other for other in rows}
    seen: set[int] = set()
    while isinstance(row, Tab) and row.origin is not None and row.key not in seen:
        if row.origin in known:
            return row.origin
        seen.add(row.key)
        if row.origin not in by_key:
            return None
        row = by_key[row.origin]
    return None
