"""What a found was before the last step, beside what it is now."""

from typing import Any

import pytest

Shell = Any


def line(it: Any, label: str) -> str:
    return next((" ".join(row.split()) for row in it.rows() if row.startswith(label)), "")


async def test_old_stands_against_new_until_the_next_step(shell: Shell) -> None:
    async with shell() as it:
        await it.sees("30 in finished")
        assert "(was" not in it.text()
        await it.type("6 1/2")  # one burst, worked out at each key
        await it.wait(lambda: "32 1/2 in finished (was 30 in) → Frame" in line(it, "Width"), "old and new")
        assert "19 1/2 in finished (was 18 in)" in line(it, "Height")
        assert "was" not in line(it, "Patches"), "it is as it was"
        await it.to("across")
        await it.press("backspace", "4")
        await it.wait(lambda: "26 in finished (was 32 1/2 in)" in line(it, "Width"), "the next step")
        assert "was" not in line(it, "Height")
        assert line(it, "Patches") == "Patches 12 (was 15)"
        await it.press("f6")
        await it.sees("[Frame]", "(was")
        await it.press("shift+f6", "ctrl+z")
        await it.wait(lambda: "32 1/2 in finished (was 26 in)" in line(it, "Width"), "undo is a step, too")


async def test_it_may_be_typed_back_to_what_it_was(shell: Shell) -> None:
    async with shell() as it:
        await it.press("end", "backspace", "backspace", "backspace", "backspace", "7")
        await it.wait(lambda: "(was 30 in)" in line(it, "Width"), "another width")
        await it.press("backspace")
        await it.sees("CANNOT")
        await it.press("6")
        await it.sees("30 in finished")
        assert "(was" not in it.text()


@pytest.mark.parametrize("size", [(40, 20), (60, 20), (80, 24), (120, 40)])
async def test_nothing_moves_for_it(shell: Shell, size: tuple[int, int]) -> None:
    async with shell(size=size) as it:
        await it.press("end", "backspace", "backspace", "backspace", "backspace", "8")
        await it.sees("40 in finished")
        founds = [row for row in it.rows() if "40 in finished" in row or "24 in finished" in row]
        assert len(founds) == 2
        assert all(row.rstrip(" ▁▂▃▄▅▆▇█")[-1:] in ")e" for row in founds), (
            founds
        )  # whole, or the arrow behind
        found = [row for row in it.rows() if "Width " in row or "Height " in row or "Patches " in row]
        assert len(found) == 3
