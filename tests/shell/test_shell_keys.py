"""Keys of one's own: the table [keys] of config.toml, judged in words, and what names a key follows it."""

from pathlib import Path
from typing import Any

import pytest

from boltend.shell.actions import ACTIONS, BY_NAME
from boltend.shell.keys import KeyRefused, judged, read_key
from boltend.shell.palette import HitList

Shell = Any

KEPT = {
    # tmux and screen begin their own keys with these.
    "ctrl+a", "ctrl+b",
    # Browsers keep these for tabs and windows, or for themselves; a page cannot have them.
    "ctrl+w", "ctrl+t", "ctrl+n", "ctrl+shift+t", "ctrl+shift+n", "ctrl+pageup", "ctrl+pagedown", "f5", "f11",
    "f12", "alt+left", "alt+right", "alt+home",
}  # fmt: skip
"""Keys that may never arrive. From memory, no source; on a Mac no alt-key may."""


def may_never_arrive(key: str) -> bool:
    return key in KEPT or "alt" in key.split("+")


@pytest.fixture
def config(tmp_path: Path) -> Path:
    """The config file of the test, in the folder that conftest names."""
    path = tmp_path / "config" / "config.toml"
    path.parent.mkdir()
    return path


# Every action ---------------------------------------------------------------------------------------


async def test_every_action_has_a_key_that_arrives_or_a_place_in_the_menu(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f9")
        await it.sees("What to do")
        in_menu = {hit.to.name for hit in it.app.screen.query_one(HitList).hits if hit.to in ACTIONS}
        await it.press("escape", "alt+a", "f9")  # what is done to ladders is there while they are in sight
        await it.sees("What to do")
        of_ladders = {hit.to.name for hit in it.app.screen.query_one(HitList).hits if hit.to in ACTIONS}
        assert {action.name for action in ACTIONS if action.in_ladders} == of_ladders - in_menu
        in_menu |= of_ladders
    by_key = {action.name for action in ACTIONS if not all(map(may_never_arrive, action.keys))}
    assert [action.name for action in ACTIONS if action.name not in in_menu | by_key] == []
    # The menu itself, leaving and stopping are not left to the menu; for the menu there is a sign, too.
    assert {"menu", "leave", "stop", "help", "save", "undo", "next_tab"} <= by_key
    assert in_menu == {action.name for action in ACTIONS} - {"menu"}


def test_every_action_has_a_name_words_and_keys_that_could_be_bound_by_a_person() -> None:
    assert len(BY_NAME) == len(ACTIONS)
    for action in ACTIONS:
        assert action.name.isidentifier()
        assert action.words[0].isupper()
        assert [read_key(key) for key in action.keys] == list(action.keys), action.name
    keys = [key for action in ACTIONS for key in action.keys]
    assert sorted(keys) == sorted(set(keys)), "two actions have one key"


# Reading --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "key"),
    [
        ("f2", "f2"), ("F2", "f2"), (" Shift+F2 ", "shift+f2"), ("^e", "ctrl+e"), ("ctrl-e", "ctrl+e"),
        ("Ctrl+PgDn", "ctrl+pagedown"), ("alt+↑", "alt+up"), ("shift+ctrl+f7", "ctrl+shift+f7"),
        ("option+e", "alt+e"), ("Esc", "escape"), ("alt+1", "alt+1"), ("ctrl+left", "ctrl+left"),
    ],
)  # fmt: skip
def test_a_key_is_read_as_a_person_writes_it(said: str, key: str) -> None:
    assert read_key(said) == key


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ("", "is no key"), ("f25", "is no key"), ("hyper+x", "is no key"), ("ctrl+", "is no key"),
        ("ctrl+ctrl+e", "is no key"), ("wobble", "is no key"),
        ("r", "needed for typing. Write ctrl+r or alt+r."), ("shift+r", "needed for typing"),
        ("enter", "needed in the fields"), ("tab", "needed in the fields"), ("up", "needed in the fields"),
        ("shift+left", "needed in the fields"), ("ctrl+enter", "needed in the fields"),
        ("ctrl+m", "is Enter in a terminal"), ("ctrl+i", "is Tab in a terminal"), ("^h", "is Backspace in"),
        ("ctrl+c", "copies in a field"), ("ctrl+3", "never arrives"),
    ],
)  # fmt: skip
def test_a_key_that_would_not_do_is_told_why(said: str, why: str) -> None:
    with pytest.raises(KeyRefused) as told:
        read_key(said)
    assert why in str(told.value)


def test_the_table_is_judged_line_by_line() -> None:
    given, troubles = judged({
        "rename_tab": "f12", "note": ["alt+n", "ctrl+e"], "link": "f10, shift+f10", "renam_tab": "f10",
        "find": "x", "duplicate_tab": 7, "map": "",
    })  # fmt: skip
    assert given == {
        "rename_tab": ("f12",), "note": ("alt+n", "ctrl+e"), "link": ("f10", "shift+f10"), "map": (),
    }  # fmt: skip
    assert troubles == [
        "renam_tab: no action has this name. Is rename_tab meant?",
        "find: “x” is needed for typing. Write ctrl+x or alt+x.",
        'duplicate_tab: not a text. Write a key as "f2", or several as ["f2", "ctrl+e"].',
    ]
    assert judged("f2") == ({}, ['keys is no table. Write [keys], and below it rename_tab = "f2".'])


def test_two_actions_on_one_key_are_told() -> None:
    given, troubles = judged({"rename_tab": "f12", "note": "f12"})
    assert given == {"rename_tab": ("f12",)}
    assert troubles == ["note: F12 is rename_tab’s by a line above."]
    # One of ours gives way, and that is told until the person settles it.
    given, troubles = judged({"note": "f4"})
    assert given == {"note": ("f4",), "link": ("ctrl+l",)}
    assert troubles == ["note: F4 was link’s, which keeps ^l. A line link = … settles it."]
    given, troubles = judged({"note": "f4", "link": "ctrl+e"})
    assert (given, troubles) == ({"note": ("f4",), "link": ("ctrl+e",)}, [])
    given, troubles = judged({"note": "f2"})
    assert troubles == [
        "note: F2 was rename_tab’s, which is in the menu only. A line rename_tab = … settles it."
    ]


def test_two_actions_may_change_places() -> None:
    given, troubles = judged({"rename_tab": "f4", "link": "f2"})
    assert (given, troubles) == ({"rename_tab": ("f4",), "link": ("f2",)}, [])


@pytest.mark.parametrize("name", ["menu", "leave", "stop"])
def test_the_way_out_keeps_a_key(name: str) -> None:
    given, troubles = judged({name: []})
    assert (given, troubles) == ({}, [f"{name}: must have a key."])
    given, troubles = judged({"note": list(BY_NAME[name].keys)})
    assert name not in given
    assert "note" not in given
    assert f"Give {name} another key first." in troubles[0]


# In the shell ---------------------------------------------------------------------------------------

OWN = '# mine\n[keys]\nrename_tab = "F12"\nadd_tab = "ctrl+e"\nfind = []\nmenu = "f10"\n'
OWN += 'link = ["f2", "alt+l"]\n'


async def test_keys_of_ones_own_work_and_are_shown_everywhere(shell: Shell, config: Path) -> None:
    config.write_text(OWN, encoding="utf-8")
    async with shell() as it:
        await it.sees("F12 Rename", "^e Add", "F2 Link", "F10 Menu", " Menu F10")
        assert "^f" not in it.rows()[-1]
        await it.press("ctrl+e")  # the end of a line for Textual, were it not the person's key
        await it.sees("What do you want to know?")
        await it.press("escape", "f12")
        await it.sees("Rename the tab")
        await it.press("escape", "f9")
        await it.press("ctrl+f")
        assert len(it.app.screen_stack) == 2, "F9 and ^f do nothing any more"
        await it.press("f10")
        await it.type("rename this")
        await it.sees("Rename this tab", "F12")
        await it.press("f10")
        await it.wait(lambda: len(it.app.screen_stack) == 2, "the menu gone by its own key")
        await it.press("f6")
        await it.to("width")
        await it.sees("F2 takes another")
        await it.press("f1")
        await it.wait(lambda: "F2, Alt+L" in it.app.screen.text, "the help")
        await it.press("escape", "shift+f5")
        await it.sees("[Add ^e]", "[Rename F12]")
        await it.press("f12")
        await it.sees("Rename the fabric")


async def test_the_keys_of_one_run_are_not_those_of_the_next(shell: Shell, config: Path) -> None:
    config.write_text(OWN, encoding="utf-8")
    async with shell() as it:
        await it.sees("F12 Rename")
    config.unlink()
    async with shell() as it:
        await it.sees("F2 Rename", "F4 Link", "F9 Menu", "^f Find")
        await it.press("f2")
        await it.sees("Rename the tab")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('[keys]\nrenam_tab = "f12"\n', "renam_tab: no action has this name. Is rename_tab meant?"),
        ('[keys]\nnote = "f12"\nlink = "f12"\n', "link: F12 is note’s by a line above."),
        ('look = "mauve"\n', "“mauve” is none of light, dark, high contrast, no colour."),
        ('lok = "dark"\n', "lok: nothing has this name here."),
        ("look = \n", "Mend or delete it."),
    ],
)
async def test_what_is_wrong_is_told_at_the_start_and_left_out(
    shell: Shell, config: Path, text: str, told: str
) -> None:
    config.write_text(text, encoding="utf-8")
    async with shell(size=(200, 24)) as it:
        await it.sees(told, "config.toml")
        assert it.view.place is not None  # and one can go on
        await it.press("escape")
        await it.wait(lambda: told not in it.text(), "the notice gone")
        await it.press("f2")
        await it.sees("Rename the tab")


async def test_of_many_troubles_two_are_told_and_the_rest_counted(shell: Shell, config: Path) -> None:
    config.write_text('[keys]\na = "f2"\nb = "f2"\nc = "f2"\nd = "f2"\n', encoding="utf-8")
    async with shell(size=(200, 24)) as it:
        await it.sees("a: no action has this name.", "b: no action", "And 2 more.")


async def test_help_names_the_actions_for_keys_of_ones_own(shell: Shell) -> None:
    async with shell(size=(90, 120)) as it:
        await it.press("f1")
        await it.sees("Keys of your own", 'rename_tab = "f2"')
        text = " ".join(it.text().split())
        assert [a.name for a in ACTIONS if a.name not in text] == []
