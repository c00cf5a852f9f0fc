"""The methods of the trade, really sewn: from squares of a given size to the opened unit.

Each answers the opened cloth and where the finished unit lies in it.
"""

from math import sqrt

from sewn import Line, Point, Work, cut, flipped, sew, square, triangle

R = sqrt(2)


def half_squares(method: str, q: float, s: float) -> tuple[Work, Point, float]:
    """One unit of a pair of squares; the middle of its seam, and how many degrees its sides are turned."""
    if method == "two at a time":
        diagonal = Line((0, 0), (q, q))
        pair = [cut(square(f, q), diagonal) for f in ("light", "dark")]
        return sew(*pair, diagonal.aside(s)), _on(diagonal.aside(s), (0, q), q), 0
    if method == "four at a time":
        edge = Line((0, 0), (q, 0))
        pair = [cut(cut(square(f, q), Line((0, q), (q, 0)).turned()), Line((0, 0), (q, q)).turned())
                for f in ("light", "dark")]  # fmt: skip
        assert pair[0][0].shape.covers(triangle("", (1e-9, 0), (q - 1e-9, 0), (q / 2, q / 2 - 1e-9))[0].shape)
        return sew(*pair, edge.aside(s)), (q / 2, s), 45
    half, diagonal = q / 2, Line((0, 0), (q, q))
    pair = [cut(cut(square(f, q), diagonal), Line((0, half), (q, half)).turned()) for f in ("light", "dark")]
    return sew(*pair, diagonal.aside(s)), _on(diagonal.aside(s), (0, half), half), 0


def _on(seam: Line, corner: Point, leg: float) -> Point:
    """The middle of a unit whose right angle lies at `corner`, upper left of a seam at 45°."""
    (x, y), rise = corner, seam.start[1] - seam.start[0]  # the seam is y = x + rise
    side = y - x - rise
    return x + side / 2, y - side / 2


def hourglass(q: float, s: float) -> tuple[Work, Point]:
    """One unit of a pair of squares, and its middle."""
    half, _, _ = half_squares("two at a time", q, s)
    rise = R * s
    first = Line((0, rise), (1, 1 + rise))  # the seam of the halves, and the diagonal of each
    other = flipped(half, first)  # face down, light upon dark
    middle = ((q - rise) / 2, (q + rise) / 2)
    across = Line(middle, (middle[0] + 1, middle[1] - 1))
    unit = sew(cut(half, across), cut(other, across), across.aside(s))
    return unit, (middle[0] + s / R, middle[1] + s / R)


def geese_of_four(w: float, small: float, s: float) -> tuple[Work, Point]:
    """One goose of a large and four small squares, and its point; its base lies below."""
    diagonal = Line((w, w), (0, 0))  # left of it lies the lower right half
    wings = square("wing", small) + square("wing", small, w - small, w - small)
    heart = sew(cut(square("middle", w), diagonal), cut(wings, diagonal), diagonal.aside(s))
    other = Line((w, 0), (0, w))  # left of it lies the lower left half
    last = square("wing", small, w - small, 0)
    return sew(cut(heart, other), cut(last, other), other.aside(s)), (w / 2, w / 2 - R * s)


def geese_with_corners(wide: float, high: float, small: float) -> tuple[Work, Point]:
    """One goose of a rectangle with a square on each end, and its point."""
    base = [square("middle", wide)[0]]
    base = cut(base, Line((wide, high), (0, high)))
    up_left, up_right = Line((small, small), (0, 0)), Line((wide, 0), (wide - small, small))
    base = sew(base, square("wing", small), up_left)
    base = sew(base, square("wing", small, wide - small), up_right)
    return base, (wide / 2, wide / 2)


def geese_of_triangles(
    w: float, small: float, s: float, tape: list[float] | None = None
) -> tuple[Work, Point]:
    """One goose of a quarter square and two half squares, and its point.

    A wing's upper edge is laid a seam above the point.
    """
    point = (w / 2, w / 2 - R * s)
    a = w / 2 + s - small  # where the wing's tip comes to lie, on the line of the middle's side
    wing = triangle("wing", (a, a), (a + small, a + small), (a + small, a))
    other = triangle("wing", (w - a, a), (w - a - small, a + small), (w - a - small, a))
    middle = triangle("middle", (0, 0), (w, 0), (w / 2, w / 2))
    goose = sew(middle, wing, Line((w, w), (0, 0)).aside(s), tape)
    return sew(goose, other, Line((w, 0), (0, w)).aside(s), tape), point


def in_a_square(c: float, corner: float, s: float, tape: list[float] | None = None) -> tuple[Work, Point]:
    """A centre with half squares on all its sides, and its middle: below and above, then left and right."""
    work, m = square("centre", c), c / 2
    reach, deep = corner * R / 2, corner / R
    below = triangle("corner", (m - reach, 0), (m + reach, 0), (m, deep))
    above = triangle("corner", (m - reach, c), (m + reach, c), (m, c - deep))
    left = triangle("corner", (0, m - reach), (0, m + reach), (deep, m))
    right = triangle("corner", (c, m - reach), (c, m + reach), (c - deep, m))
    work = sew(work, below, Line((0, 0), (c, 0)).aside(s), tape)
    work = sew(work, above, Line((c, c), (0, c)).aside(s), tape)
    work = sew(work, left, Line((0, c), (0, 0)).aside(s), tape)
    return sew(work, right, Line((c, 0), (c, c)).aside(s), tape), (m, m)
