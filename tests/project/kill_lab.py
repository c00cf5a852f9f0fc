"""Kills a process that edits and saves at full speed, again and again, and looks at what it leaves.

Run as `python kill_lab.py KILLS SEED FOLDER`; prints one JSON object. It is a program of its own because it
forks: each victim is a fork of this one warm, single-threaded process, so a kill costs milliseconds.
"""

from __future__ import annotations

import json
import os
import random
import shutil
import signal
import sys
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from boltend.core.project import edits, text_edit
from boltend.core.project.model import Project
from boltend.core.project.plain import same_plain
from boltend.core.project.reading import read_bytes
from boltend.core.project.recovered import recover
from boltend.core.project.recovery import Journal
from boltend.core.project.saving import ProjectFile
from boltend.core.project.whole_file import before_path

sys.path.insert(0, str(Path(__file__).parent))
from quilts import HARBOUR

EDITS = 600
Drafts = dict[tuple[str, str], str]
Edit = Callable[[Project], Project]


@dataclass
class Script:
    """The edits in order (an edit, or what is typed but not valid yet), and the state after each."""

    steps: list[Edit | tuple[int, str, str | None]] = field(default_factory=list)
    plains: list[dict[str, Any]] = field(default_factory=list)
    drafts: list[Drafts] = field(default_factory=list)
    saves: set[int] = field(default_factory=set)


def write_script(project: Project, dice: random.Random) -> Script:
    """600 edits that fit the project whoever opens it: tabs are told by their place."""
    script, typed = Script(plains=[project.to_plain()], drafts=[{}]), dict[tuple[int, str], str]()
    for number in range(1, EDITS + 1):
        count = len(project.tabs)
        place = dice.randrange(count)
        kinds = (
            ["given"] * 12 + ["draft"] * 6 + ["rename", "move", "flag", "add", "copy", "remove", "setting"]
        )
        kind = dice.choice(kinds)
        step: Edit | tuple[int, str, str | None]
        if kind == "draft":
            text = None if dice.random() < 0.3 else f"{number} 1/"
            step = (place, dice.choice(["width", "tail"]), text)
            key = (project.tabs[place].key, step[1])
            typed.pop(key, None)
            if text is not None:
                typed[key] = text
        else:
            step = an_edit(kind, place, number, dice.randrange(count), count)
            project = step(project)
        script.steps.append(step)
        names = {tab.key: tab.name for tab in project.tabs}
        script.plains.append(project.to_plain())
        script.drafts.append({(names[k], g): t for (k, g), t in typed.items() if k in names})
        if dice.random() < 0.03:
            script.saves.add(number)
    return script


def an_edit(kind: str, place: int, number: int, other: int, count: int) -> Edit:
    """One edit of the tab at a place."""
    if kind == "rename":
        return lambda p: edits.rename_tab(p, p.tabs[place].key, f"Tab {number}")
    if kind == "move":
        return lambda p: edits.move_tab(p, p.tabs[place].key, other)
    if kind == "flag":
        return lambda p: edits.set_tab_flag(p, p.tabs[place].key, "note", f"note {number}")
    if kind == "add" and count < 12:
        return lambda p: edits.add_tab(p, f"New {number}", "binding", {"width": f"{number} in"}, place)
    if kind == "copy" and count < 12:
        return lambda p: edits.duplicate_tab(p, p.tabs[place].key)
    if kind == "remove" and count > 3:
        return lambda p: edits.remove_tab(p, p.tabs[place].key)
    if kind == "setting":
        return lambda p: edits.set_setting(p, "notes", f"after {number}")
    return lambda p: edits.set_given(p, p.tabs[place].key, f"given_{number % 7}", f"{number} in")


def slow_disk() -> dict[str, Callable[..., Any]]:
    """The same system calls, each with a rest before and after it, and only few bytes a write.

    On a fast disk the moments between the steps of a save last microseconds and are hardly ever struck.
    """

    def slow(real: Callable[..., Any], most: int | None = None) -> Callable[..., Any]:
        def call(*args: Any, **kwargs: Any) -> Any:
            time.sleep(0.0002)
            if most is not None:
                args = (args[0], args[1][:most])
            done = real(*args, **kwargs)
            time.sleep(0.0002)
            return done

        return call

    calls = {
        name: slow(getattr(os, name)) for name in ("open", "fsync", "link", "replace", "unlink", "ftruncate")
    }
    return {**calls, "write": slow(os.write, 1000)}


def victim(path: Path, script: Script, acks: int, slow: bool) -> None:
    """Edit, journal, acknowledge, now and then save: at full speed, until killed or done."""
    fast = {name: getattr(os, name) for name in slow_disk()}
    in_save = slow_disk() if slow else fast
    file = ProjectFile.open(path)
    journal, project = Journal(file), file.saved
    os.write(acks, (0).to_bytes(4, "big", signed=True))
    for number, step in enumerate(script.steps, 1):
        if isinstance(step, tuple):
            journal.draft(project.tabs[step[0]].key, step[1], step[2])
        else:
            project = step(project)
            journal.edited(project)
        os.write(acks, number.to_bytes(4, "big", signed=True))
        if number in script.saves:
            vars(os).update(in_save)
            file.save(project)
            journal.saved(project)
            vars(os).update(fast)
            os.write(acks, (-number).to_bytes(4, "big", signed=True))


def one_kill(folder: Path, script: Script, dice: random.Random) -> dict[str, Any]:
    """Fork a victim, kill it at a random moment, and check what is left. Raises AssertionError."""
    folder.mkdir()
    path = folder / "harbour.toml"
    path.write_text(HARBOUR)
    os.environ["BOLTEND_STATE"] = str(folder / "state")
    source, sink = os.pipe()
    # Half of the kills aim into a save on a slow disk: those are rarer than edits, and more delicate.
    slow = dice.random() < 0.5
    at = dice.choice(sorted(script.saves)) if slow else dice.randrange(EDITS)
    pause = 0.015 * dice.random() if slow else dice.choice([0.0, dice.random() * 0.006])
    pid = os.fork()
    if pid == 0:
        try:
            os.close(source)
            victim(path, script, sink, slow)
        except BaseException:
            traceback.print_exc()
            os._exit(3)
        os._exit(0)
    os.close(sink)
    heard = b""
    while len(heard) < 4 or not said(heard, at):
        more = os.read(source, 65536)
        if not more:
            break
        heard += more
    if slow:
        await_temporary(folder)
    until = time.perf_counter() + pause
    while time.perf_counter() < until:
        pass
    os.kill(pid, signal.SIGKILL)
    status = os.waitpid(pid, 0)[1]
    while more := os.read(source, 65536):
        heard += more
    os.close(source)
    assert os.WIFSIGNALED(status) or os.WEXITSTATUS(status) == 0, "the victim failed by itself"
    numbers = [int.from_bytes(heard[i : i + 4], "big", signed=True) for i in range(0, len(heard) - 3, 4)]
    last, saved = max(numbers, default=0), -min(numbers, default=0)
    result = {"last": last, "saved": saved, "killed": os.WIFSIGNALED(status)}
    result |= check(path, script, last, saved)
    shutil.rmtree(folder)
    return result


def await_temporary(folder: Path) -> None:
    """Wait until the victim has begun to write its file (a fifth of a second at most)."""
    until = time.perf_counter() + 0.2
    while time.perf_counter() < until and not any(name.endswith(".tmp") for name in os.listdir(folder)):
        pass


def said(heard: bytes, number: int) -> bool:
    return (
        abs(int.from_bytes(heard[len(heard) // 4 * 4 - 4 : len(heard) // 4 * 4], "big", signed=True))
        >= number
    )


def check(path: Path, script: Script, last: int, saved: int) -> dict[str, Any]:
    """The file is the old or the new version, whole; file and journal give back all that was acknowledged."""
    temporary = any(p.name.endswith(".tmp") for p in path.parent.iterdir())
    opened = ProjectFile.open(path)
    due = min((n for n in script.saves if n > saved), default=None)
    allowed = [saved] if due is None or due > last else [saved, due]
    matches = [n for n in allowed if same_plain(opened.saved.to_plain(), script.plains[n])]
    assert matches, f"the file is neither version {allowed}"
    before = before_path(path)
    if before.exists():
        kept = read_bytes(before.read_bytes(), "before").project.to_plain()
        olds = [n for n in (0, *script.saves) if n <= last]
        assert any(same_plain(kept, script.plains[n]) for n in olds), (
            "the kept version is none of the saved ones"
        )
    found = recover(opened)
    plain = found.project.to_plain() if found else opened.saved.to_plain()
    drafts = {(d.tab, d.given): d.text for d in found.drafts} if found else {}
    fits = [
        n
        for n in (last, last + 1)
        if n <= EDITS and same_plain(plain, script.plains[n]) and drafts == script.drafts[n]
    ]
    assert fits, (
        f"edit {last} was acknowledged and is lost (file at {matches}, recovered: {found is not None})"
    )
    return {"mid_save": len(allowed) == 2, "temporary": temporary, "recovered": found is not None}


def main(kills: int, seed: int, folder: Path) -> None:
    """Run all, print the sums and the failures (each with its own seed)."""
    assert text_edit  # imported late by the document; here at once, so that no victim pays for tomlkit
    started = time.perf_counter()
    start = read_bytes(HARBOUR.encode(), "harbour.toml").project
    results, failures = [], []
    for number in range(kills):
        dice = random.Random(f"{seed}-{number}")
        if number % 20 == 0:
            script = write_script(start, dice)
        try:
            results.append(one_kill(folder / str(number), script, dice))
        except Exception as error:  # every failure is reported, whatever its kind
            failures.append(f"seed {seed}, kill {number}: {type(error).__name__}: {error}")
    print(
        json.dumps(
            {
                "kills": sum(r["killed"] for r in results),
                "mid_save": sum(r["mid_save"] for r in results),
                "temporary_left": sum(r["temporary"] for r in results),
                "recovered": sum(r["recovered"] for r in results),
                "seconds": round(time.perf_counter() - started, 1),
                "failures": failures,
            }
        )
    )


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3]))
