"""Links between tabs in the form: offered, followed, shown, taken off."""

from typing import Any

Shell = Any


async def test_the_link_picker_offers_only_what_fits(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("cut")
        await it.press("f4")
        await it.sees("Where does “A cut size” come from?")
        text = it.text()
        assert "“Sheet” · Width" in text
        assert "“Sheet” · Height" in text
        assert "“Sheet” · Patches" not in text, "a count is no length"
        assert "“Frame”" not in text, "its own found would make a circle"
        assert "cut = finished + 2 seams = 30 1/2 in" in text
        await it.type("hei")
        await it.wait(lambda: "│ “Sheet” · Width" not in it.text())
        await it.press("enter")
        await it.wait(lambda: it.given("Frame").get("cut") == {"from": "Sheet", "take": "height"})
        await it.sees("18 1/2 in cut", "from “Sheet” · Height")


async def test_nothing_that_would_make_a_circle_is_offered(shell: Shell) -> None:
    async with shell() as it:
        await it.to("size")
        await it.press("f4")
        await it.sees("No other tab finds anything that fits")
        await it.press("escape")
        assert it.given("Sheet")["size"] == "6 in"


async def test_a_linked_given_is_read_only_followed_and_unlinked(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("width")
        await it.type("9")
        assert it.given("Frame")["width"] == {"from": "Sheet", "take": "width"}
        await it.press("f3")
        assert it.view.tab.name == "Sheet"
        await it.press("f6")
        await it.to("width")
        await it.press("shift+f4")
        assert it.given("Frame")["width"] == "30 in"
        assert it.state("Frame") == "worked out"
        await it.press("ctrl+z")
        assert it.given("Frame")["width"] == {"from": "Sheet", "take": "width"}


async def test_a_linked_value_too_long_for_its_field_shows_its_beginning(shell: Shell) -> None:
    """`99 11/16 in` is not `499 11/16 in`: where only a part shows, it is the first."""
    async with shell() as it:
        await it.to("size")
        await it.clear()
        await it.type("99 15/16")  # five of them
        await it.press("f6")
        await it.to("width")
        row = next(row for row in it.rows() if row.startswith("  Width"))
        assert "499 11/16 in" in row


async def test_clicking_on_a_source_and_on_a_user_goes_there(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.click_on("from “Sheet” · Width")
        await it.wait(lambda: it.view.tab.name == "Sheet")
        await it.click_on("→ Frame")
        await it.wait(lambda: it.view.tab.name == "Frame")


async def test_a_waiting_tab_shows_what_its_other_links_bring(shell: Shell) -> None:
    text = (
        'boltend = 1\n[[tab]]\nname = "Good"\ncalculator = "patch"\n[tab.given]\nsize = "6 in"\nacross = 2\n'
    )
    text += '[[tab]]\nname = "Bad"\ncalculator = "patch"\n'
    text += '[[tab]]\nname = "F"\ncalculator = "frame"\n[tab.given]\n'
    text += 'width = { from = "Good", take = "width" }\ncut = { from = "Bad", take = "width" }\n'
    text += 'rings = [{ width = { from = "Good", take = "height" } }]\n'
    async with shell(text=text) as it:
        await it.press("shift+f6")
        await it.sees("WAITING", "12 in finished", "no value yet", "←18 in")
        await it.to("width")
        await it.press("shift+f4")
        assert it.given("F")["width"] == "12 in"
