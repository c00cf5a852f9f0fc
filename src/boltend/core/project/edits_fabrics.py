"""Edits of fabrics and ladders: pure functions, as in `edits.py`."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from boltend.core.project.edits import checked_name, root_for, set_given, with_value
from boltend.core.project.model import FabricRow, LadderRow, Project, new_key
from boltend.core.project.plain import Plain, folded
from boltend.core.project.problems import EditRefused

FabricUse = tuple[int, str, str | None]
"""Where a fabric's name stands: (tab key, given, column of rows or None). Only the flow knows these."""


def _names(project: Project, but: int | None = None) -> list[str]:
    return [row.name for row in project.fabrics if row.key != but and row.name]


def _fabric(project: Project, key: int) -> FabricRow:
    row = project.find_fabric(key)
    if row is None:
        raise KeyError(key)
    return row


def _swap(project: Project, new: FabricRow) -> Project:
    rows = tuple(new if row.key == new.key else row for row in project.fabrics)
    return replace(project, fabrics=rows)


def add_fabric(project: Project, name: str, data: Plain | None = None) -> Project:
    """Add a fabric at the end; `data` holds its other keys."""
    title = checked_name(name, _names(project), "fabric")
    row = FabricRow(new_key(), {"name": title, **{k: v for k, v in (data or {}).items() if k != "name"}})
    return replace(project, root=root_for(project, "fabric"), fabrics=(*project.fabrics, row))


def set_fabric(project: Project, key: int, name: str, raw: Any | None) -> Project:
    """Set one key of a fabric (not its name: that is `rename_fabric`), or take it out with None."""
    if name == "name":
        raise EditRefused("A fabric's name is changed by renaming it.", "Rename it.")
    row = _fabric(project, key)
    data = with_value(row.data, name, raw)
    return project if data is row.data else _swap(project, FabricRow(key, data))


def remove_fabric(project: Project, key: int) -> Project:
    """Take a fabric out. Givens that name it stay, and are the flow's to report."""
    _fabric(project, key)
    return replace(project, fabrics=tuple(row for row in project.fabrics if row.key != key))


def rename_fabric(project: Project, key: int, name: str, uses: Iterable[FabricUse] = ()) -> Project:
    """Rename a fabric and carry it into the givens told in `uses`, where they hold its name."""
    row = _fabric(project, key)
    title = checked_name(name, _names(project, but=key), "fabric")
    if title == row.name:
        return project
    done = _swap(project, FabricRow(key, {**row.data, "name": title}))
    for tab_key, given, column in uses:
        raw = done.tab(tab_key).given.get(given)
        done = set_given(done, tab_key, given, _renamed(project, row, raw, title, column))
    return done


def _renamed(project: Project, row: FabricRow, raw: Any, title: str, column: str | None) -> Any:
    """A raw given with this fabric's name renewed: in plain text, in a list, or in one column of rows."""
    if isinstance(raw, str):
        meant = bool(row.name) and folded(raw) == folded(row.name) and project.find_fabric(raw) is row
        return title if meant else raw
    if isinstance(raw, list):
        if column is None:
            return [
                _renamed(project, row, item, title, None) if isinstance(item, str) else item for item in raw
            ]
        return [
            {**cells, column: _renamed(project, row, cells[column], title, None)}
            if isinstance(cells, dict) and column in cells
            else cells
            for cells in raw
        ]
    return raw


def add_ladder(project: Project, data: Plain) -> Project:
    """Add a ladder at the end (`name`, `tab`, `given`, `values`, `take`)."""
    return replace(
        project,
        root=root_for(project, "ladder"),
        ladders=(*project.ladders, LadderRow(new_key(), dict(data))),
    )


def set_ladder(project: Project, key: int, name: str, raw: Any | None) -> Project:
    """Set one key of a ladder, or take it out with None."""
    row = project.find_ladder(key)
    if row is None:
        raise KeyError(key)
    data = with_value(row.data, name, raw)
    if data is row.data:
        return project
    return replace(
        project, ladders=tuple(LadderRow(key, data) if r.key == key else r for r in project.ladders)
    )


def change_ladder(project: Project, key: int, data: Plain) -> Project:
    """Give a ladder these keys; what else its table holds stays."""
    for name, raw in data.items():
        project = set_ladder(project, key, name, raw)
    return project


def remove_ladder(project: Project, key: int) -> Project:
    """Take a ladder out."""
    if project.find_ladder(key) is None:
        raise KeyError(key)
    return replace(project, ladders=tuple(row for row in project.ladders if row.key != key))
