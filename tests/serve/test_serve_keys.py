"""Keys that a browser keeps for itself are never the only way to an action."""

from boltend.shell.actions import ACTIONS, BY_NAME

KEPT = {"ctrl+n", "ctrl+t", "ctrl+w", "ctrl+q", "ctrl+tab", "ctrl+pageup", "ctrl+pagedown", "f11"}
"""What no page gets: windows and tabs (Chromium, Firefox), Ctrl+Q (Firefox on Linux), the whole screen. From
memory; `tests/walks/in_browser.py` asks that the page takes all other keys of ours from the browser."""

IN_THE_MENU_ONLY = {"note", "leave"}
"""Actions whose every key a browser keeps. Closing the browser's tab leaves, too, and loses nothing."""


def test_the_menu_is_reached_and_holds_the_rest() -> None:
    assert set(BY_NAME["menu"].keys) - KEPT
    lost = {action.name for action in ACTIONS if action.keys and set(action.keys) <= KEPT}
    assert lost <= IN_THE_MENU_ONLY
