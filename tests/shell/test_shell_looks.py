"""The looks: contrast of what is painted, and everything told without colour.

Contrast by W3C, Web Content Accessibility Guidelines 2.1 (2018): “relative luminance” and “contrast ratio” of
its glossary; 4.5 to 1 by success criterion 1.4.3, 7 to 1 by 1.4.6. Text below a dialog is out of reach, and
exempt there.
"""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from rich.segment import Segment
from textual.geometry import Region

from boltend.shell.themes import NO_COLOUR, THEMES, read_look

Shell = Any
Rgb = tuple[int, int, int]
LEAST = {"light": 4.5, "dark": 4.5, "high contrast": 7.0}

TEXT = """\
boltend = 1
[project]
name = "Looked at"
[[fabric]]
name = "Slate"
price = "x"
[[tab]]
name = "Sheet"
calculator = "patch"
note = "Grey ruler."
[tab.given]
size = "6 in"
across = 5
[[tab]]
name = "Frame"
calculator = "frame"
aside = true
[tab.given]
width = { from = "Sheet", take = "width" }
cut = "6 1/x in"
[[tab.given.rings]]
width = "2 in"
[[tab.given.rings]]
width = { from = "Sheet", take = "height" }
[[tab]]
name = "Waits"
calculator = "frame"
[tab.given]
width = { from = "Frame", take = "width" }
"""

SCREENS: tuple[tuple[str, ...], ...] = (
    (), ("f6",), ("down", "down"), ("f6",), ("shift+tab",), ("f1",), ("escape", "f9"), ("down",),
    ("escape", "f7"), ("escape", "shift+f5"), ("tab",), ("escape", "shift+f1"), ("escape", "ctrl+n"),
    ("escape", "f5"), ("f8",), ("f4",), ("escape", "f6", "f4"), ("escape", "f2"), ("end", "x"),
    ("escape", "9", "x"), ("f3",),
)  # fmt: skip
"""Keys that lead from one screen to the next: fields, lists, dialogs, what is wrong, waits and is linked."""


def luminance(colour: Rgb) -> float:
    """Relative luminance of an sRGB colour, as WCAG 2.1 defines it."""
    parts = [part / 255 for part in colour]
    linear = [part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: Rgb, other: Rgb) -> float:
    """Contrast ratio, as WCAG 2.1 defines it."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_its_known_values() -> None:
    """Black on white is 21 to 1 by definition; #767676 is the lightest grey with 4.5 on white."""
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((0x76,) * 3, (255,) * 3) >= 4.5 > contrast((0x77,) * 3, (255,) * 3)


def cells(it: Any) -> Iterator[tuple[int, int, Segment]]:
    """Every piece of text that can be read and reached: of a dialog, not of what lies below it."""
    screen = it.app.screen
    inside = Region(0, 0, *screen.size)
    if screen.is_modal:
        inside = screen.children[0].region
    for y, strip in enumerate(screen._compositor.render_strips()):
        x = 0
        for segment in strip:
            if segment.text.strip() and inside.contains(x, y):
                yield x, y, segment
            x += segment.cell_length


def colours(segment: Segment) -> tuple[Rgb, Rgb]:
    style = segment.style
    assert style is not None
    assert style.color is not None
    assert style.bgcolor is not None
    assert not style.dim, f"{segment.text!r} is dimmed: how far, the terminal decides"
    fore, back = style.color.triplet, style.bgcolor.triplet
    assert fore is not None, segment
    assert back is not None, segment
    return (back, fore) if style.reverse else (fore, back)


BORDERS = "┌┐└┘─│▁▂▃▄▅▆▇█▎▊"


@pytest.mark.parametrize("look", list(LEAST))
async def test_all_text_has_contrast_enough(shell: Shell, look: str) -> None:
    async with shell(text=TEXT, size=(90, 30)) as it:
        it.app.take_look(look)
        pairs: dict[tuple[Rgb, Rgb], str] = {}
        for keys in SCREENS:
            await it.press(*keys)
            await it.pilot.pause(0.05)
            for _, _, segment in cells(it):
                if segment.text.strip(BORDERS + " "):
                    pairs.setdefault(colours(segment), segment.text.strip())
        low = {
            text: round(contrast(*pair), 2) for pair, text in pairs.items() if contrast(*pair) < LEAST[look]
        }
        assert low == {}
        assert len(pairs) > 12  # that it looked at anything


@pytest.mark.parametrize("look", list(LEAST))
async def test_lines_and_bars_can_be_made_out(shell: Shell, look: str) -> None:
    """3 to 1 for what is no text, by WCAG 2.1, success criterion 1.4.11 (2018): the frames of dialogs."""
    async with shell(text=TEXT, size=(90, 30)) as it:
        it.app.take_look(look)
        await it.press("f9")
        await it.sees("What to do")
        frames = {colours(s) for _, _, s in cells(it) if s.text.strip()[:1] in ("┌", "│", "└")}
        assert frames
        assert [pair for pair in frames if contrast(*pair) < 3] == []


# Without colour -------------------------------------------------------------------------------------


def colourful(it: Any) -> list[Segment]:
    found = []
    for strip in it.app.screen._compositor.render_strips():
        for segment in strip:
            style = segment.style
            if style is not None and any(
                c is not None and not c.is_default for c in (style.color, style.bgcolor)
            ):
                found.append(segment)
    return found


async def test_no_colour_is_none_at_all(shell: Shell, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with shell(text=TEXT, size=(90, 30)) as it:
        assert it.app.look == NO_COLOUR
        for keys in SCREENS:
            await it.press(*keys)
            await it.pilot.pause(0.05)
            assert colourful(it) == [], keys


async def test_an_empty_no_color_says_nothing(shell: Shell, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "")
    async with shell() as it:
        assert it.app.look == "dark"
        assert colourful(it)


def painted(it: Any) -> list[str]:
    """The screen with what is bold, underlined or reversed, and without any colour."""
    rows = []
    for strip in it.app.screen._compositor.render_strips():
        row = ""
        for segment in strip:
            style = segment.style
            marks = "".join(
                sign
                for sign, on in (
                    ("b", style.bold), ("u", style.underline), ("r", style.reverse), ("i", style.italic),
                )
                if on
            ) if style is not None else ""  # fmt: skip
            row += f"{{{marks}}}{segment.text}" if marks else segment.text
        rows.append(row)
    return rows


@pytest.mark.parametrize("look", list(THEMES))
async def test_the_focus_is_seen_in_every_look_also_without_colour(shell: Shell, look: str) -> None:
    """Wherever the focus goes, the screen without its colours differs; and the field itself is marked."""
    async with shell(text=TEXT, size=(90, 30)) as it:
        it.app.take_look(look)
        await it.press("f6")
        await it.sees("[! Frame")
        seen = {}
        for at in range(len(it.view.focus_chain)):
            await it.press("tab")
            await it.pilot.pause(0.02)
            widget = it.app.focused
            shown = "\n".join(painted(it))
            assert shown not in seen, f"{widget} looks like {seen.get(shown)}"
            seen[shown] = widget
            line = painted(it)[widget.region.y] if widget.region.y < 24 else ""
            place = getattr(widget, "place", None)
            if place is not None and line:
                # ">" before the field or its row, or "«»" round a choice.
                assert any(mark in line for mark in ">«"), (at, place, line)
        assert len(seen) == len(it.view.focus_chain) > 8


async def test_a_chosen_line_and_selected_text_are_reversed_without_colour(shell: Shell) -> None:
    async with shell() as it:
        it.app.take_look(NO_COLOUR)
        await it.press("tab", "shift+tab")
        await it.wait(
            lambda: any("{r}6 in" in row or "{ur}6 in" in row for row in painted(it)), "the selection"
        )
        await it.press("f9")
        await it.sees("What to do")
        assert any("{br}> Help" in row for row in painted(it))


# Choosing -------------------------------------------------------------------------------------------


async def test_a_look_is_chosen_in_the_menu_and_kept(shell: Shell, tmp_path: Path) -> None:
    config = tmp_path / "config" / "config.toml"
    config.parent.mkdir()
    config.write_text('# my keys\n[keys]\nnote = "f12" # for my left hand\n', encoding="utf-8")
    async with shell() as it:
        assert it.app.look == "dark"
        looks = []
        for _ in range(4):
            await it.press("f9")
            await it.type("look")
            await it.press("enter")
            await it.sees("Look: ")
            looks.append(it.app.look)
        assert looks == ["high contrast", "no colour", "light", "dark"]
        await it.press("f9")
        await it.type("look")
        await it.press("enter")
        await it.sees("Look: high contrast")
    text = config.read_text(encoding="utf-8")
    assert tomllib.loads(text) == {"look": "high contrast", "keys": {"note": "f12"}}
    assert "# my keys" in text
    assert "# for my left hand" in text
    async with shell() as it:
        assert it.app.look == "high contrast"


async def test_where_it_cannot_be_kept_it_holds_for_now(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "config").write_text("a file where the folder should be", encoding="utf-8")
    async with shell(size=(200, 24)) as it:
        await it.press("escape")
        it.view.action_look()
        await it.sees("Look: high contrast, for now.")
        assert it.app.look == "high contrast"


@pytest.mark.parametrize(
    ("said", "look"),
    [("dark", "dark"), ("High-Contrast", "high contrast"), ("no_color", NO_COLOUR), ("no colour", NO_COLOUR),
     ("No  Color", NO_COLOUR), ("mauve", None), (3, None)],
)  # fmt: skip
def test_a_look_is_read_as_a_person_writes_it(said: object, look: str | None) -> None:
    assert read_look(said) == look


async def test_no_color_goes_before_the_file(
    shell: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "config.toml").write_text('look = "light"\n', encoding="utf-8")
    async with shell() as it:
        assert it.app.look == "light"
    monkeypatch.setenv("NO_COLOR", "1")
    async with shell() as it:
        assert it.app.look == NO_COLOUR


# The other system beside -----------------------------------------------------------------------------


async def test_the_other_system_stands_beside_on_request_and_stays_so(shell: Shell, tmp_path: Path) -> None:
    text = (
        'boltend = 1\n[[tab]]\nname = "Sheet"\ncalculator = "patch"\n[tab.given]\nsize = "6 in"\nacross = 5\n'
    )
    async with shell(text=text) as it:
        await it.sees("[Sheet]", "30 in finished")
        assert "≈" not in it.text()
        await it.press("alt+u")
        await it.sees("finished ≈ 15.2 cm", "≈ 76.2 cm", "Inches and centimetres beside each other, kept")
    assert (
        tomllib.loads((tmp_path / "config" / "config.toml").read_text(encoding="utf-8"))["both_systems"]
        is True
    )
    async with shell(text=text) as it:
        await it.sees("≈ 15.2 cm")
        await it.press("alt+u")
        await it.sees("One system only, kept")
        assert "≈" not in it.text()


async def test_a_setting_that_is_no_yes_or_no_is_told(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "config.toml").write_text('both_systems = "often"\n', encoding="utf-8")
    async with shell(size=(200, 24)) as it:
        await it.sees("both_systems: “often” is neither true nor false.")
