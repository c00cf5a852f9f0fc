"""Every table of the file of standards is run by a test or said to be no check; so is every kind of case."""

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from boltend_shared import cases, standards

HERE = Path(__file__).parent

THREAD = ("thread_rows.py", "test_thread_cases.py")
SUPPLY = ("thread_rows.py", "test_thread_supply_cases.py")
BEDS = ("test_bed_cases.py",)
BATTING = ("test_batting_standards.py",)
FABRIC = ("test_fabric_standards.py",)
COLOUR = ("test_colour_cases.py",)

RUN_BY: Mapping[str, tuple[str, ...]] = {
    "lockstitch": THREAD, "thread_check": THREAD, "numbering": THREAD, "numbering_check": THREAD,
    "wt_ambiguity": THREAD, "put_up": SUPPLY, "bobbin": SUPPLY, "bobbin_capacity": SUPPLY,
    "quilt_thread_yards": SUPPLY, "quilt_thread_density_derived": SUPPLY, "line_length": THREAD,
    "stitch_density": THREAD, "stitch_speed": SUPPLY, "quilting_spacing": THREAD, "batting_spacing": SUPPLY,
    "batting_loft_in": SUPPLY,
    "bed": BEDS, "mattress_depth": BEDS, "drop": BEDS, "bed_check": BEDS, "bed_quilt_batting": BEDS,
    "batting_package": BATTING, "batting_roll": BATTING, "batting_shrinkage_percent": BATTING,
    "batting_check": BATTING, "batting_extra": BATTING,
    "fabric": FABRIC, "fabric_cuts": FABRIC, "safety": FABRIC, "units": FABRIC,
    "ciede2000": COLOUR, "ciede2000_pair": COLOUR, "wcag": COLOUR, "wcag_check": COLOUR,
}  # fmt: skip
"""The files that run a table: each row of it, or its reason in the file's own table."""

NO_CHECK: Mapping[str, str] = {
    "sources": "Where each value was read: titles, not values. Every test names its source from here.",
}
"""Tables that hold nothing to check."""


def words(file: Path) -> set[str]:
    """Every text that stands in the code of a file, but for its docstrings."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    bare = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    return {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in bare
    }


def test_every_table_is_named() -> None:
    named = {*RUN_BY, *NO_CHECK}
    assert sorted(set(standards()) - named) == [], "tables that nobody runs, and nobody says why"
    assert sorted(named - set(standards())) == [], "tables that the file does not have"
    assert not set(RUN_BY) & set(NO_CHECK)


@pytest.mark.parametrize("table", RUN_BY)
def test_a_table_is_read_by_the_tests_that_run_it(table: str) -> None:
    files = [HERE / name for name in RUN_BY[table]]
    assert [file.name for file in files if not file.is_file()] == []
    assert any(table in words(file) for file in files), f"{table} is named in none of {RUN_BY[table]}"
    assert any(file.name.startswith("test_") for file in files)


@pytest.mark.parametrize("key", sorted(standards()["sources"]))
def test_a_source_has_a_title_a_publisher_a_year_and_a_grade(key: str) -> None:
    entry = standards()["sources"][key]
    assert all(str(entry[name]) for name in ("title", "publisher", "year", "read"))
    assert entry["grade"] in "ABCDPM"


def used_sources(value: object) -> Iterator[str]:
    """The sources that a table names, wherever it does."""
    if isinstance(value, Mapping):
        for name, inner in value.items():
            if name.rpartition("_")[2] in ("source", "sources"):
                yield from [inner] if isinstance(inner, str) else inner
            else:
                yield from used_sources(inner)
    elif isinstance(value, list):
        for each in value:
            yield from used_sources(each)


@pytest.mark.parametrize("table", sorted(set(standards()) - {"sources"}))
def test_every_source_that_a_table_names_is_there(table: str) -> None:
    assert [key for key in used_sources(standards()[table]) if key not in standards()["sources"]] == []


@pytest.mark.parametrize("kind", sorted({case.kind for case in cases()}))
def test_every_kind_of_published_case_is_run(kind: str) -> None:
    """Its name stands in the code of a test that reads the cases, and tells why where it runs one not."""
    runs = [file.name for file in sorted(HERE.glob("test_*_cases.py")) if kind in words(file)]
    assert runs, f"no test in tests/references runs cases of kind {kind!r}"
