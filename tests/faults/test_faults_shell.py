"""A stranger does everything wrong while a person works: what is seen, and that nothing else is reached."""

import os
from pathlib import Path

import pytest
from fault_shell import ANSWERS, FAULTS, LONG, SOUND, faulty

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="the faults are those of a POSIX system")

QUICK = [name for name in (*FAULTS, *ANSWERS) if name not in LONG]


@pytest.fixture(autouse=True)
def quick_pilot(monkeypatch: pytest.MonkeyPatch) -> None:
    """Textual's Pilot sleeps 20 ms at least twice a key; 5 ms tell as well that there is nothing to do."""
    monkeypatch.setattr("textual._wait.SLEEP_GRANULARITY", 1 / 200)
    monkeypatch.setattr("textual._wait.SLEEP_IDLE", 1 / 4000)


async def test_every_fault_harms_its_own_tab_only(strangers: Path, project_file: Path) -> None:
    before = project_file.read_bytes()
    async with faulty(project_file) as it:
        await it.settled()
        untouched = it.untouched()
        assert untouched["Ours"]["width"] == 36
        await it.see("Bad")
        assert len(QUICK) > 50
        for what in QUICK:
            await it.paste(what)
            await it.settled()
            assert it.app.desk.project.tab("Bad").given["what"] == what
            sound = what in SOUND
            assert it.state("Bad") == ("worked out" if sound else "cannot"), (what, it.book.result("Bad").why)
            if what != "a length below nothing":  # that one makes sense, if not for buttons
                assert it.state("After") == ("worked out" if sound else "waiting"), what
            assert it.untouched() == untouched, what
            text = it.text()
            assert "NOISE" not in text, what
            assert all(c.isprintable() or c == "\n" for c in text), what
            assert ("CANNOT" in text) == (not sound), (what, text)
            assert len(it.book.result("Bad").why) < 5000, what
            await it.paste("nothing")
            await it.settled()
            assert it.book.result("Bad").found["made"] == 2, what
        await it.press("f5")  # and the lists, of the whole project
        await it.wait(lambda: it.app.project_screen.list_in_sight, "the list")
        await it.press("escape")
    assert project_file.read_bytes() == before


@pytest.mark.parametrize("what", LONG)
async def test_keys_work_while_a_stranger_holds_its_worker_and_esc_ends_it(
    what: str, strangers: Path, project_file: Path
) -> None:
    before = project_file.read_bytes()
    async with faulty(project_file) as it:
        await it.settled()
        untouched = it.untouched()
        await it.see("Bad")
        await it.paste(what)
        await it.wait(lambda: it.state("Bad") == "working", "the run")
        assert it.state("After") == "waiting"
        await it.see("Ours")
        await it.press("end", "ctrl+u", "8")  # the first given is the block's width
        assert it.book.result("Ours").found["width"] == 32
        await it.wait(lambda: it.state("Buttons") == "worked out", "the other stranger")
        assert it.untouched()["Buttons"] != untouched["Buttons"]
        await it.press("ctrl+z")
        await it.wait(lambda: it.state("Buttons") == "worked out", "the other stranger again")
        assert it.untouched() == untouched
        assert it.state("Bad") == "working"  # all of that while the stranger held its process
        await it.see("Bad")
        await it.press("escape")
        await it.wait(lambda: it.state("Bad") == "cannot", "the stop")
        assert "stopped before it had an answer" in it.book.result("Bad").why
        await it.paste("nothing")
        await it.settled()
        assert it.state("After") == "worked out"
    assert project_file.read_bytes() == before


async def test_a_plugin_that_hangs_at_import_holds_up_nobody(
    strangers: Path, project_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It may take ten seconds; what is ours is worked out at once, and the strangers come later."""
    monkeypatch.setenv("MISCHIEF", "import: holds: regex")
    monkeypatch.setattr("boltend.core.host.loading.DESCRIBE_TIMEOUT", 3.0)
    monkeypatch.setattr("boltend.core.host.host.DESCRIBE_TIMEOUT", 3.0)
    async with faulty(project_file) as it:
        assert it.state("Ours") == "worked out"
        assert it.state("Buttons") == "cannot"
        assert "still being read" in it.book.result("Buttons").why
        await it.press("end", "ctrl+u", "8")
        assert it.book.result("Ours").found["width"] == 32
        place = it.app.focused
        await it.wait(lambda: it.state("Buttons") == "worked out", "the other stranger", 60)
        assert it.app.focused is place  # what the person does is not disturbed
        assert it.state("Bad") == "cannot"
        assert "import" in it.book.result("Bad").why
        await it.see("Buttons")
        assert "Length of the edge" in it.text()
