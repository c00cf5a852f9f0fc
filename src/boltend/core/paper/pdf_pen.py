"""A pen on a page: points from its top left corner, y downwards, every text in a face that has it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from boltend.core.paper.pdf_fonts import PLAIN, runs
from boltend.core.paper.sketch import RISE
from boltend.core.paper.turning import in_sight

Point = tuple[float, float]


@dataclass
class Pen:
    """Draws on one canvas of some height."""

    canvas: Canvas
    height: float

    def text(
        self,
        x: float,
        middle: float,
        words: str,
        size: float,
        *,
        face: str = PLAIN,
        anchor: Literal["start", "middle", "end"] = "start",
        colour: str = "#000000",
        upright: bool = False,
        from_right: bool = False,
    ) -> None:
        """Write a line by its middle; `upright` from below to above."""
        parts = runs(in_sight(words, from_right=from_right), face)
        wide = sum(pdfmetrics.stringWidth(part.words, part.face, size) for part in parts)
        at = {"start": 0.0, "middle": -wide / 2, "end": -wide}[anchor]
        self.canvas.setFillColor(colour)
        self.canvas.saveState()
        self.canvas.translate(x, self.height - middle)
        if upright:
            self.canvas.rotate(90)
        for part in parts:
            self.canvas.setFont(part.face, size)
            self.canvas.drawString(at, -RISE * size, part.words)
            at += pdfmetrics.stringWidth(part.words, part.face, size)
        self.canvas.restoreState()

    def line(self, x1: float, y1: float, x2: float, y2: float, colour: str, thick: float) -> None:
        """Draw a straight line."""
        self.canvas.setStrokeColor(colour)
        self.canvas.setLineWidth(thick)
        self.canvas.line(x1, self.height - y1, x2, self.height - y2)

    def dots(self, x1: float, y1: float, x2: float, y2: float, colour: str, thick: float, gap: float) -> None:
        """Draw a row of dots."""
        self.canvas.setDash([thick, gap - thick])
        self.line(x1, y1, x2, y2, colour, thick)
        self.canvas.setDash()

    def polygon(self, corners: Sequence[Point], fill: str, stroke: str = "", thick: float = 0.6) -> None:
        """Fill a closed polygon (not at all with ""), and draw its edge where there is a `stroke`."""
        path = self._path(corners)
        if fill:
            self.canvas.setFillColor(fill)
        if stroke:
            self.canvas.setStrokeColor(stroke)
            self.canvas.setLineWidth(thick)
            self.canvas.setLineJoin(1)
        self.canvas.drawPath(path, fill=int(bool(fill)), stroke=int(bool(stroke)))

    def within(self, corners: Sequence[Point]) -> None:
        """Draw nothing beyond a polygon from here to `done`."""
        self.canvas.saveState()
        self.canvas.clipPath(self._path(corners), stroke=0, fill=0)

    def done(self) -> None:
        """End what `within` began."""
        self.canvas.restoreState()

    def _path(self, corners: Sequence[Point]):  # type: ignore[no-untyped-def]  # reportlab's own path
        path = self.canvas.beginPath()
        (x, y), *others = corners
        path.moveTo(x, self.height - y)
        for x, y in others:
            path.lineTo(x, self.height - y)
        path.close()
        return path
