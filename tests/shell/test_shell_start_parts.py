"""What the start screen and the dialogs of paths stand on: searching, remembering, completing. No screen."""

import json
import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from boltend.core.contract import Start
from boltend.core.host import Host
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project
from boltend.shell.start_offers import (
    NEED_A_TAB,
    Do,
    Line,
    example_bytes,
    example_lines,
    examples,
    fabrics_of,
    found_lines,
    list_lines,
    start_lines,
    tab_lines,
)
from boltend.shell.start_paths import completed, offered, wrong_to_open, wrong_to_save
from boltend.shell.start_recent import MOST, Recent, forget, recent_file, recents, remember
from boltend.shell.start_search import matching, words_of

# Searching ------------------------------------------------------------------------------------------


def found(items: list[str], wanted: str) -> list[str]:
    return matching(items, wanted, lambda item: item.partition("|")[0], lambda item: item.partition("|")[2])


def test_all_words_must_be_there_and_the_title_counts_most() -> None:
    items = ["Binding|backing", "Backing|how much", "Thread|much"]
    assert found(items, "backing") == ["Backing|how much", "Binding|backing"]
    assert found(items, "much backing") == ["Backing|how much", "Binding|backing"]
    assert found(items, "thread backing") == ["Thread|much", "Backing|how much", "Binding|backing"], (
        "the rarer word"
    )
    assert found(items, "") == items
    assert found(items, "zebra") == []
    assert found([], "backing") == found([], "a") == []


def test_small_words_are_left_aside_only_where_nothing_has_them_all() -> None:
    items = ["Is it|", "Price of cloth|"]
    assert found(items, "is it") == ["Is it|"]
    assert found(items, "what is the price of my cloth?") == ["Price of cloth|"]


def test_where_nothing_has_all_words_that_come_which_have_most() -> None:
    items = ["mitred border|", "border|", "binding|"]
    assert found(items, "mitred border zebra") == ["mitred border|"]


def test_a_plural_finds_the_singular() -> None:
    assert found(["One border|", "A bias strip|"], "borders") == ["One border|"]
    assert words_of("“Is it enough?”") == ["is", "it", "enough"]


@pytest.fixture(scope="module")
def host() -> Iterator[Host]:
    with Host.load() as host:
        yield host


@pytest.fixture(scope="module")
def lines(host: Host) -> list[Line]:
    return [*start_lines(host), *list_lines(), *example_lines(examples()), *tab_lines(host)]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("printed", "Is the yardage printed in a pattern enough?"),
        ("is it enough", "Is the yardage printed in a pattern enough?"),
        ("5 yd printed, is it enough?", "Is the yardage printed in a pattern enough?"),
        ("price", "What does it cost, and what is to buy?"),
        ("cost", "What does it cost, and what is to buy?"),
        ("what does it cost", "What does it cost, and what is to buy?"),
        ("how much backing", "How much backing, and which batting?"),
        ("wadding", "How much backing, and which batting?"),
        ("queen bed", "How many of my blocks cover this bed, and what for borders, binding and backing?"),
        ("thirty blocks", "So many blocks of one size: how large, and what for two borders and binding?"),
        ("30 blocks", "So many blocks of one size: how large, and what for two borders and binding?"),
        ("borders to a size", "Which borders bring my top to the size I want?"),
        ("mitred", "What do my borders make, and what do I cut?"),
        ("hst", "What do I cut for half-square triangles, and how large a top do they make?"),
        ("tidewater", "Tidewater"),
    ],
)
def test_a_persons_words_find_what_answers_them(lines: list[Line], typed: str, words: str) -> None:
    assert words in [line.words for line in found_lines(lines, typed)][:3]


@pytest.mark.parametrize(
    "typed", ["thirty blocks", "30 blocks", "twenty-four blocks", "thirty blocks of 9 in"]
)
def test_who_begins_with_a_number_has_so_many(lines: list[Line], typed: str) -> None:
    assert found_lines(lines, typed)[0].words.startswith(("So many blocks", "How many blocks"))


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("how big can I make it with what I have", ("I have these yards", "This is all I have: how large")),
        ("this is all I have, how big can I make it", "This is all I have: how large"),
        ("what do I need for a queen bed", "How many of my blocks cover this bed"),
        ("what does it cost", "What does it cost"),
        ("30 blocks of 9 in, how large, and what to buy for two borders", "So many blocks of one size"),
        ("a queen bed, drop 13 in, from 9 in blocks", "How many of my blocks cover this bed"),
        ("my top measures 60 1/4 by 72: borders to at least 70 by 84", "Which borders bring my top to"),
        (
            "how much backing at 42 in and at 108 in, which batting",
            "How much backing, and which batting?",
        ),
        ("a pattern prints 5 yd of backing: is it enough?", "Is the yardage that is printed for my backing"),
        ("10 in square pack, how many blocks", "How many blocks do my precuts make"),
        ("thirty-two 10 in squares", "How many blocks do my precuts make"),
        (
            "40 squares of a 10 in square pack, blocks of four 5 in, how big",
            "How many blocks do my precuts make",
        ),
        ("backing from 42 in wide cloth with 4 in over on each side", "How much backing"),
        ("which borders bring my top to 54 in wide", "Which borders bring my top to"),
        ("binding for 60 x 80", "How much binding, and how is it cut?"),
        ("how wide must the border be", "Which borders bring my top to"),
        ("how much backing for 87 by 93", "How much backing, and which batting?"),
    ],
)
def test_what_people_ask_finds_its_question_first(
    host: Host, typed: str, first: str | tuple[str, ...]
) -> None:
    asked = [*start_lines(host), *list_lines(empty=True)]
    lines = [*asked, *example_lines(examples()), *tab_lines(host, but={line.words for line in asked})]
    assert found_lines(lines, typed)[0].words.startswith(first)


def test_an_empty_project_is_asked_once_whether_the_print_is_enough() -> None:
    asked = [line.words for line in list_lines(empty=True)]
    assert "Is the yardage printed in a pattern enough?" not in asked
    assert len(asked) == len(list_lines()) - len(NEED_A_TAB)


# Remembering ----------------------------------------------------------------------------------------


def test_the_newest_project_is_first_and_each_is_there_once(tmp_path: Path) -> None:
    for n in range(MOST + 3):
        remember(tmp_path / f"{n}.toml", f"Quilt {n}")
    remember(tmp_path / "5.toml", "Quilt five")
    assert [r.name for r in recents()][:3] == ["Quilt five", f"Quilt {MOST + 2}", f"Quilt {MOST + 1}"]
    assert len(recents()) == MOST
    assert len({r.path for r in recents()}) == MOST
    forget(tmp_path / "5.toml")
    assert "Quilt five" not in [r.name for r in recents()]


def test_a_missing_file_is_known(tmp_path: Path) -> None:
    (tmp_path / "there.toml").write_text("", encoding="utf-8")
    assert not Recent(tmp_path / "there.toml").missing
    assert Recent(tmp_path / "gone.toml").missing
    assert Recent(tmp_path / "there.toml" / "below.toml").missing


@pytest.mark.parametrize("text", ["", "{", "[1, {}, null]", '{"path": "x"}', '[{"path": 3}]', "[" * 100_000])
def test_a_list_that_cannot_be_read_counts_as_empty(text: str, tmp_path: Path) -> None:
    recent_file().parent.mkdir(parents=True)
    recent_file().write_text(text, encoding="utf-8")
    assert recents() == []
    remember(tmp_path / "a.toml", "A")
    assert [r.path for r in recents()] == [tmp_path / "a.toml"]


def test_names_of_any_bytes_are_remembered(tmp_path: Path) -> None:
    odd = tmp_path / "q\udcff ½.toml"
    remember(odd, "½ [b]")
    assert recents() == [Recent(odd, "½ [b]")]
    assert json.loads(recent_file().read_text(encoding="ascii"))


def test_nothing_is_raised_where_it_cannot_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    monkeypatch.setenv("BOLTEND_STATE", str(tmp_path / "file" / "state"))
    remember(tmp_path / "a.toml", "A")
    assert recents() == []


# Paths ----------------------------------------------------------------------------------------------


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    here = tmp_path / "here"
    (here / "quilts").mkdir(parents=True)
    for name in ("lantern.toml", "Lap.toml", "notes.txt", ".hidden.toml", ".lantern.toml.before"):
        (here / name).write_text("", encoding="utf-8")
    (here / "quilts" / "one.toml").write_text("", encoding="utf-8")
    monkeypatch.chdir(here)
    monkeypatch.setenv("HOME", str(here / "quilts"))
    return here


def names(text: str) -> list[str]:
    return [candidate.name for candidate in offered(text).candidates]


def test_project_files_first_then_folders(folder: Path) -> None:
    assert names("") == ["lantern.toml", "Lap.toml", "quilts/"]
    assert names("n") == ["notes.txt"], "another file where no project fits"
    assert names(".") == [".hidden.toml"]
    assert names("quilts/") == ["one.toml"]
    assert names(f"{folder}/La") == ["lantern.toml", "Lap.toml"], "small and large letters are one"
    assert names("~/") == ["one.toml"]
    assert names("~") == ["~/"]


def test_a_folder_that_is_not_there_is_said(folder: Path) -> None:
    assert offered("nowhere/").why == "There is no folder nowhere."
    assert offered("notes.txt/").why == "notes.txt is a file, not a folder."
    assert offered("a\0b").why


@pytest.mark.parametrize(
    ("typed", "grown"),
    [
        ("l", "la"),
        ("lan", "lantern.toml"),
        ("LAN", "lantern.toml"),
        ("q", "quilts/"),
        ("x", "x"),
        ("~/o", "~/one.toml"),
    ],
)
def test_completed_as_far_as_all_agree(folder: Path, typed: str, grown: str) -> None:
    assert completed(typed, offered(typed).candidates) == grown


@pytest.mark.parametrize(
    ("typed", "to_save", "to_open"),
    [
        ("", "Write a file name", "Write a file name"),
        ("lantern.toml", "", ""),
        ("new.toml", "", "There is no file new.toml in"),
        ("quilts", "quilts is a folder", "quilts is a folder"),
        ("no/way/new.toml", "There is no folder no in", "There is no folder no in"),
        ("notes.txt/new.toml", "notes.txt is a file, not a folder", "notes.txt is a file, not a folder"),
        ("~/new.toml", "", "There is no file new.toml in"),
        ("a\0b", "Write a file name", "Write a file name"),
        ("x" * 300, "cannot be reached", "cannot be reached"),
    ],
)
def test_what_is_wrong_with_a_path_is_said_in_words(
    folder: Path, typed: str, to_save: str, to_open: str
) -> None:
    for said, wanted in ((wrong_to_save(typed), to_save), (wrong_to_open(typed), to_open)):
        assert said.startswith(wanted) or (wanted and wanted in said)
        assert bool(said) == bool(wanted)


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="root may look into every folder")
def test_a_folder_that_may_not_be_looked_into_is_said(folder: Path) -> None:
    (folder / "quilts").chmod(0)
    try:
        assert "cannot be listed" in offered("quilts/").why
    finally:
        (folder / "quilts").chmod(0o700)


# Examples and fabrics -------------------------------------------------------------------------------


def test_the_examples_are_there_each_with_what_it_is() -> None:
    told = {example.title: example for example in examples()}
    assert {"Harbour Steps", "Tidewater", "Lantern Row", "Short Measure"} <= told.keys()
    assert example_bytes("tidewater").startswith(b"# Tidewater:")


def test_a_question_that_names_fabrics_brings_those_that_are_not_there() -> None:
    rows: list[dict[str, object]] = [{"fabric": "slate"}, {"fabric": "Fog"}, {"width": "2 in"}]
    start = Start("?", (("B", "borders", {"borders": rows}), ("K", "binding", {"fabric": "Fog"})))
    with Host.load() as host:
        assert fabrics_of(start.tabs, host.specs, Project()) == ["slate", "Fog"]
        assert fabrics_of(start.tabs, host.specs, add_fabric(Project(), "Slate")) == ["Fog"]


def test_the_questions_of_lists_are_actions() -> None:
    from boltend.shell.actions import BY_NAME

    assert {line.pick.action for line in list_lines() if isinstance(line.pick, Do)} <= BY_NAME.keys()
