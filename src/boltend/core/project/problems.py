"""What is wrong with a project file, told so that a person can put it right."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from boltend.core.values.alike import likeliest

Severity = Literal["error", "note"]
"""An *error* keeps its tab (or the setting) from being worked out; a *note* only tells."""


@dataclass(frozen=True)
class Problem:
    """One thing wrong in a project file.

    `where` is a path of names such as `tab "Border 1" · given · width`; `path` is the same for programs,
    from the table down (`("given", "width")`). `line` counts from 1 and is None where no text was read.
    """

    where: str
    what: str
    way_out: str = ""
    file: str = ""
    line: int | None = None
    severity: Severity = "error"
    tab_key: int | None = None
    owner_key: int | None = None
    path: tuple[str | int, ...] = ()

    def __str__(self) -> str:
        place = (
            f"{self.file}:{self.line}: " if self.line is not None else f"{self.file}: " if self.file else ""
        )
        tail = f" {self.way_out}" if self.way_out else ""
        return f"{place}{self.where}: {self.what}{tail}"


class ProjectUnreadable(Exception):
    """The file as a whole cannot be read; nothing of it was opened or changed."""

    def __init__(
        self, file: str, why: str, way_out: str = "", line: int | None = None, column: int | None = None
    ) -> None:
        place = file if line is None else f"{file}:{line}" if column is None else f"{file}:{line}:{column}"
        super().__init__(f"{place}: {why} {way_out}".rstrip())
        self.file, self.why, self.way_out, self.line, self.column = file, why, way_out, line, column


class EditRefused(ValueError):
    """An edit that would leave the project wrong; `offer` is a name or value that would do."""

    def __init__(self, why: str, way_out: str = "", offer: str | None = None) -> None:
        super().__init__(f"{why} {way_out}".rstrip())
        self.why, self.way_out, self.offer = why, way_out, offer


def nearest(word: str, names: Iterable[str]) -> str | None:
    """The name most like `word`, or None where nothing is like it."""
    return likeliest(word.casefold(), names)
