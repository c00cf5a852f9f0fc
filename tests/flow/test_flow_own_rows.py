"""Rows that a project, or the person, adds to a plugin's tables."""

from dataclasses import replace
from typing import Any

import pytest

from boltend.core.contract import Table, read_own_rows
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.edits import add_tab
from boltend.core.project.model import Project

HUGE = {"table": "buttons", "name": "Huge", "size": "12", "source": "the box on my shelf"}


def with_rows(project: Project, *rows: dict[str, object]) -> Project:
    return replace(project, root={**project.root, "row": list(rows)})


def test_a_row_of_the_project_is_chosen_by_its_name(bench: Any) -> None:
    project = add_tab(with_rows(Project(), HUGE), "A", "mood", {"button": "huge"})
    book = Workbook(bench, project)
    assert book.result("A").found["price"] == 12
    assert not book.row_troubles()


def test_a_row_of_the_project_takes_the_place_of_the_plugins(bench: Any) -> None:
    project = add_tab(with_rows(Project(), {**HUGE, "name": "small"}), "A", "mood", {"button": "small"})
    assert Workbook(bench, project).result("A").found["price"] == 12


def test_a_changed_row_runs_through(bench: Any) -> None:
    project = add_tab(with_rows(Project(), HUGE), "A", "mood", {"button": "Huge"})
    book = Workbook(bench, project)
    book.update(with_rows(project, {**HUGE, "size": "13"}))
    assert book.result("A").found["price"] == 13
    book.update(project)
    assert book.result("A").found["price"] == 12


def test_without_the_row_the_tab_cannot_and_offers_what_there_is(bench: Any) -> None:
    project = add_tab(Project(), "A", "mood", {"button": "smal"})
    result = Workbook(bench, project).result("A")
    assert result.state == "cannot"
    assert "small" in result.why


@pytest.mark.parametrize(
    ("row", "part"),
    [
        ({"table": "buttons", "name": "Odd", "size": "many"}, "many"),
        ({"table": "buttons", "name": "Odd", "colour": "red"}, "colour"),
        ({"table": "zips", "name": "Odd"}, "zips"),
        ({"name": "Odd", "size": "3"}, "table"),
        ({"table": "buttons", "name": "Odd", "size": 2.5}, "size"),
    ],
)
def test_a_wrong_row_is_left_out_and_told(bench: Any, row: dict[str, object], part: str) -> None:
    book = Workbook(bench, add_tab(with_rows(Project(), row), "A", "mood", {}))
    assert book.result("A").found["price"] == 3
    assert any(part in trouble for trouble in book.row_troubles())


def test_a_row_without_a_source_names_whose_it_is() -> None:
    rows, problems = read_own_rows([{"table": "buttons", "name": "Huge", "size": 12}], "my own")
    assert rows == {"buttons": {"Huge": {"source": "my own", "size": "12"}}}
    assert not problems


def test_a_plugins_table_may_only_add() -> None:
    table = Table("buttons", {"size": "count"}, {"small": {"size": "3", "source": "x"}})
    more, problems = table.with_rows({"wide": {"size": "7", "source": "y"}})
    assert not problems
    assert more.row("wide")["size"] == 7
    assert more.row("small")["size"] == 3


def test_rows_in_the_config_folder_reach_every_project(monkeypatch: Any, tmp_path: Any) -> None:
    monkeypatch.setenv("BOLTEND_CONFIG", str(tmp_path))
    (tmp_path / "rows.toml").write_text(
        '[[row]]\ntable = "zips"\nname = "Long"\n\n[[row]]\nname = "No table"\n', encoding="utf-8"
    )
    with Host.load() as host:
        told = [fault.why for fault in host.plugins.problems]
    assert any("zips" in why for why in told)
    assert any("row 2" in why for why in told)
