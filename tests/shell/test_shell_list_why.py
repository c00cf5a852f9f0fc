"""A line of To buy or To cut is chosen: why so much, where it leads, what it costs."""

from typing import Any

from sewn_quilt import QUILT

Shell = Any


async def test_a_line_is_chosen_and_says_why_and_leads_to_a_tab(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("f8")
        await it.sees(">Red [/x]", "Enter says why")
        await it.press("down")
        await it.sees("\n>", " Red [/x]")
        await it.press("up", "enter")
        await it.sees("Red [/x]", ": why", ">“Bag [/x]” asks for", "20 × square", "Up to the next 1/8 yd")
        await it.press("escape")
        await it.sees(">Red [/x]", "[To buy F8]", "Enter says why")
        await it.press("enter", "enter")
        await it.wait(lambda: it.view.tab is not None and not it.view.list_in_sight)
        assert it.view.tab.name == "Bag [/x]"
        await it.press("f5")
        await it.sees(">Red [/x]")
        await it.press("enter")
        await it.sees(": why", ">“Bag [/x]” asks for")
        await it.press("f5")
        await it.sees("[To cut F5]", "Cut 2 strips")


async def test_what_is_found_in_to_buy_is_chosen_there(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("f8")
        await it.sees("Buttons")
        await it.press("ctrl+f")
        await it.type("buttons")
        await it.press("enter")
        await it.sees(">Buttons")
        await it.press("enter")
        await it.sees("Buttons 6 pieces: why")


async def test_the_menu_says_why_too(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("f9")
        await it.type("why so much")
        await it.press("enter")
        await it.sees(">Red [/x]", "[To buy F8]")
        await it.press("f9")
        await it.type("why so much")
        await it.press("enter")
        await it.sees("Red [/x]", ": why", ">“Bag [/x]” asks for")


async def test_a_price_is_said_in_to_buy_in_one_step(sewing: Shell) -> None:
    text = 'boltend = 1\n[[tab]]\nname = "Bag"\ncalculator = "sew"\n[tab.given]\nsize = "4 in"\nmany = 30\n'
    async with sewing(text=text) as it:
        await it.press("f8")
        await it.sees(">Bag (fabric not named)")
        await it.press("enter")
        await it.sees(">No price yet: Enter asks what it is a yard")
        await it.press("enter")
        await it.sees("Price of Bag, a yard", "A fabric of that name is made, and chosen in the tab as")
        await it.type("much")
        await it.press("enter")
        await it.sees("Price of Bag, a yard")
        await it.press("ctrl+u")
        await it.type("12.50")
        await it.press("enter")
        # 30 squares of 4 in, 10 a strip: 12 1/2 in with the squaring, so 3/8 yd at $12.50.
        await it.sees(">Bag", "3/8 yd", "$12.50 per yard", "$4.69", "Total")
        assert it.given("Bag")["cloth"] == "Bag"
        await it.press("ctrl+z")
        await it.sees(">Bag (fabric not named)")
        assert it.desk.project.fabrics == ()
        assert "cloth" not in it.given("Bag")
