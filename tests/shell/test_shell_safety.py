"""Text is text; nothing leaks; no colour is needed; no heavy import comes before the first paint."""

import gc
import os
import subprocess
import sys
import weakref
from pathlib import Path
from typing import Any

import pytest
from textual.widgets import Input

from boltend.shell.fields import ChoiceField, LiveInput
from boltend.shell.looks import Place

Shell = Any
NASTY = '[/x] "½ [b]'

MARKED = """boltend = 1
[project]
name = '[/x] "½ [b]'
[[fabric]]
name = '[/x] "½ [b]'
[[tab]]
name = '[/x] "½ [b]'
calculator = "patch"
note = '[@click=app.quit]x[/]'
[tab.given]
size = '[/x] "½ [b]'
across = '[/x] "½ [b]'
'[/x]' = 3
[[tab]]
name = '[@click=app.quit]Q[/]'
calculator = "frame"
[tab.given]
width = { from = '[/x] "½ [b]', take = '[/x]' }
cloth = '[/x] "½ [b]'
way = '[/x] "½ [b]'
[[tab.given.rings]]
name = '[/x] "½ [b]'
corner = '[/x] "½ [b]'
[[tab]]
name = "E\\u001b[31m\\u202e"
calculator = "\\u001b[31m[/x]"
"""


async def _type_everywhere(it: Any) -> int:
    """The nasty text into every text field of the form in sight; how many there were."""
    typed = 0
    for widget in list(it.view._form.query("LiveInput, ChoiceField")):
        if not widget.display or not widget.region:
            widget.scroll_visible(animate=False)
        widget.focus()
        await it.wait(lambda w=widget: it.app.focused is w, "focus")
        if isinstance(widget, LiveInput) and not widget.linked:
            await it.clear()
            await it.type(NASTY)
            assert widget.value == NASTY
            typed += 1
        elif isinstance(widget, ChoiceField):
            await it.type("[/x]b")
            if len(it.app.screen_stack) > 2:  # no choice begins with x, so all of them are shown
                await it.press("escape")
    return typed


async def test_markup_typed_into_every_field_stays_text(shell: Shell) -> None:
    async with shell() as it:
        assert await _type_everywhere(it) == 3
        assert it.given("Sheet")["size"] == NASTY
        await it.sees(NASTY)
        await it.press("f6")
        assert await _type_everywhere(it) == 8
        assert it.given("Frame")["rings"][1]["name"] == NASTY
        for asked in ("f2", "f7"):
            await it.press(asked)
            await it.wait(lambda: it.app.screen.query(Input), "a dialog")
            await it.type(NASTY)
            assert NASTY in it.app.screen.query_one(Input).value
            await it.press("enter")
        await it.press("escape")
        await it.sees(f"[! {NASTY}]")
        await it.press("ctrl+p")
        await it.type(NASTY)
        await it.press("escape")
        it.view.action_save()
        await it.wait(lambda: not it.desk.changed)


async def test_markup_from_a_file_stays_text(shell: Shell) -> None:
    async with shell(text=MARKED) as it:
        await it.press("escape")
        await it.sees(f"[! {NASTY}]", "[@click=app.quit]x[/]", f" {NASTY} · lantern.toml")
        for key in ("f2", "escape", "f4", "escape", "f9", "escape", "f1", "escape", "f3"):
            await it.press(key)
        await it.press("f6")
        await it.sees("[! [@click=app.quit]Q[/]]")
        await it.to("cloth")
        await it.press("space")
        await it.sees(NASTY)
        await it.press("escape")
        it.view.action_problems()
        await it.press("escape", "f6")
        await it.sees("E<U+001B>[31m<U+202E>")
        assert not any(ord(c) < 32 or c == "\u202e" for c in it.text().replace("\n", ""))


async def test_what_cannot_be_seen_does_not_get_in(shell: Shell) -> None:
    async with shell() as it:
        await it.to("size")
        await it.clear()
        it.app.focused.insert_text_at_cursor("6\u202e\u001b in")
        assert it.given("Sheet")["size"] == "6<U+202E><U+001B> in"


async def test_a_very_long_paste_is_cut_and_quick(shell: Shell) -> None:
    from textual.events import Paste

    async with shell() as it:
        await it.to("size")
        it.app.focused.post_message(Paste("9" * 1_000_000))
        await it.sees("CANNOT")
        assert len(it.given("Sheet")["size"]) <= 600


async def test_forms_are_used_again_and_nothing_leaks(shell: Shell) -> None:
    """Forty tabs of two kinds, each visited: two forms, and no Input more than at the start."""
    tabs = "".join(
        f'[[tab]]\nname = "N{n}"\ncalculator = "{("patch", "frame")[n % 2]}"\n[tab.given]\n'
        + (
            'size = "3 in"\nacross = 2\n'
            if n % 2 == 0
            else 'width = "9 in"\n[[tab.given.rings]]\nwidth = "1 in"\n'
        )
        for n in range(40)
    )
    async with shell(text="boltend = 1\n" + tabs) as it:
        await it.press("f6", "f6")
        before = len(it.view.query(Input))
        for _ in range(44):
            it.view.action_next_tab()
            await it.pilot.pause()
        assert len(it.view.body.forms) == 2
        assert len(it.view.query(Input)) == before


async def test_dialogs_are_freed(shell: Shell) -> None:
    async with shell() as it:
        left: list[weakref.ref[Input]] = []
        for _ in range(10):
            await it.press("f2")
            await it.wait(lambda: it.app.screen.query(Input), "the dialog")
            left.append(weakref.ref(it.app.screen.query_one(Input)))
            await it.press("escape")
            await it.wait(lambda: len(it.app.screen_stack) == 2)

        def alive() -> int:
            gc.collect()
            return sum(ref() is not None for ref in left)

        await it.wait(
            lambda: alive() <= 2, "dialogs that are let go: messages on their way hold the last ones"
        )


async def test_removed_live_inputs_are_freed(shell: Shell) -> None:
    async with shell() as it:
        left = []
        for _ in range(10):
            field = LiveInput(Place("size"), it.view)
            await it.view.mount(field)
            left.append(weakref.ref(field))
            await field.remove()
            del field

        def kept() -> int:
            gc.collect()
            return sum(ref() is not None for ref in left)

        await it.wait(lambda: kept() <= 2, "fields that are let go: Textual holds the last one or two")


async def test_one_key_is_one_repaint_of_the_results(shell: Shell, monkeypatch: pytest.MonkeyPatch) -> None:
    from boltend.shell.results import Results

    async with shell() as it:
        await it.to("across")
        shown = []
        original = Results.show

        def counted(self: Results, *args: Any, **kwargs: Any) -> None:
            shown.append(1)
            original(self, *args, **kwargs)

        monkeypatch.setattr(Results, "show", counted)
        await it.press("1")
        assert len(shown) == 1


def test_nothing_heavy_is_imported_for_the_first_paint() -> None:
    """The screen and a project in it, without pint, Markdown, plugins, or what plans the cutting."""
    code = (
        "import sys, boltend.shell.app\n"
        "from boltend.shell.desk import Desk\n"
        "heavy = ('pint', 'tomlkit', 'textual.widgets._markdown', 'boltend_quilt_setting',\n"
        "         'boltend.core.cutting', 'boltend.core.pool', 'boltend.core.drawing')\n"
        "print([name for name in heavy if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_the_core_is_all_that_works_anything_out() -> None:
    """No arithmetic on values in the shell: it imports neither Fraction nor the rounding functions."""
    import boltend.shell

    for path in Path(boltend.shell.__file__).parent.glob("*.py"):
        text = path.read_text(encoding="utf-8")
        assert "fractions" not in text, path
        assert "convert_length" not in text, path
        assert len(text.splitlines()) <= 400, path


def test_no_colour_reads(tmp_path: Path, project_file: Path) -> None:
    """With NO_COLOR the states are still told apart, as they are told in words and signs."""
    code = """
import asyncio, sys
from boltend.shell.app import BoltendApp
from boltend.shell.desk import Desk

async def main():
    app = BoltendApp(Desk.open(sys.argv[1]))
    async with app.run_test(size=(80, 24)) as pilot:
        for _ in range(1000):
            await pilot.pause(0.01)
            if app.desk.book is not None:
                break
        await pilot.pause()
        assert app.no_color
        rows = [strip.text.rstrip() for strip in app.screen._compositor.render_strips()]
        print("\\n".join(rows))

asyncio.run(main())
"""
    bad = project_file.read_text(encoding="utf-8").replace("patch", "ghost")
    project_file.write_text(bad, encoding="utf-8")
    env = {**os.environ, "NO_COLOR": "1"}
    done = subprocess.run(
        [sys.executable, "-c", code, str(project_file)], capture_output=True, text=True, env=env, check=True
    )
    assert "[! Sheet]" in done.stdout
    assert "CANNOT be worked out" in done.stdout
