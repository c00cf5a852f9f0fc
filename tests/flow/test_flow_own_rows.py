"""Rows that a project adds to a plugin's tables."""

from dataclasses import replace

from boltend.core.flow import Workbook
from boltend.core.project.edits import add_tab
from boltend.core.project.model import Project


def with_rows(project: Project, *rows: dict[str, object]) -> Project:
    return replace(project, root={**project.root, "row": list(rows)})
