"""Draw the README's picture anew: the shell with the example project at 80 × 24, as SVG.

    python tests/readme_picture.py

`words_of` reads the words of such a picture, so that a test can hold it against the screen of today.
"""

import asyncio
import html
import os
import re
import shutil
import tempfile
from pathlib import Path

ROOT = Path(__file__).parent.parent
PICTURE = ROOT / "shared" / "pictures" / "harbour-steps.svg"
EXAMPLE = ROOT / "shared" / "boltend_shared" / "examples" / "harbour-steps.toml"


async def draw() -> str:
    """The picture as SVG; it asks no other place for a font."""
    from boltend.shell.app import BoltendApp
    from boltend.shell.desk import Desk

    with tempfile.TemporaryDirectory() as folder:
        os.environ["BOLTEND_STATE"] = os.environ["BOLTEND_CONFIG"] = folder
        project = shutil.copy(EXAMPLE, folder)
        desk = Desk.open(project)
        app = BoltendApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            for _ in range(400):
                await pilot.pause(0.02)
                if "To buy" in words_of(app.export_screenshot()) and desk.book is not None:
                    break
            for _ in range(4):  # the tab with the borders' own chain before it: the setting
                await pilot.pause(0.1)
            await pilot.press("f6", "f6")
            await pilot.pause(0.3)
            picture = app.export_screenshot(title="Harbour Steps")
        desk.close()
    return re.sub(r"@font-face \{.*?\}", "", picture, flags=re.S)


def words_of(picture: str) -> str:
    """All words of a picture, in reading order."""
    found = re.findall(r'<text class="[^"]*" x="([\d.]+)" y="([\d.]+)"[^>]*>(.*?)</text>', picture, re.S)
    placed = sorted((float(y), float(x), html.unescape(text)) for x, y, text in found)
    return " ".join(" ".join(text.replace("\xa0", " ").split()) for _, _, text in placed)


if __name__ == "__main__":
    PICTURE.parent.mkdir(exist_ok=True)
    PICTURE.write_text(asyncio.run(draw()), encoding="utf-8")
