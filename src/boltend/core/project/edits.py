"""Edits of tabs and settings: pure functions from one project to the next, sharing all they do not touch.

Each returns the very same project where the edit changes nothing. `EditRefused` says what stands in the way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import Any, Literal

from boltend.core.project.model import LadderRow, Project, Tab, new_key
from boltend.core.project.plain import Plain, folded, free_name, is_link, same_plain
from boltend.core.project.problems import EditRefused

RESERVED = "To buy"
"""A source that every project has: no tab may bear this name."""


def checked_name(wanted: str, taken: Iterable[str], what: str) -> str:
    """`wanted` without outer blanks, or EditRefused with the name it clashes with and a free one."""
    name = wanted.strip()
    others = list(taken)
    if not name:
        raise EditRefused(f"A {what} needs a name.", "Write one.", free_name(what.capitalize(), others))
    if any(not char.isprintable() for char in name):
        raise EditRefused("A name cannot hold line breaks, tabs or control characters.", "Leave them out.")
    clash = next((other for other in others if folded(other) == folded(name)), None)
    if clash is not None:
        offer = free_name(name, others)
        raise EditRefused(f'There is a {what} called "{clash}" already.', f'"{offer}" is free.', offer)
    return name


def with_value(data: Plain, key: str, value: Any | None) -> Plain:
    """A copy of a table with one key set, or without it where value is None; the same table if no change."""
    if value is None:
        return data if key not in data else {k: v for k, v in data.items() if k != key}
    if key in data and same_plain(data[key], value):
        return data
    return {**data, key: value}


def replace_tab(project: Project, key: int, data: Plain) -> Project:
    """The project with another table for one tab."""
    return project if project.tab(key).data is data else project.with_tab_data(key, data)


def set_given(project: Project, key: int, given: str, raw: Any | None) -> Project:
    """Set one given to a raw value (text, number, truth value, link, list, rows), or clear it with None."""
    tab = project.tab(key)
    if "given" in tab.data and not isinstance(tab.data["given"], Mapping):
        raise EditRefused(f'The file\'s "given" of tab "{tab.name}" is not a table.', "Put that right first.")
    changed = with_value(tab.given, given, raw)
    return project if changed is tab.given else replace_tab(project, key, {**tab.data, "given": changed})


def set_rows(project: Project, key: int, given: str, rows: list[dict[str, Any]] | None) -> Project:
    """Set a whole `rows` given; None or an empty list clears it."""
    return set_given(project, key, given, rows or None)


def set_cell(project: Project, key: int, given: str, row: int, column: str, raw: Any | None) -> Project:
    """Set one cell of a `rows` given (row counts from 0; one past the last adds a row), None clears it."""
    have = project.tab(key).given.get(given, [])
    if not isinstance(have, list) or not 0 <= row <= len(have):
        raise EditRefused(f"{given} has no row {row + 1}.", "Add it after the last one.")
    rows = [*have, {}] if row == len(have) else list(have)
    rows[row] = with_value(rows[row], column, raw)
    return set_given(project, key, given, rows)


def set_tab_flag(
    project: Project, key: int, flag: Literal["aside", "done", "note"], value: bool | str | None
) -> Project:
    """Set `aside`, `done` (true or false) or `note` (text). False, "" and None take the key out."""
    return replace_tab(project, key, with_value(project.tab(key).data, flag, value or None))


def set_tab_calculator(project: Project, key: int, calculator: str) -> Project:
    """Let a tab use another calculator (the givens stay; those it does not know are the flow's to report)."""
    return replace_tab(project, key, with_value(project.tab(key).data, "calculator", calculator))


def set_setting(project: Project, name: str, raw: Any | None) -> Project:
    """Set a key of `[project]`, or take it out with None."""
    if "project" in project.root:
        raise EditRefused('The file\'s "project" is not a table.', "Put that right first.")
    settings = with_value(project.settings, name, raw)
    return project if settings is project.settings else replace(project, settings=settings)


def _names(project: Project, but: int | None = None) -> list[str]:
    return [RESERVED, *(tab.name for tab in project.tabs if tab.key != but and tab.name)]


def root_for(project: Project, word: str) -> Plain:
    """The root without an empty `tab = []`; refused where the file's `tab` is something else altogether."""
    if project.root.get(word, []) != []:
        raise EditRefused(f'The file\'s "{word}" is not a list of tables.', "Put that right first.")
    return with_value(project.root, word, None)


def insert_tab(project: Project, tab: Tab, at: int | None = None) -> Project:
    """Put a tab in at an index (None: last)."""
    tabs = list(project.tabs)
    tabs.insert(len(tabs) if at is None else at, tab)
    return replace(project, root=root_for(project, "tab"), tabs=tuple(tabs))


def add_tab(
    project: Project, name: str, calculator: str, given: Plain | None = None, at: int | None = None
) -> Project:
    """Add a tab. Its key is `result.tab(name).key`."""
    title = checked_name(name, _names(project), "tab")
    data: dict[str, Any] = {"name": title, "calculator": calculator}
    if given:
        data["given"] = dict(given)
    return insert_tab(project, Tab(new_key(), data), at)


def duplicate_tab(project: Project, key: int, name: str | None = None) -> Project:
    """Copy a tab; the copy stands after it, as "X 2" or the name told. Links *to* it stay with the first."""
    tab = project.tab(key)
    taken = _names(project)
    title = checked_name(name, taken, "tab") if name else free_name(tab.name or "Tab", taken)
    copy = Tab(new_key(), {**tab.data, "name": title}, origin=key)
    return insert_tab(project, copy, project.tabs.index(tab) + 1)


def move_tab(project: Project, key: int, index: int) -> Project:
    """Move a tab so that it stands at `index` (kept within the ends)."""
    tab = project.tab(key)
    tabs = [other for other in project.tabs if other.key != key]
    tabs.insert(max(0, index), tab)
    moved = tuple(tabs)
    return project if moved == project.tabs else replace(project, tabs=moved)


def remove_tab(project: Project, key: int) -> Project:
    """Take a tab out. Links to it stay as they are, and wait."""
    project.tab(key)
    return replace(project, tabs=tuple(tab for tab in project.tabs if tab.key != key))


def rename_tab(project: Project, key: int, name: str) -> Project:
    """Rename a tab, and carry the new name into every link and ladder that means this tab."""
    tab = project.tab(key)
    title = checked_name(name, _names(project, but=key), "tab")
    if title == tab.name:
        return project

    def renew(source: str) -> str:
        # Asked of the old project: of two tabs with one name only the first is meant by a link.
        return title if source and project.find_tab(source) is tab else source

    def carried(other: Tab) -> Tab:
        data = other.data if other.key != key else {**other.data, "name": title}
        given = _relinked(other.given, renew)
        if given is not other.given:
            data = {**data, "given": given}
        return other if data is other.data else replace(other, data=data)

    ladders = tuple(_relinked_ladder(row, renew) for row in project.ladders)
    same = all(new is old for new, old in zip(ladders, project.ladders, strict=True))
    return replace(
        project, tabs=tuple(map(carried, project.tabs)), ladders=project.ladders if same else ladders
    )


def _relinked(value: Any, renew: Callable[[str], str]) -> Any:
    """A raw value with the source of every link in it renewed; the same object where none changed."""
    if isinstance(value, Mapping):
        new = {k: _relinked(v, renew) for k, v in value.items()}
        if is_link(value):
            new["from"] = renew(value["from"])
        return value if all(new[k] is value[k] for k in new) else new
    if isinstance(value, list):
        items = [_relinked(item, renew) for item in value]
        return value if all(a is b for a, b in zip(items, value, strict=True)) else items
    return value


def _relinked_ladder(row: LadderRow, renew: Callable[[str], str]) -> LadderRow:
    data = row.data
    if row.tab:
        data = with_value(data, "tab", renew(row.tab))
    if "take" in data:
        data = with_value(data, "take", _relinked(data["take"], renew))
    return row if data is row.data else LadderRow(row.key, data)
