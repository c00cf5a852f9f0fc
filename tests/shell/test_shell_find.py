"""Find: what is written in the project, in all tabs; again for the next place."""

from pathlib import Path
from typing import Any

from boltend.shell.hits import line_at
from boltend.shell.looks import Place
from boltend.shell.palette import HitList

Shell = Any


def words(it: Any) -> list[str]:
    return [hit.words for hit in it.app.screen.query_one(HitList).hits]


def marked(it: Any) -> str:
    """The line of what is found that has the mark."""
    at = it.view.results.marked
    return "" if at is None else "".join(text for text, _ in it.view.results.lines[at].parts)


NOTED = """\
boltend = 1
[project]
name = "Noted"
[[tab]]
name = "Sheet"
calculator = "patch"
note = "For the guild.\\nGrey ruler, always."
[tab.given]
size = "6 in"
across = 5
[[tab]]
name = "Other"
calculator = "patch"
[tab.given]
size = "7 1/x in"
across = 5
"""


async def test_it_finds_names_givens_founds_working_cautions_and_notes(shell: Shell) -> None:
    async with shell(text=NOTED) as it:
        for typed, found in (
            ("other", "Other"),
            ("size patch", "Sheet: Size of a patch = 6 in finished"),
            ("7 1/x", "Other: Size of a patch = 7 1/x in"),
            ("height", "Sheet: Height = 18 in finished"),
            ("5 6 in = 30", "Sheet: 5 × 6 in = 30 in"),
            ("fingers", "Sheet: Keep your fingers behind the ruler."),
            ("guild", "Sheet: For the guild."),
            ("always", "Sheet: Grey ruler, always."),
        ):
            await it.press("ctrl+f")
            await it.sees("Find in the project")
            await it.clear()
            await it.type(typed)
            assert found in words(it), typed
            assert "Rename this tab" not in words(it)
            await it.press("escape")


async def test_enter_goes_there_and_the_same_key_to_the_next(shell: Shell) -> None:
    async with shell(text=NOTED) as it:
        await it.press("ctrl+f")
        await it.type("ruler")
        assert words(it) == ["Sheet: Grey ruler, always.", "Sheet: Keep your fingers behind the ruler."]
        await it.press("enter")
        await it.wait(lambda: "Grey ruler" in marked(it), "the note")
        await it.press("ctrl+f")
        await it.sees("ruler", "> Sheet: Keep your fingers")
        await it.press("enter")
        await it.wait(lambda: "fingers" in marked(it), "the caution")
        await it.press("shift+f12")
        await it.wait(lambda: "Grey ruler" in marked(it), "round the end")
        await it.sees("1 of 2 with “ruler”")
        await it.press("ctrl+f", "ctrl+f")
        await it.sees("> Sheet: Grey ruler")  # the key again, in the dialog: one more


async def test_a_given_of_another_tab_gets_the_focus(shell: Shell) -> None:
    async with shell(text=NOTED) as it:
        await it.press("ctrl+f")
        await it.type("7 1/x")
        await it.press("enter")
        await it.sees("[! Other]")
        await it.wait(lambda: it.view.place == Place("size"), "the field")


async def test_find_next_asks_first_and_says_when_nothing_is_left(shell: Shell) -> None:
    async with shell(text=NOTED) as it:
        await it.press("shift+f12")
        await it.sees("Find in the project")
        await it.type("18 in")
        await it.press("enter")
        await it.wait(lambda: "18 in" in marked(it), "the found")
        await it.to("down")
        await it.type("4")
        await it.press("shift+f12")
        await it.sees("Nothing has “18 in” any more.")


async def test_a_list_in_sight_is_searched_first(sewing: Shell) -> None:
    text = 'boltend = 1\n[[fabric]]\nname = "Slate"\n[[tab]]\nname = "Bag"\ncalculator = "sew"\n'
    text += '[tab.given]\nsize = "4 in"\nmany = 30\ncloth = "Slate"\n'
    async with sewing(text=text) as it:
        await it.press("f5")
        await it.sees("Pieces")
        await it.press("ctrl+f")
        await it.type("slate")
        assert words(it)[0].startswith("Slate")
        await it.press("enter")
        await it.sees(">Slate")
        assert it.view.list_in_sight == "to_cut"
        assert it.app.focused is it.view.pane.lines


async def test_what_a_person_typed_is_searched_as_text(shell: Shell, project_file: Path) -> None:
    nasty = "[/x] ½ [b]"
    async with shell(text=NOTED.replace("guild", nasty)) as it:
        await it.press("ctrl+f")
        await it.type("½ [b]")
        await it.sees(f"Sheet: For the {nasty}.")
        await it.press("enter")
        await it.wait(lambda: nasty in marked(it), "the note")


def test_a_text_is_found_where_it_begins_even_wrapped_or_clipped() -> None:
    lines = [
        "Note: For the guild",
        "",
        "Working",
        "- 5 × 6 in and so on and",
        "  on = 30 in",
        "A label that…  7",
    ]
    assert line_at(lines, "For the guild") == 0
    assert line_at(lines, "5 × 6 in and so on and on = 30 in") == 3
    assert line_at(lines, "A label that is long") == 5
    assert line_at(lines, "Nothing alike") is None


async def test_a_found_that_was_looked_for_is_the_chosen_one(shell: Shell) -> None:
    """What is asked or copied next is that one, not the first in sight."""
    async with shell(text=NOTED) as it:
        for key, typed, found in (("f9", "patches", "patches"), ("ctrl+f", "height", "height")):
            await it.press(key)
            await it.clear()
            await it.type(typed)
            await it.press("enter")
            await it.wait(lambda: it.app.focused is it.view.results, "the focus")
            await it.wait(lambda found=found: it.view.results.picked_found == found, f"{found} chosen")
        await it.press("alt+w")
        await it.sees("Which given makes Height of “Sheet” so?")


async def test_a_line_of_working_that_was_looked_for_chooses_no_found(shell: Shell) -> None:
    async with shell(text=NOTED) as it:
        await it.press("ctrl+f")
        await it.type("5 6 in = 30")
        await it.press("enter")
        await it.wait(lambda: it.app.focused is it.view.results, "the focus")
        assert "= 30 in" in marked(it)
        assert it.view.results.picked_found == ""
