"""How long keys wait while the disk takes its time with every call: no test.

    python tests/walks/slow_disk.py [MILLISECONDS …]

A project is edited, saved, edited during the save, looked at, saved again and left. A line a disk: seconds of
the first save; the longest time in which the event loop did not turn (the machine's own noise is in it); the
same for the longest key; whether all that was typed stands in the file.
"""

import asyncio
import functools
import os
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))
from mischief import Heart

CALLS = ("open", "write", "fsync", "fchmod", "close", "link", "replace", "unlink", "stat", "ftruncate")
PROJECT = '[[tab]]\nname = "Edge"\ncalculator = "binding"\n[tab.given]\nwidth = "60 in"\nheight = "72 in"\n'


def slower(seconds: float) -> None:
    """Every call of ours to the disk takes so much longer; the terminal's and the workers' pipes do not."""
    for name in CALLS:
        call = getattr(os, name)

        @functools.wraps(call)
        def late(*told: Any, call: Any = call, **named: Any) -> Any:
            if sys._getframe(1).f_globals.get("__name__", "").startswith("boltend.core.project"):
                time.sleep(seconds)
            return call(*told, **named)

        setattr(os, name, late)


async def walk(path: Path) -> str:
    """One line of figures."""
    from boltend.shell.app import BoltendApp
    from boltend.shell.desk import Desk

    app, longest = BoltendApp(Desk.open(str(path))), 0.0
    async with app.run_test(size=(100, 30)) as pilot:
        while app.desk.book is None or app.focused is None:
            await pilot.pause(0.02)

        async def press(*keys: str) -> None:
            nonlocal longest
            for key in keys:
                begun = time.perf_counter()
                await pilot.press(key)
                longest = max(longest, time.perf_counter() - begun)

        await press("end", "ctrl+u", *"61")
        heart, begun = Heart(), time.perf_counter()
        await press("ctrl+s")
        await press("end", "backspace", "2")
        while app.project_screen._writes is not None:
            await asyncio.sleep(0.005)
        took = time.perf_counter() - begun
        assert app.desk.changed, "what was typed since is not saved"
        app.on_app_focus()
        await press("backspace", "3")
        await press("ctrl+s", "ctrl+q")
        while app.return_code is None:
            await asyncio.sleep(0.005)
        pause, _ = heart.end()
    app.desk.close().result()
    kept = 'width = "63"' in path.read_text(encoding="utf-8")
    return f"{took:8.2f} {pause:8.0f} {longest * 1000:8.0f}  {'all kept' if kept else 'LOST'}"


def main() -> None:
    """A line for each disk, each in this process, one after another."""
    plain = {name: getattr(os, name) for name in CALLS}
    print(f"{'ms a call':>9} {'save s':>8} {'pause ms':>8} {'key ms':>8}")
    for told in sys.argv[1:] or ["0", "20", "100"]:
        with tempfile.TemporaryDirectory() as folder:
            os.environ.update(BOLTEND_STATE=f"{folder}/state", BOLTEND_CONFIG=f"{folder}/config")
            path = Path(folder) / "quilt.toml"
            path.write_text(f"boltend = 1\n{PROJECT}", encoding="utf-8")
            if told != "0":
                slower(int(told) / 1000)
            print(f"{told:>9} {asyncio.run(walk(path))}", flush=True)
        for name, call in plain.items():
            setattr(os, name, call)


if __name__ == "__main__":
    main()
