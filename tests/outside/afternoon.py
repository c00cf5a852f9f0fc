"""A plugin in an afternoon, walked in a minute: made, installed offline, tested, seen in the shell, switched.

Run by the Python of an environment that has Boltend (the gate does so beside the built wheel):

    python afternoon.py FOLDER           the plugin is installed into that environment
    python afternoon.py FOLDER --site    it is installed into FOLDER/site, on the path of what is run
"""

import fcntl
import json
import os
import pty
import select
import struct
import subprocess
import sys
import termios
import time
from pathlib import Path

NAME = "spare_buttons"
PROJECT = """boltend = 1

[[tab]]
name = "Patches"  # kept byte for byte
calculator = "spare_buttons"

[tab.given]
size = "2 1/2 in"
"""
SECONDS = 120
PIP = ("-m", "pip", "install", "--quiet", "--disable-pip-version-check")
OFFLINE = ("--no-index", "--no-deps", "--no-build-isolation")


class Walk:
    """One walk in a folder of its own."""

    def __init__(self, folder: Path, site: bool) -> None:
        self.folder, self.plugin = folder, folder / "Spare Buttons"
        self.site = folder / "site" if site else None
        self.env = {**os.environ, "PYTHONIOENCODING": "utf-8", "TERM": "xterm-256color"}
        self.env |= {"BOLTEND_CONFIG": str(folder / "config"), "BOLTEND_STATE": str(folder / "state")}
        if self.site:
            self.env["PYTHONPATH"] = os.pathsep.join((str(self.site), os.environ.get("PYTHONPATH", "")))

    def run(self, *words: str, cwd: Path | None = None, code: int = 0) -> str:
        """Run Python with these words; what it says. Raises where it ends in another way."""
        done = subprocess.run(
            [sys.executable, *words], cwd=cwd or self.folder, env=self.env, capture_output=True,
            text=True, encoding="utf-8", timeout=SECONDS, stdin=subprocess.DEVNULL,
        )  # fmt: skip
        if done.returncode != code:
            raise SystemExit(f"{words} ended with {done.returncode}:\n{done.stdout}\n{done.stderr}")
        return done.stdout + done.stderr

    def boltend(self, *words: str, code: int = 0) -> str:
        """Run a command of ours."""
        return self.run("-m", "boltend", *words, code=code)

    def make(self) -> None:
        """Make it, install it, run its tests."""
        said = self.boltend("new-plugin", str(self.plugin))
        expect(said, "src/spare_buttons/__init__.py", "Next:", "pip install -e '.[test]'")
        guide = Path(said.splitlines()[-1].strip()).read_text(encoding="utf-8")
        expect(guide, "## A calculator in ten minutes")
        where = ("--target", str(self.site)) if self.site else ()
        self.run(*PIP, *OFFLINE, *where, str(self.plugin))
        expect(self.run("-m", "pytest", "-q", "-p", "no:cacheprovider", cwd=self.plugin), "4 passed")

    def use(self) -> None:
        """See it in every place."""
        expect(self.boltend("calculators"), f"{NAME} ")
        expect(self.boltend("work", NAME, "size=2 1/2 in", "--picture"), "Squares a strip  16", "Picture")
        plugins = json.loads(self.boltend("plugins", "--json"))["plugins"]
        (told,) = (each for each in plugins if each["name"] == NAME)
        assert (told["state"], told["contract"], told["built_in"]) == ("on", 1, False), told
        assert (told["distribution"], told["calculators"]) == ("spare-buttons", [NAME]), told
        (self.folder / "quilt.toml").write_text(PROJECT, encoding="utf-8")
        self.in_shell("Squares a strip", "16")

    def switch(self) -> None:
        """Off: not imported, its tab cannot and is kept. On: as before."""
        expect(self.boltend("plugins", "--off", NAME), "is off.")
        expect(self.boltend("check", "quilt.toml", code=1), f"boltend plugins --on {NAME}")
        self.in_shell("CANNOT", "switched off")
        assert (self.folder / "quilt.toml").read_text(encoding="utf-8") == PROJECT
        expect(self.boltend("plugins"), f"{NAME}  ", "off")
        expect(self.boltend("plugins", "--on", NAME), "is on.")
        expect(self.boltend("check", "quilt.toml"), "all worked out")

    def in_shell(self, *wanted: str) -> None:
        """Open the project in the shell, in a terminal of 100 × 30, until all that is wanted was painted."""
        ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 30, 100, 0, 0))
        shell = subprocess.Popen(
            [sys.executable, "-m", "boltend", "quilt.toml"],
            cwd=self.folder, env=self.env, stdin=theirs, stdout=theirs, stderr=theirs,
        )  # fmt: skip
        os.close(theirs)
        painted, leaving, deadline = b"", False, time.monotonic() + SECONDS
        try:
            while shell.poll() is None and time.monotonic() < deadline:
                if select.select([ours], [], [], 0.2)[0]:
                    try:
                        painted += os.read(ours, 65536)
                    except OSError:  # the other end is closed
                        break
                if not leaving and all(text.encode() in painted for text in wanted):
                    leaving = True
                    os.write(ours, b"\x11")
            shell.wait(max(0.1, deadline - time.monotonic()))
        finally:
            shell.kill()
            shell.wait()
            os.close(ours)
        assert leaving, f"the shell never showed {wanted}: {painted[-3000:]!r}"
        assert shell.returncode == 0, shell.returncode


def expect(said: str, *parts: str) -> None:
    """Raise where a part is not said."""
    for part in parts:
        if part not in said:
            raise SystemExit(f"{part!r} is not in:\n{said}")


def main(folder: Path, site: bool) -> None:
    """Walk."""
    folder.mkdir(parents=True, exist_ok=True)
    begin = time.monotonic()
    walk = Walk(folder, site)
    for part in (walk.make, walk.use, walk.switch):
        part()
        print(f"{part.__name__}: done after {time.monotonic() - begin:.1f} s")


if __name__ == "__main__":
    main(Path(sys.argv[1]).resolve(), "--site" in sys.argv[2:])
