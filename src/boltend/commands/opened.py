"""Opening a project for a command."""

from dataclasses import dataclass
from pathlib import Path

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.model import Tab
from boltend.core.project.problems import Problem
from boltend.core.project.saving import ProjectFile


@dataclass(frozen=True)
class Opened:
    """A project, worked out, with the problems of its file."""

    book: Workbook
    problems: tuple[Problem, ...]

    @property
    def all_well(self) -> bool:
        """Whether every tab is worked out and the file has no error."""
        errors = any(problem.severity == "error" for problem in self.problems)
        return not errors and all(r.state == "worked out" for r in self.book.results.values())


def open_project(path: str, host: Host) -> Opened:
    """Open and work out a project file. Raises ProjectUnreadable."""
    file = ProjectFile.open(Path(path))
    return Opened(Workbook(host, file.saved), file.problems())


def place_of(problems: tuple[Problem, ...], tab: Tab) -> str:
    """`file:line` of a tab's first problem, where it is known."""
    for problem in problems:
        if problem.tab_key == tab.key and problem.line is not None:
            return f"{problem.file}:{problem.line}"
    return ""
