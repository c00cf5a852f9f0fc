"""The project as data: thin, frozen wrappers round what tomllib gives, so that unknown keys survive.

Nothing here is ever changed in place: an edit (see `edits.py`) makes a new `Project` that shares all it did
not touch, so `old.tabs[3] is new.tabs[3]` tells what an edit reached. The dicts inside count as frozen too.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Any

from boltend.core.project.checks import fabric_problems, ladder_problems, stays_sound, tab_problems
from boltend.core.project.plain import Plain, folded
from boltend.core.project.problems import Problem

FORMAT = 1
"""The format number that this version reads and writes (`boltend = 1`)."""

NO_SETTINGS: Plain = MappingProxyType({})
"""Stands for a file without a `[project]` table, which is not the same text as an empty one."""

_EMPTY: Plain = MappingProxyType({})
_keys = itertools.count(1)


def new_key() -> int:
    """A number that no other tab, fabric or ladder of this run has had."""
    return next(_keys)


def _text(data: Plain, key: str) -> str:
    value = data.get(key)
    return value if isinstance(value, str) else ""


@dataclass(frozen=True, eq=False)
class Tab:
    """One use of a calculator. `key` stands for it through renaming and moving; `data` is its table.

    `origin` is the key of the tab that this one was duplicated from: the file copies its comments too.
    """

    key: int
    data: Plain
    origin: int | None = None

    @property
    def name(self) -> str:
        """The person's name for it; empty where the file has none (then `problems` says so)."""
        return _text(self.data, "name")

    @property
    def calculator(self) -> str:
        """The calculator's name; empty where the file has none."""
        return _text(self.data, "calculator")

    @property
    def given(self) -> Plain:
        """Name to raw value: a link is a dict with `from` and `take`, rows are a list of dicts."""
        value = self.data.get("given")
        return value if isinstance(value, Mapping) else _EMPTY

    @property
    def aside(self) -> bool:
        """A what-if: worked out, but out of the lists."""
        return self.data.get("aside") is True

    @property
    def done(self) -> bool:
        """Already sewn: worked out and linked, but out of the lists."""
        return self.data.get("done") is True

    @property
    def note(self) -> str:
        """The person's own note."""
        return _text(self.data, "note")

    @cached_property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong with the tab's own table (no lines: `ProjectFile.problems` knows those)."""
        return tab_problems(self.data, self.key)


@dataclass(frozen=True, eq=False)
class FabricRow:
    """One `[[fabric]]`."""

    key: int
    data: Plain

    @property
    def name(self) -> str:
        """The person's name for the cloth."""
        return _text(self.data, "name")

    @property
    def form(self) -> str:
        """`bolt` or the name of a precut; empty where not said."""
        return _text(self.data, "form")

    @cached_property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong with this table."""
        return fabric_problems(self.data, self.key)


@dataclass(frozen=True, eq=False)
class LadderRow:
    """One `[[ladder]]`."""

    key: int
    data: Plain

    @property
    def name(self) -> str:
        """The ladder's name."""
        return _text(self.data, "name")

    @property
    def tab(self) -> str:
        """The name of the tab whose given runs through the values."""
        return _text(self.data, "tab")

    @property
    def given(self) -> str:
        """The given that runs through the values."""
        return _text(self.data, "given")

    @property
    def values(self) -> tuple[Any, ...]:
        """The raw values."""
        value = self.data.get("values")
        return tuple(value) if isinstance(value, list) else ()

    @property
    def take(self) -> Any:
        """What is set side by side, raw: a found's name, a link, or a list of them."""
        return self.data.get("take")

    @cached_property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong with this table."""
        return ladder_problems(self.data, self.key)


@dataclass(frozen=True, eq=False)
class Project:
    """All that a project file says.

    `root` holds the root keys (`boltend`, and any that we do not know); `settings` is the `[project]` table.
    """

    root: Plain = field(default_factory=lambda: {"boltend": FORMAT})
    settings: Plain = field(default_factory=lambda: NO_SETTINGS)
    fabrics: tuple[FabricRow, ...] = ()
    tabs: tuple[Tab, ...] = ()
    ladders: tuple[LadderRow, ...] = ()

    def to_plain(self) -> dict[str, Any]:
        """What tomllib gives for a file that says this. Shares the inner dicts: do not change them."""
        plain = dict(self.root)
        if self.settings is not NO_SETTINGS:
            plain["project"] = self.settings
        for word, rows in (("fabric", self.fabrics), ("tab", self.tabs), ("ladder", self.ladders)):
            if rows:
                plain[word] = [row.data for row in rows]
        return plain

    @property
    def name(self) -> str:
        """The project's own name."""
        return _text(self.settings, "name")

    @cached_property
    def tab_names(self) -> tuple[str, ...]:
        """The names of the tabs, in their order; empty text for one without."""
        return tuple(tab.name for tab in self.tabs)

    @cached_property
    def _by_key(self) -> dict[int, Tab]:
        return {tab.key: tab for tab in self.tabs}

    @cached_property
    def _by_name(self) -> dict[str, Tab]:
        # Reversed, so that of two tabs with one name the first is found. Exact names go before folded ones.
        exact = {tab.name: tab for tab in reversed(self.tabs) if tab.name}
        loose = {folded(tab.name): tab for tab in reversed(self.tabs) if tab.name}
        return {**loose, **exact}

    def find_tab(self, name_or_key: str | int) -> Tab | None:
        """The tab of that key or name (exact first, then NFC and casefold), or None."""
        if isinstance(name_or_key, int):
            return self._by_key.get(name_or_key)
        return self._by_name.get(name_or_key) or self._by_name.get(folded(name_or_key))

    def with_tab_data(self, key: int, data: Plain) -> Project:
        """The project with another table for one tab. Raises KeyError where there is none of that key."""
        old = self.tab(key)
        new, at = Tab(key, data, old.origin), self.tabs.index(old)
        if not old.problems and stays_sound(old.data, data):
            new.__dict__["problems"] = ()  # not looked for again on every keystroke
        tabs = (*self.tabs[:at], new, *self.tabs[at + 1 :])
        made = Project(self.root, self.settings, self.fabrics, tabs, self.ladders)
        made.__dict__["_by_key"] = {**self._by_key, key: new}  # a tenth of the time of making it anew
        return made

    def tab(self, name_or_key: str | int) -> Tab:
        """As `find_tab`, but raises KeyError where there is none."""
        found = self.find_tab(name_or_key)
        if found is None:
            raise KeyError(name_or_key)
        return found

    def find_fabric(self, name_or_key: str | int) -> FabricRow | None:
        """The fabric of that key or name, or None."""
        if isinstance(name_or_key, int):
            return next((row for row in self.fabrics if row.key == name_or_key), None)
        exact = next((row for row in self.fabrics if row.name == name_or_key), None)
        wanted = folded(name_or_key)
        return exact or next((row for row in self.fabrics if row.name and folded(row.name) == wanted), None)

    def find_ladder(self, name_or_key: str | int) -> LadderRow | None:
        """The ladder of that key or name, or None."""
        if isinstance(name_or_key, int):
            return next((row for row in self.ladders if row.key == name_or_key), None)
        wanted = folded(name_or_key)
        return next((row for row in self.ladders if row.name and folded(row.name) == wanted), None)


def project_from_plain(plain: Plain) -> Project:
    """Wrap what tomllib gave. A part of the wrong shape stays in `root`, raw, so that nothing is lost.

    New keys are dealt out in the order of the file: fabrics, tabs, ladders.
    """
    root = dict(plain)
    settings = root.pop("project") if isinstance(root.get("project"), Mapping) else NO_SETTINGS
    fabrics = tuple(FabricRow(new_key(), data) for data in _rows(root, "fabric"))
    tabs = tuple(Tab(new_key(), data) for data in _rows(root, "tab"))
    ladders = tuple(LadderRow(new_key(), data) for data in _rows(root, "ladder"))
    return Project(root, settings, fabrics, tabs, ladders)


def _rows(root: dict[str, Any], word: str) -> list[Plain]:
    value = root.get(word)
    if isinstance(value, list) and value and all(isinstance(row, Mapping) for row in value):
        del root[word]
        return value
    return []
