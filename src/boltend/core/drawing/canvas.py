"""The painter: areas one over the other, as edges between cells and as dots within them.

Edges run along a grid of points, one in the middle of each cell. A row of edges or dots is one whole number
with a bit for each, so that a row is cleared or drawn at once.
"""

from collections.abc import Iterable, Sequence
from math import ceil, floor

from boltend.core.drawing.figure import Area, Figure, Point, Stroke
from boltend.core.drawing.fit import EPS, Fit, Grain

_NUDGE = 1e-4
NOBODY = -1


def mask(start: int, end: int) -> int:
    """Bits from `start` up to, not with, `end`."""
    return ((1 << (end - start)) - 1) << start if end > start else 0


def snap(place: float, middle: float) -> int:
    """The nearest grid line; from half way between two that away from the middle, so that halves mirror."""
    return floor(place + (0.5 + EPS if place > middle + EPS else 0.5 - EPS))


class Canvas:
    """What has been painted so far.

    `across[r]` has a bit for each edge from point c to c + 1 in row r, `down[r]` for each from row r to
    r + 1; `thick_…` are areas thinner than a cell, `hidden_…` edges that lie under another area.
    `owner[r][c]` is the area in the middle of a cell, `covered[r]` the faces between four points that any
    area covers.
    """

    def __init__(self, at: Fit, grain: Grain) -> None:
        self.at, self.grain = at, grain
        wide, high = at.columns, at.rows
        self.across, self.down = [0] * (high + 1), [0] * (high + 1)
        self.thick_across, self.thick_down = [0] * (high + 1), [0] * (high + 1)
        self.hidden_across, self.hidden_down = [0] * (high + 1), [0] * (high + 1)
        self.covered = [0] * (high + 2)  # the last is the outside below, and by index -1 above
        self.owner = [[NOBODY] * (wide + 1) for _ in range(high + 1)]
        self.dots = [0] * ((high + 2) * grain.down)  # a slanting line may end beyond the last cell
        self.thin: set[str] = set()
        self._drawn: set[tuple[int, int, int, int]] = set()

    def paint(self, figure: Figure) -> None:
        """Paint all areas, then all strokes."""
        for number, area in enumerate(figure.areas):
            if area.corners:
                self._polygon(number, area)
            else:
                self._rect(number, area)
        for stroke in figure.strokes:
            self._stroke(stroke)

    def _rect(self, number: int, area: Area) -> None:
        sx, sy = self.at.sx, self.at.sy
        x, y = self.at.columns / 2, self.at.rows / 2
        left, right = snap(area.left * sx, x), snap(area.right * sx, x)
        top, bottom = snap(area.top * sy, y), snap(area.bottom * sy, y)
        if left < right and top < bottom:
            span, sides, cells = mask(left, right), 1 << left | 1 << right, [number] * (right - left)
            under = 0
            for row in self.covered[top:bottom]:
                under |= row
            if under & span:
                inner = mask(left + 1, right)
                for r in range(top, bottom):
                    self._clear(r, span if r > top else 0, inner)
                self._wipe_rect(area)
            for r in range(top, bottom):
                self.covered[r] |= span
                self.owner[r][left:right] = cells
                self.down[r] |= sides
            self.across[top] |= span
            self.across[bottom] |= span
        else:
            self._thin(left, right, top, bottom, area.fill)
        if self.at.fine and not self._too_small(area):
            self._outline(area)

    def _thin(self, left: int, right: int, top: int, bottom: int, fill: str) -> None:
        """What is thinner than a cell is one thick line; in a fine picture its edges are dots."""
        self.thin.add(fill)
        if self.at.fine or (left == right and top == bottom):
            return
        if top == bottom:
            self.across[top] |= mask(left, right)
            self.thick_across[top] |= mask(left, right)
        for r in range(top, bottom):
            self.down[r] |= 1 << left
            self.thick_down[r] |= 1 << left

    def _clear(self, row: int, across: int, down: int) -> None:
        """Take away edges that an area covers."""
        self.hidden_across[row] |= self.across[row] & across
        self.hidden_down[row] |= self.down[row] & down
        self.across[row] &= ~across
        self.thick_across[row] &= ~across
        self.down[row] &= ~down
        self.thick_down[row] &= ~down

    def _too_small(self, area: Area) -> bool:
        if self.at.dropped is None:
            return False
        wide, high = area.right - area.left, area.bottom - area.top
        return min(wide, high) <= max(self.at.dropped) * (1 + EPS)

    def _dot(self, x: float, y: float) -> tuple[int, int]:
        """The dot at a place in inches; half way between two always the same, so that a grid stays even."""
        kx, ky = self.grain
        return (
            floor(x * self.at.sx * kx + kx / 2 + EPS),
            floor(y * self.at.sy * ky + ky / 2 + EPS),
        )

    def _outline(self, area: Area) -> None:
        left, top = self._dot(area.left, area.top)
        right, bottom = self._dot(area.right, area.bottom)
        span, sides = mask(left, right + 1), 1 << left | 1 << right
        self.dots[top] |= span
        self.dots[bottom] |= span
        for r in range(top + 1, bottom):
            self.dots[r] |= sides

    def _wipe_rect(self, area: Area) -> None:
        left, top = self._dot(area.left, area.top)
        right, bottom = self._dot(area.right, area.bottom)
        inner = ~mask(left + 1, right)
        for r in range(top + 1, bottom):
            self.dots[r] &= inner

    def _polygon(self, number: int, area: Area) -> None:
        sx, sy = self.at.sx, self.at.sy
        points = [(x * sx, y * sy) for x, y in area.corners]
        sides = sides_of(points)
        top, bottom = area.top * sy, area.bottom * sy
        spans = []
        for r in range(ceil(top - 0.5 - EPS), ceil(bottom - 0.5 - EPS)):
            span = 0
            for left, right in within(sides, r + 0.5):
                span |= mask(max(0, ceil(left - 0.5 - EPS)), ceil(right - 0.5 - EPS))
            spans.append((r, span))
        if any(self.covered[r] & span for r, span in spans):
            self._wipe_polygon(sides, top, bottom)
        for r, span in spans:
            self.covered[r] |= span
        for r in range(max(0, ceil(top - _NUDGE)), min(self.at.rows, floor(bottom)) + 1):
            for left, right in within(sides, r + _NUDGE):
                first, end = max(0, ceil(left - EPS)), min(self.at.columns + 1, ceil(right - EPS))
                if end > first:
                    self.owner[r][first:end] = [number] * (end - first)
        if self.at.fine and self._too_small(area):
            return
        for n, (x2, y2) in enumerate(area.corners):
            x1, y1 = area.corners[n - 1]
            self._line(x1, y1, x2, y2)

    def _wipe_polygon(self, sides: Sequence[tuple[Point, Point]], top: float, bottom: float) -> None:
        """Take away all that lies strictly within."""
        for r in range(max(0, floor(top)), min(self.at.rows, ceil(bottom)) + 1):
            above, below = (
                _mask_of(within(sides, y), lambda x: ceil(x - 0.5 + EPS), lambda x: ceil(x - 0.5 - EPS))
                for y in (r - _NUDGE, r + _NUDGE)
            )
            self._clear(
                r, above & below,
                _mask_of(within(sides, r + 0.5), lambda x: floor(x + EPS) + 1, lambda x: ceil(x - EPS)),
            )  # fmt: skip
        kx, ky = self.grain
        for r in range(len(self.dots)):
            y = (r + 0.5 - ky / 2) / ky
            if top < y < bottom:
                self.dots[r] &= ~_mask_of(
                    within(sides, y),
                    lambda x: floor(x * kx + kx / 2) + 1,
                    lambda x: floor(x * kx + kx / 2),
                )

    def _stroke(self, stroke: Stroke) -> None:
        if self.at.fine and self.at.dropped is not None:
            return
        self._line(*stroke, alone=True)

    def _line(self, x1: float, y1: float, x2: float, y2: float, *, alone: bool = False) -> None:
        """A straight line: along the grid as edges, else, and in a fine picture, as dots.

        An `alone` line belongs to no area: in a fine picture it is never the outer edge.
        """
        sx, sy = self.at.sx, self.at.sy
        upright, level = abs(x1 - x2) * sx < EPS, abs(y1 - y2) * sy < EPS
        if (upright or level) and not (self.at.fine and alone):
            x, y = self.at.columns / 2, self.at.rows / 2
            left, right = sorted((snap(x1 * sx, x), snap(x2 * sx, x)))
            top, bottom = sorted((snap(y1 * sy, y), snap(y2 * sy, y)))
            if level:
                self.across[top] |= mask(left, right)
            else:
                for r in range(top, bottom):
                    self.down[r] |= 1 << left
        if not (upright or level) and self.grain.across > 1:
            self._slanting(x1 * sx, y1 * sy, x2 * sx, y2 * sy)
        elif not (upright or level) or self.at.fine:
            self._dotted(*self._dot(x1, y1), *self._dot(x2, y2))

    def _slanting(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Dots nearest to a line, one a row of dots where it is steep, else one a column."""
        kx, ky = self.grain
        # In dots: the middle of a cell lies half way between two of them.
        x1, x2 = (x * kx + (kx - 1) / 2 for x in (x1, x2))
        y1, y2 = (y * ky + (ky - 1) / 2 for y in (y1, y2))
        if abs(y2 - y1) >= abs(x2 - x1):
            if y2 < y1:
                x1, y1, x2, y2 = x2, y2, x1, y1
            slope = (x2 - x1) / (y2 - y1)
            for row in range(ceil(y1 - EPS), floor(y2 + EPS) + 1):
                self.dots[row] |= 1 << floor(x1 + (row - y1) * slope + 0.5)
            return
        if x2 < x1:
            x1, y1, x2, y2 = x2, y2, x1, y1
        slope = (y2 - y1) / (x2 - x1)
        for column in range(ceil(x1 - EPS), floor(x2 + EPS) + 1):
            self.dots[floor(y1 + (column - x1) * slope + 0.5)] |= 1 << column

    def _dotted(self, x1: int, y1: int, x2: int, y2: int) -> None:
        if (y2, x2) < (y1, x1):
            x1, y1, x2, y2 = x2, y2, x1, y1
        if (x1, y1, x2, y2) in self._drawn:
            return
        self._drawn.add((x1, y1, x2, y2))
        steps = max(abs(x2 - x1), y2 - y1)
        dots = self.dots
        if not steps:
            dots[y1] |= 1 << x1
        for n in range(steps + 1 if steps else 0):
            # Rounded half up in whole numbers: the same both ways, so that mirrored lines mirror.
            dots[(2 * y1 * steps + 2 * (y2 - y1) * n + steps) // (2 * steps)] |= 1 << (
                (2 * x1 * steps + 2 * (x2 - x1) * n + steps) // (2 * steps)
            )


def sides_of(points: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The sides that a level line can cross, each from above to below."""
    pairs = [(points[n - 1], point) for n, point in enumerate(points)]
    return [(a, b) if a[1] < b[1] else (b, a) for a, b in pairs if a[1] != b[1]]


def within(sides: Iterable[tuple[Point, Point]], y: float) -> Iterable[tuple[float, float]]:
    """From where to where a level line at y is within the polygon."""
    crossed = sorted(x1 + (y - y1) * (x2 - x1) / (y2 - y1) for (x1, y1), (x2, y2) in sides if y1 <= y < y2)
    return zip(crossed[::2], crossed[1::2], strict=False)


def _mask_of(spans: Iterable[tuple[float, float]], first: object, end: object) -> int:
    found = 0
    for left, right in spans:
        found |= mask(max(0, first(left)), end(right))  # type: ignore[operator]  # both are functions
    return found
