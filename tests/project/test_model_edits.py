"""The model and its edits: pure, sharing what they do not touch, names unique, links carried."""

from __future__ import annotations

import pytest

from boltend.core.project import edits, edits_fabrics
from boltend.core.project.history import History
from boltend.core.project.model import NO_SETTINGS, Project, project_from_plain
from boltend.core.project.plain import free_name, same_plain
from boltend.core.project.problems import EditRefused

LINK = {"from": "Centre", "take": "width"}


def quilt() -> Project:
    return project_from_plain(
        {
            "boltend": 1,
            "odd": {"kept": True},
            "fabric": [{"name": "Fern"}, {"name": "Clay"}],
            "tab": [
                {"name": "Centre", "calculator": "straight_set", "given": {"across": 4}},
                {
                    "name": "Frame",
                    "calculator": "borders",
                    "given": {"top_width": LINK, "borders": [{"width": LINK}]},
                },
                {"name": "Rim", "calculator": "binding"},
            ],
            "ladder": [{"name": "L", "tab": "Centre", "given": "across", "values": [3, 4], "take": [LINK]}],
        }
    )


def test_plain_comes_back_the_same_and_keys_are_unique() -> None:
    project = quilt()
    assert same_plain(project.to_plain(), quilt().to_plain())
    rows = [*project.fabrics, *project.tabs, *project.ladders]
    assert len({row.key for row in rows}) == len(rows)
    assert project.settings is NO_SETTINGS
    assert "project" not in project.to_plain()
    assert same_plain(project_from_plain({"boltend": 1, "tab": 3, "project": 4}).to_plain()["tab"], 3)


def test_an_edit_touches_only_its_tab() -> None:
    project = quilt()
    key = project.tab("Centre").key
    after = edits.set_given(project, key, "across", 5)
    assert [new is old for new, old in zip(after.tabs, project.tabs, strict=True)] == [False, True, True]
    assert after.fabrics is project.fabrics
    assert project.tab("Centre").given["across"] == 4
    assert edits.set_given(project, key, "across", 4) is project
    # Python calls these equal; a file must not.
    assert edits.set_given(project, key, "across", True) is not project
    assert edits.set_given(project, key, "across", 4.0) is not project
    assert edits.set_given(project, key, "absent", None) is project


def test_renaming_reaches_links_cells_and_ladders_only_of_that_tab() -> None:
    project = quilt()
    after = edits.rename_tab(project, project.tab("centre").key, " Middle ")
    frame = after.tab("Frame")
    assert frame.given["top_width"] == {"from": "Middle", "take": "width"}
    assert frame.given["borders"] == [{"width": {"from": "Middle", "take": "width"}}]
    assert after.ladders[0].tab == "Middle"
    assert after.ladders[0].take == [{"from": "Middle", "take": "width"}]
    assert after.tab("Rim") is project.tab("Rim")
    assert project.tab("Frame").given["top_width"] is LINK
    again = edits.rename_tab(after, after.tab("Rim").key, "RIM")
    assert again.tabs[2].name == "RIM"


def test_of_two_tabs_with_one_name_links_mean_the_first() -> None:
    twins = project_from_plain(
        {
            "boltend": 1,
            "tab": [{"name": "A"}, {"name": "a"}, {"name": "C", "given": {"x": {"from": "A", "take": "w"}}}],
        }
    )
    second = edits.rename_tab(twins, twins.tabs[1].key, "B")
    assert second.tab("C").given["x"]["from"] == "A"
    first = edits.rename_tab(twins, twins.tabs[0].key, "B")
    assert first.tab("C").given["x"]["from"] == "B"


@pytest.mark.parametrize(
    ("name", "clash"),
    [("centre", "Centre"), ("CENTRE ", "Centre"), ("to buy", "To buy")],
)
def test_names_that_clash_are_refused_with_a_free_one(name: str, clash: str) -> None:
    project = quilt()
    with pytest.raises(EditRefused, match=clash) as caught:
        edits.add_tab(project, name, "binding")
    assert caught.value.offer is not None
    assert edits.add_tab(project, caught.value.offer, "binding").tabs[-1].name == caught.value.offer


def test_composed_and_decomposed_letters_are_one_name() -> None:
    project = edits.add_tab(quilt(), "Caf\u00e9", "binding")
    with pytest.raises(EditRefused):
        edits.add_tab(project, "CAFE\u0301", "binding")


@pytest.mark.parametrize("name", ["", "  ", "two\nlines", "bell\x07", "\u202ereversed", "lone \ud800"])
def test_names_that_cannot_be_shown_are_refused(name: str) -> None:
    with pytest.raises(EditRefused):
        edits.add_tab(quilt(), name, "binding")


def test_copies_count_on() -> None:
    project = quilt()
    once = edits.duplicate_tab(project, project.tab("Rim").key)
    twice = edits.duplicate_tab(once, once.tab("Rim 2").key)
    assert [tab.name for tab in twice.tabs] == ["Centre", "Frame", "Rim", "Rim 2", "Rim 3"]
    assert free_name("Strip 9", ["strip 9"]) == "Strip 2"


def test_moving_and_removing() -> None:
    project = quilt()
    rim = project.tab("Rim").key
    assert [t.name for t in edits.move_tab(project, rim, 0).tabs] == ["Rim", "Centre", "Frame"]
    assert edits.move_tab(project, rim, 99) is project
    gone = edits.remove_tab(project, project.tab("Centre").key)
    assert gone.tab("Frame").given["top_width"] is LINK  # it waits
    with pytest.raises(KeyError):
        edits.remove_tab(gone, project.tab("Centre").key)


def test_flags_and_cells() -> None:
    project = quilt()
    key = project.tab("Frame").key
    on = edits.set_tab_flag(edits.set_tab_flag(project, key, "aside", True), key, "note", "hm")
    assert on.tab(key).aside
    assert on.tab(key).note == "hm"
    off = edits.set_tab_flag(edits.set_tab_flag(on, key, "aside", False), key, "note", "")
    assert same_plain(off.to_plain(), project.to_plain())
    cells = edits.set_cell(project, key, "borders", 1, "width", "2 in")
    assert cells.tab(key).given["borders"] == [{"width": LINK}, {"width": "2 in"}]
    with pytest.raises(EditRefused, match="row 6"):
        edits.set_cell(project, key, "borders", 5, "width", "2 in")
    assert "borders" not in edits.set_rows(project, key, "borders", []).tab(key).given


def test_renaming_a_fabric_reaches_the_places_told() -> None:
    project = quilt()
    rim, frame = project.tab("Rim").key, project.tab("Frame").key
    project = edits.set_given(project, rim, "fabric", "fern")
    project = edits.set_given(
        project, frame, "borders", [{"fabric": "Fern"}, {"fabric": "Clay"}, {"width": "1 in"}]
    )
    project = edits.set_given(project, rim, "note_of_mine", "Fern")
    fern = project.find_fabric("Fern")
    assert fern is not None
    after = edits_fabrics.rename_fabric(
        project, fern.key, "Moss", [(rim, "fabric", None), (frame, "borders", "fabric")]
    )
    assert after.tab(rim).given == {"fabric": "Moss", "note_of_mine": "Fern"}
    assert after.tab(frame).given["borders"] == [{"fabric": "Moss"}, {"fabric": "Clay"}, {"width": "1 in"}]
    with pytest.raises(EditRefused, match="Clay"):
        edits_fabrics.rename_fabric(project, fern.key, "clay", [])


def test_history() -> None:
    project = quilt()
    key = project.tab("Centre").key
    history = History(project, limit=5)
    assert history.undo() is None
    for typed in ("1", "12", "12 in"):
        history.do(
            edits.set_given(history.now, key, "block_width", typed), "Width", merge_key=(key, "block_width")
        )
    history.do(edits.set_given(history.now, key, "across", 5), "Across", merge_key=(key, "across"))
    assert history.undo_label == "Across"
    assert history.undo() == "Across"
    assert history.undo() == "Width"
    assert history.now is project
    assert history.redo() == "Width"
    assert history.now.tab(key).given["block_width"] == "12 in"
    # Typing after an undo is a step of its own, and ends what could be redone.
    history.do(
        edits.set_given(history.now, key, "block_width", "13 in"), "Width", merge_key=(key, "block_width")
    )
    assert history.redo_label is None
    history.undo()
    assert history.now.tab(key).given["block_width"] == "12 in"
    for number in range(20):
        history.do(edits.set_given(history.now, key, "across", number + 10), "Across")
    undone = 0
    while history.undo():
        undone += 1
    assert undone == 5


def test_a_closed_burst_is_a_step_of_its_own() -> None:
    project = quilt()
    key = project.tab("Centre").key
    history = History(project)
    history.do(edits.set_given(history.now, key, "across", 6), "Across", merge_key="a")
    history.close_burst()
    history.do(edits.set_given(history.now, key, "across", 7), "Across", merge_key="a")
    history.undo()
    assert history.now.tab(key).given["across"] == 6


def test_ten_thousand_names_alike_are_told_in_linear_time() -> None:
    """Each of ten thousand twins gets an offer; once each looked through all names for it (67 s)."""
    import time

    from boltend.core.project.reading import read_text

    ways = ("Äußere", "A\u0308ußere", "äussere", "ÄUSSERE 2", "a\u0308USSERE")
    text = "boltend = 1\n" + "".join(
        f'[[tab]]\nname = "{ways[n % 5]}"\ncalculator = "x"\n' for n in range(10_000)
    )
    before = time.process_time()
    problems = read_text(text, "x.toml").problems
    assert len(problems) == 9_998
    assert "äussere 3" in problems[1].way_out
    assert time.process_time() - before < 20
