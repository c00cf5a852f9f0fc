"""Every fault of a stranger's plugin at the screen: what is seen, and how long keys had to wait: no test.

    python tests/walks/mischief.py [NAME …]

A line a fault: seconds until the outcome; the longest time in which the event loop did not turn, and how much
of it this process worked (the rest is the machine's noise), both in ms, the plain answer's own subtracted;
what stands in the tab. What runs long is stopped with Esc after a second, and its time is that from Esc on.
"""

import asyncio
import os
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "faults"))
from fault_shell import ANSWERS, FAULTS, LONG, PROJECT, Faulty, faulty, install

BEAT = 0.004


class Heart:
    """Beats in the event loop, and keeps the longest pause, in time and in work of this process."""

    def __init__(self) -> None:
        self.longest = self.worked = 0.0
        self._task = asyncio.create_task(self._beat())

    async def _beat(self) -> None:
        last, work = time.perf_counter(), time.process_time()
        while True:
            await asyncio.sleep(BEAT)
            now, done = time.perf_counter(), time.process_time()
            self.longest, self.worked = max(self.longest, now - last), max(self.worked, done - work)
            last, work = now, done

    def end(self) -> tuple[float, float]:
        """The longest pause and the most work between two beats, in ms."""
        self._task.cancel()
        return self.longest * 1000, self.worked * 1000


async def go_wrong(it: Faulty, what: str) -> tuple[float, float, float]:
    """Seconds to the outcome, ms of the longest pause, ms of work in it."""
    await it.settled()
    heart, begun = Heart(), time.perf_counter()
    await it.paste(what)
    if what in LONG:
        await asyncio.sleep(1)
        assert it.state("Bad") == "working", what
        begun = time.perf_counter()
        await it.press("escape")
    await it.settled()
    seconds = time.perf_counter() - begun
    await it.press("f5")  # the list of all pieces, the stranger's among them
    await asyncio.sleep(0.3)
    await it.press("escape")
    return seconds, *heart.end()


async def walk(path: Path, names: list[str]) -> int:
    """How many tabs of others were touched."""
    touched = 0
    async with faulty(path) as it:
        await it.settled()
        untouched, kept = it.untouched(), path.read_bytes()
        await it.see("Bad")
        plain = [await go_wrong(it, text) for text in ("nothing", "plain", "sound", "nothing")]
        usual, work = (min(run[n] for run in plain) for n in (1, 2))
        print(f"a plain answer: longest pause {usual:.0f} ms, {work:.0f} ms of work in it")
        for what in names:
            await it.see("Bad")
            seconds, pause, worked = await go_wrong(it, what)
            why = it.book.result("Bad").why or "worked out"
            alone = it.untouched() == untouched and path.read_bytes() == kept
            touched += not alone
            print(
                f"{what:34} {seconds:6.2f} s {pause - usual:6.0f} {worked - work:6.0f} ms"
                f" {'' if alone else 'TOUCHED '}| {why[:90]}",
                flush=True,
            )
    return touched


def main() -> None:
    """Install the strangers beside a fresh project, and let the one go wrong."""
    with tempfile.TemporaryDirectory() as folder:
        site = install(Path(folder))
        os.environ.update(BOLTEND_STATE=f"{folder}/state", BOLTEND_CONFIG=f"{folder}/config")
        os.environ["PYTHONPATH"] = str(site)
        sys.path.insert(0, str(site))
        path = Path(folder) / "quilt.toml"
        path.write_text(PROJECT, encoding="utf-8")
        sys.exit(asyncio.run(walk(path, sys.argv[1:] or [*FAULTS, *ANSWERS])))


if __name__ == "__main__":
    main()
