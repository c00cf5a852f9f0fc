"""Painting asks few widgets for their lines: what it paints must be what all of them together show."""

from typing import Any

import pytest

from boltend.shell.sparing import SparingCompositor

Shell = Any

WALK = (
    "9", "backspace", "tab", "tab", "1", "2", "shift+tab", "alt+r", "down", "down", "escape", "f6", "down",
    "enter", "4", "pagedown", "f5", "down", "escape", "f8", "escape", "ctrl+z", "ctrl+y", "alt+m",
    "down", "escape",
)  # fmt: skip


@pytest.fixture
def partly(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How many widgets were asked at each painting of a part; each part is held against the whole."""
    asked: list[int] = []
    paint, seen_on = SparingCompositor.render_partial_update, SparingCompositor._seen_on

    def count(self: SparingCompositor, lines: set[int]) -> Any:
        seen = seen_on(self, lines)
        asked.append(len(seen))
        return seen

    def check(self: SparingCompositor) -> Any:
        update = paint(self)
        if update is not None:
            whole = self.render_strips()
            for y, left, right in update.spans:
                for end, (x, strip) in zip(update.chop_ends[y], update.chops[y].items(), strict=False):
                    if x < right and end > left:
                        assert strip is not None, f"nothing is painted at {x}, {y}"
                        assert strip.text == whole[y].crop(x, end).text
        return update

    monkeypatch.setattr(SparingCompositor, "_seen_on", count)
    monkeypatch.setattr(SparingCompositor, "render_partial_update", check)
    return asked


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (60, 20)])
async def test_every_part_is_what_the_whole_shows(
    shell: Shell, partly: list[int], size: tuple[int, int]
) -> None:
    async with shell(size=size) as it:
        for key in WALK:
            await it.press(key)
        in_sight = len(it.app.screen._compositor.visible_widgets)
    assert len(partly) > len(WALK) / 2
    assert min(partly) < in_sight / 3
