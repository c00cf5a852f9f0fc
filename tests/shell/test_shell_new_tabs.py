"""Where a new tab stands, what it is linked to by itself, and where its undo leads."""

from typing import Any

from boltend.shell.app import host_bench
from boltend.shell.looks import Place

Shell = Any

BAG = '[[tab]]\nname = "Bag"\ncalculator = "sew"\n[tab.given]\nsize = "4 in"\nmany = 3\n'


def sheet(name: str) -> str:
    return f'[[tab]]\nname = "{name}"\ncalculator = "patch"\n[tab.given]\nsize = "6 in"\nacross = 5\n'


def names(it: Any) -> list[str]:
    return [tab.name for tab in it.desk.project.tabs]


async def add(it: Any, asked: str, name: str) -> None:
    await it.press("f7")
    await it.type(asked)
    await it.press("enter")
    await it.wait(lambda: name in names(it), f"the tab {name}")
    await it.sees(f"Added “{name}”")


async def test_undo_leads_back_to_where_one_was_and_redo_to_the_tab(sewing: Shell) -> None:
    async with sewing(text=f"boltend = 1\n{BAG}{sheet('Sheet')}{sheet('Other')}") as it:
        await it.press("f6")
        await it.sees("[Sheet]")
        await add(it, "rings make", "Frame")
        await it.press("ctrl+z")
        await it.sees("[Sheet]", "Undone: adding Frame")
        assert names(it) == ["Bag", "Sheet", "Other"]
        await it.press("ctrl+y")
        await it.sees("[! Frame]", "Redone: adding Frame")
        await it.press("ctrl+z")
        await it.sees("[Sheet]")
        await add(it, "rings make", "Frame")
        assert names(it) == ["Bag", "Sheet", "Frame", "Other"], "beside the tab in sight, as at first"


async def test_redo_of_a_removal_leads_back_too(sewing: Shell) -> None:
    async with sewing(text=f"boltend = 1\n{BAG}{sheet('Sheet')}{sheet('Other')}") as it:
        await it.press("f6", "f6")
        it.view.action_remove_tab()
        await it.sees("[Sheet]", "Removed “Other”.")
        await it.press("ctrl+z")
        await it.sees("[Other]")
        await it.press("ctrl+y")
        await it.sees("[Sheet]", "Redone: removing Other")


async def test_the_only_source_behind_the_new_tab_feeds_it(sewing: Shell) -> None:
    async with sewing(text=f"boltend = 1\n{BAG}{sheet('Sheet')}") as it:
        await add(it, "rings make", "Frame")
        assert names(it) == ["Bag", "Frame", "Sheet"]
        assert it.given("Frame") == {"width": {"from": "Sheet", "take": "width"}}
        await it.sees("Linked: Width to “Sheet”")


async def test_of_two_sources_behind_it_none_is_taken(sewing: Shell) -> None:
    async with sewing(text=f"boltend = 1\n{BAG}{sheet('Sheet')}{sheet('Other')}") as it:
        await add(it, "rings make", "Frame")
        assert it.given("Frame") == {}


async def test_a_setting_takes_what_unequal_blocks_finish_at(shell: Shell) -> None:
    """Both the cut size to trim to and the finished one fit; the one that needs no conversion is meant."""
    text = 'boltend = 1\n[[tab]]\nname = "Blocks"\ncalculator = "measured_blocks"\n[tab.given]\n'
    async with shell(text=f'{text}sizes = ["12 1/2 in", "12 3/8 in"]\n', bench=host_bench) as it:
        await add(it, "straight rows", "Straight set")
        assert it.given("Straight set") == {"block_width": {"from": "Blocks", "take": "finished_size"}}
        await it.sees("11 7/8 in")  # 12 3/8 in less two seams of 1/4 in
        # What is wanting comes before the height, which may stay empty.
        await it.wait(lambda: it.view.place == Place("across"), "the first that is wanting")
        await add(it, "what do my borders make", "Borders")
        assert it.given("Borders") == {
            "top_width": {"from": "Straight set", "take": "width"},
            "top_height": {"from": "Straight set", "take": "height"},
        }
