"""The start screen: questions, recent projects, examples, an empty project; by keys and by mouse."""

from pathlib import Path
from typing import Any

import pytest

from boltend.core.project.saving import ProjectFile
from boltend.shell.app import host_bench
from boltend.shell.looks import Place
from boltend.shell.start_recent import recents, remember
from boltend_shared.examples import path as example_path

Shell = Any
Golden = Any
SIZES = {"60x20": (60, 20), "80x24": (80, 24), "120x40": (120, 40)}
TITLE = "What do you want to know, or go on with?"


def names(it: Any) -> list[str]:
    return [tab.name for tab in it.desk.project.tabs]


@pytest.fixture
def some_recents(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, project_file: Path) -> Path:
    """Three projects that were open, the newest last; one is gone since."""
    monkeypatch.setenv("HOME", str(tmp_path))
    remember(tmp_path / "gone.toml", "Moth wing")
    (tmp_path / "quilts").mkdir()
    nameless = tmp_path / "quilts" / "nameless.toml"
    nameless.write_text('boltend = 1\n[[tab]]\nname = "S"\ncalculator = "patch"\n', encoding="utf-8")
    remember(nameless, "")
    remember(project_file, "Lantern")
    return tmp_path


@pytest.mark.parametrize("size", SIZES)
async def test_what_it_looks_like(shell: Shell, golden: Golden, some_recents: Path, size: str) -> None:
    async with shell(None, size=SIZES[size]) as it:
        await it.sees(TITLE, "Lantern", "missing")
        golden(it, f"start-{size}")
        await it.type("how sheet")
        await it.sees("one tab")
        golden(it, f"start-searched-{size}")


async def test_it_is_there_without_a_file_and_esc_leaves_an_empty_project(shell: Shell) -> None:
    async with shell(None) as it:
        await it.sees(TITLE, "type to search", "A framed sheet, from the start?")
        await it.press("escape")
        await it.sees("No tab yet")
        await it.press("alt+home")
        await it.sees(TITLE)


async def test_it_is_not_there_with_a_file(shell: Shell) -> None:
    async with shell() as it:
        await it.sees("[Sheet]")
        assert len(it.app.screen_stack) == 2


async def test_a_question_makes_its_tabs_and_the_cursor_is_in_the_first_given(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("framed sheet")
        await it.sees("2 tabs")
        await it.press("enter")
        await it.wait(lambda: names(it) == ["Sheet", "Frame"])
        await it.wait(lambda: it.view.place == Place("size"), "the first given")
        await it.type("6")
        assert it.given("Sheet") == {"size": "6"}
        # A project that has tabs gets the new ones beside them; the first given that is not linked is meant.
        await it.press("alt+home")
        await it.sees("Asks whether in this project or a new one")
        await it.type("framed sheet")
        await it.press("enter")
        await it.sees("Add its tabs to this project", "Begin a new quilt with it")
        await it.press("enter")
        await it.wait(lambda: names(it) == ["Sheet", "Frame", "Sheet 2", "Frame 2"])
        assert it.given("Frame 2") == {"width": {"from": "Sheet 2", "take": "width"}}


async def test_a_question_may_begin_a_new_quilt(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await it.press("alt+home")
        await it.type("framed sheet")
        await it.press("enter")
        await it.sees("Begin a new quilt with it")
        await it.press("down", "enter")
        await it.wait(lambda: it.desk.untitled and names(it) == ["Sheet", "Frame"])
        assert it.given("Sheet") == {}, "a project of its own"
        await it.wait(lambda: it.view.place == Place("size"))
        await it.type("6")
        assert it.given("Sheet") == {"size": "6"}
    assert "across = 5" in project_file.read_text(encoding="utf-8")


async def test_one_tab_gets_its_name_by_itself(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("large patches")
        await it.sees("one tab")
        await it.press("enter")
        await it.wait(lambda: names(it) == ["Patch"])
        await it.wait(lambda: it.view.place == Place("size"))


async def test_a_mouse_will_do(shell: Shell) -> None:
    async with shell(None) as it:
        await it.sees(TITLE)
        await it.click_on("A framed sheet")
        await it.wait(lambda: names(it) == ["Sheet", "Frame"])


async def test_arrows_go_past_the_heads_of_groups(shell: Shell) -> None:
    async with shell(None) as it:
        await it.sees("Makes “Sheet”, “Frame”.")
        await it.press(*["down"] * 4)
        await it.sees("By its path; Tab completes.")
        await it.press("up")
        await it.sees("Fabrics of this project")
        await it.press("pagedown", "pagedown", "pagedown")
        await it.sees("slow: finds twice.")
        await it.press("down")
        await it.sees("slow: finds twice.")


async def test_nothing_that_fits_is_said(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("zebra")
        await it.sees("Nothing fits these words.", "^u clears")
        await it.press("enter")
        await it.sees("Nothing fits these words.")
        await it.press("ctrl+u")
        await it.sees("A framed sheet, from the start?")


async def test_help_says_what_the_list_is(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("sheet")
        await it.press("f1")
        await it.sees("Type what you want to know", "a copy opens")
        await it.press("escape")
        await it.sees("one tab")
        assert it.app.focused.value == "sheet"


async def test_odd_letters_do_no_harm(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("[/x] ½ [b]")
        await it.sees("Nothing fits these words.")


# Examples -------------------------------------------------------------------------------------------


async def test_an_example_opens_as_a_copy(shell: Shell, tmp_path: Path) -> None:
    shipped = example_path("harbour-steps")
    before = shipped.read_bytes()
    async with shell(None) as it:
        await it.type("harbour steps")
        await it.sees("Opens a copy")
        await it.press("enter")
        await it.sees("Harbour Steps · no file yet", "A copy of the example. ^s asks where to keep it.")
        assert it.desk.untitled
        assert not it.desk.changed
        await it.press("ctrl+s")
        await it.sees("Save as which file?", "harbour-steps.toml")
        await it.clear()
        await it.type(str(tmp_path / "mine.toml"))
        await it.press("enter")
        await it.sees("mine.toml · saved")
        assert (tmp_path / "mine.toml").read_bytes() == before, "comments and all"
    assert shipped.read_bytes() == before
    assert [r.path for r in recents()] == [tmp_path / "mine.toml"]


# Recent projects ------------------------------------------------------------------------------------


async def test_a_project_that_was_open_is_the_first_to_go_on_with(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await it.sees("[Sheet]")
    assert [(r.path, r.name) for r in recents()] == [(project_file, "Lantern")]
    async with shell(None) as it:
        await it.sees(TITLE, "Lantern")
        await it.press("enter")
        await it.sees("Lantern · lantern.toml · saved", "[Sheet]")
        assert it.desk.file.path == project_file
        await it.to("across")
        await it.type("8")
        await it.press("ctrl+s")
        await it.wait(lambda: not it.desk.changed)
    assert "across = 8" in project_file.read_text(encoding="utf-8")


async def test_a_missing_project_is_said_so_and_can_be_taken_off(shell: Shell, some_recents: Path) -> None:
    async with shell(None) as it:
        await it.type("moth")
        await it.sees("There is no file any more: ~/gone.toml")
        await it.press("enter")
        await it.sees("There is no file any more: ~/gone.toml", "Take it off the list")
        await it.press("down", "enter")
        await it.sees(TITLE)
        assert "Moth wing" not in it.text()
        assert len(recents()) == 2


async def test_a_recent_project_that_cannot_be_read_leaves_this_one(shell: Shell, some_recents: Path) -> None:
    (some_recents / "quilts" / "nameless.toml").write_text("not toml", encoding="utf-8")
    async with shell(None) as it:
        await it.type("nameless")
        await it.press("enter")
        await it.sees("NOT OPENED", "nameless.toml")
        assert it.desk.untitled


async def test_unsaved_work_is_asked_about_before_another_project(
    shell: Shell, some_recents: Path, project_file: Path
) -> None:
    async with shell() as it:
        await it.to("across")
        await it.type("8")
        await it.press("alt+home")
        await it.type("nameless")
        await it.press("enter")
        await it.sees("has changes that are not saved", "Save and go on", "Stay")
        await it.press("down", "down", "enter")
        await it.wait(lambda: len(it.app.screen_stack) == 2)
        assert it.desk.file.path == project_file
        await it.press("alt+home")
        await it.type("nameless")
        await it.press("enter")
        await it.sees("Go on without saving")
        await it.press("down", "enter")
        await it.sees("nameless.toml · saved", "[! S]")
        assert "across = 5" in project_file.read_text(encoding="utf-8")
        await it.press("alt+home")
        await it.type("lantern")
        await it.press("enter")
        await it.sees("There is unsaved work of this project.")
        await it.press("enter")
        await it.wait(lambda: it.given("Sheet").get("across") == 8)
        await it.to("across")
        await it.type("9")  # else nothing is asked: it is kept as it was found
        await it.press("alt+home")
        await it.type("nameless")
        await it.press("enter")
        await it.sees("Save and go on")
        await it.press("enter")
        await it.sees("nameless.toml · saved")
    assert "across = 9" in project_file.read_text(encoding="utf-8")
    assert [bench.closed for bench in it.benches] == [True] * len(it.benches), "no worker is left behind"


async def test_an_empty_project(shell: Shell) -> None:
    async with shell() as it:
        await it.press("alt+home")
        await it.type("empty")
        await it.press("enter")
        await it.sees("A project without a name · no file yet", "No tab yet")
        assert it.desk.untitled
        await it.press("f7")
        await it.sees("What do you want to know?")


async def test_an_empty_project_in_an_empty_one_stays(shell: Shell) -> None:
    async with shell(None) as it:
        desk = it.desk
        await it.type("empty")
        await it.press("enter")
        await it.sees("No tab yet")
        assert it.desk is desk


async def test_saved_under_another_name_it_is_remembered_there(shell: Shell, tmp_path: Path) -> None:
    async with shell() as it:
        it.view.action_save_as()
        await it.sees("Save as which file?")
        await it.clear()
        await it.type(str(tmp_path / "copy.toml"))
        await it.press("enter")
        await it.sees("copy.toml · saved")
    assert [r.path.name for r in recents()] == ["copy.toml", "lantern.toml"]
    assert ProjectFile.open(tmp_path / "copy.toml").saved.name == "Lantern"


# Questions of the whole project ---------------------------------------------------------------------


async def test_what_it_costs_leads_to_to_buy(sewing: Shell) -> None:
    async with sewing() as it:
        await it.press("alt+home")
        await it.type("cost")
        await it.press("enter")
        await it.sees("[To buy")
    async with sewing() as it:
        await it.press("f7")
        await it.type("what does it cost")
        await it.press("enter")
        await it.sees("[To buy")


PRINTED = """boltend = 1
[[fabric]]
name = "Slate"
[[tab]]
name = "Squares"
calculator = "sew"
[tab.given]
size = "10 in"
many = 8
cloth = "Slate"
"""


async def test_a_printed_yardage_is_asked_for_and_compared(sewing: Shell) -> None:
    async with sewing(text=PRINTED) as it:
        await it.press("alt+home")
        await it.type("is it enough")
        await it.press("enter")
        await it.sees("Fabrics of", "Printed")
        await it.wait(lambda: getattr(it.app.focused, "place", None) == Place("printed"), "the cell")
        # Eight 10 in squares, four across 40 in and more: two strips of 10 in and the squaring are 20 1/2 in;
        # 1/2 yd is 18 in.
        await it.type("1/2")
        await it.press("escape")
        await it.sees("[To buy", "the 1/2 yd printed is short")


@pytest.mark.parametrize("what", ["start", "menu", "add_tab", "open"])
async def test_the_chosen_line_is_told_without_colour(shell: Shell, what: str) -> None:
    """Reversed, or with a sign: bold alone is what the heads of groups are too."""
    async with shell() as it:
        it.view.run_named(what)
        await it.wait(lambda: len(it.app.screen_stack) == 3)
        await it.press("down", "down")
        strips = it.app.screen._compositor.render_strips()
        chosen = [
            strip
            for strip in strips
            if any(s.style and s.style.reverse and len(s.text.strip()) > 3 for s in strip._segments)
        ]
        assert len(chosen) in (1, 2), "one line, of which some have smaller words below"


# The question asked before ----------------------------------------------------------------------------


async def test_what_was_asked_last_stands_there_again_to_be_mended(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("framed sheet")
        await it.press("enter")
        await it.wait(lambda: names(it) == ["Sheet", "Frame"])
        await it.press("alt+home")
        await it.sees("framed sheet", "2 tabs")
        await it.press("end")
        await it.type(" of 6 in")
        await it.press("enter")
        await it.sees("A project without a name is in sight.", "Put it in place of what was asked before")
        await it.press("enter")
        await it.wait(lambda: len(it.app.screen_stack) == 2)
        await it.wait(lambda: it.view.place == Place("size") and names(it) == ["Sheet", "Frame"])
        await it.type("6")
        await it.press("alt+home")
        await it.sees("framed sheet of 6 in")
        await it.type("large patches")  # typed over it
        await it.press("enter")
        await it.sees("Add its tabs to this project")
        assert "in place of" not in it.text(), "something was done since"
        await it.press("enter")
        await it.wait(lambda: len(names(it)) == 3)


async def test_what_is_said_of_a_question_ends_at_no_comma(
    shell: Shell,
) -> None:
    async with shell(None, size=(60, 20), bench=host_bench) as it:
        await it.type("queen bed 60 x 80, drop 13, 9 in blocks, cover")
        await it.sees("…")
        said = str(it.app.screen.query_one("#about").render()).rstrip()
        assert said.endswith(" …")
        assert not said.endswith(", …")
