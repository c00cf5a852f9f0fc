"""The most rectangles of one size in a sheet, by cuts from edge to edge in any number of stages.

A cut may always be moved to a sum of pieces' sides (a *normal pattern*: Christofides and Whitlock, "An
algorithm for two-dimensional cutting problems", Operations Research 25 (1977), from memory), so a table over
pairs of such sums holds the exact answer. Whole numbers only.
"""

from bisect import bisect_right
from typing import Literal, NamedTuple

MOST_WORK = 1_500_000
"""Cuts looked at in one table (about 0.3 s here); beyond it strips with stacks answer, not proved."""

MOST_SUMS = 2000
"""Sums along one side; beyond it only equal rows and columns are tried."""

CutAt = Literal["across", "along"]


class Node(NamedTuple):
    """A rectangle: cut at `at` into two, or (no `cut_at`) filled with `columns` × `rows` pieces."""

    across: int
    along: int
    pieces: int
    cut_at: CutAt | None
    at: int
    parts: tuple["Node", ...]
    columns: int
    rows: int
    turned: bool


class Piece(NamedTuple):
    """The one size, and whether it may turn."""

    across: int
    along: int
    may_turn: bool


def grid_of(piece: Piece, across: int, along: int) -> Node:
    """Fill a rectangle with equal rows and columns, the better way round."""
    best = Node(across, along, 0, None, 0, (), 0, 0, False)
    for turned in (False, True) if piece.may_turn else (False,):
        a, b = (piece.along, piece.across) if turned else (piece.across, piece.along)
        columns, rows = across // a, along // b
        if columns * rows > best.pieces:
            best = Node(across, along, columns * rows, None, 0, (), columns, rows, turned)
    return best


def sums(piece: Piece, most: int) -> list[int] | None:
    """List all sums of the piece's two sides up to `most`; None where they are too many to work with."""
    if most // piece.across + 1 > MOST_SUMS or most // piece.along + 1 > MOST_SUMS:
        return None
    found: set[int] = set()
    for first in range(0, most + 1, piece.across):
        found.update(range(first, most + 1, piece.along))
        if len(found) > MOST_SUMS:
            return None
    return sorted(found)


def most_pieces(piece: Piece, across: int, along: int) -> tuple[Node, bool]:
    """Give the best cutting found and whether it is proved the most."""
    plain = grid_of(piece, across, along)
    if not piece.may_turn or piece.across == piece.along:
        return plain, True  # rows and columns cannot be beaten where no piece may turn
    if plain.pieces == across * along // (piece.across * piece.along):
        return plain, True
    xs, ys = sums(piece, across), sums(piece, along)
    if xs is None or ys is None:
        return plain, False
    if len(xs) * len(ys) * (len(xs) + len(ys)) // 2 > MOST_WORK:
        found = max((plain, *_strips(piece, across, along, xs, ys)), key=lambda node: node.pieces)
        return found, found.pieces == across * along // (piece.across * piece.along)
    return _Table(piece, xs, ys).node(across, along), True


class _Table:
    """The most pieces for every pair of sums, the small ones first."""

    def __init__(self, piece: Piece, xs: list[int], ys: list[int]) -> None:
        self.piece, self.xs, self.ys = piece, xs, ys
        self.most = [[0] * len(ys) for _ in xs]
        self.cut: dict[tuple[int, int], tuple[CutAt, int]] = {}
        self.rest_x = [[_floor(xs, x - cut) for cut in xs if 2 * cut <= x] for x in xs]
        self.rest_y = [[_floor(ys, y - cut) for cut in ys if 2 * cut <= y] for y in ys]
        for i in range(len(xs)):
            for j in range(len(ys)):
                self._fill(i, j)

    def _fill(self, i: int, j: int) -> None:
        most, x, y = self.most, self.xs[i], self.ys[j]
        best = grid_of(self.piece, x, y).pieces
        limit = x * y // (self.piece.across * self.piece.along)
        if best < limit:
            for cut, rest in enumerate(self.rest_x[i]):
                if cut and most[cut][j] + most[rest][j] > best:
                    best = most[cut][j] + most[rest][j]
                    self.cut[i, j] = ("across", cut)
            row = most[i]
            for cut, rest in enumerate(self.rest_y[j]):
                if cut and row[cut] + row[rest] > best:
                    best = row[cut] + row[rest]
                    self.cut[i, j] = ("along", cut)
        most[i][j] = best

    def node(self, across: int, along: int) -> Node:
        """Read the cuts for one rectangle back out of the table."""
        i, j = _floor(self.xs, across), _floor(self.ys, along)
        if (i, j) not in self.cut:
            return grid_of(self.piece, across, along)
        cut_at, cut = self.cut[i, j]
        if cut_at == "across":
            at = self.xs[cut]
            parts = (self.node(at, along), self.node(across - at, along))
        else:
            at = self.ys[cut]
            parts = (self.node(across, at), self.node(across, along - at))
        return Node(across, along, self.most[i][j], cut_at, at, parts, 0, 0, False)


def _floor(values: list[int], limit: int) -> int:
    return bisect_right(values, limit) - 1


def _strips(piece: Piece, across: int, along: int, xs: list[int], ys: list[int]) -> list[Node]:
    """Cut strips with stacks, both directions: what `plan` can reach, for sheets too large for the table."""
    return [_strip_plan(piece, across, along, ys, "along"), _strip_plan(piece, across, along, xs, "across")]


def _strip_plan(piece: Piece, across: int, along: int, widths: list[int], cut_at: CutAt) -> Node:
    """Choose strip widths by a knapsack; `cut_at` along means strips that run across."""
    depth = along if cut_at == "along" else across

    def strip(width: int) -> Node:
        return _one_strip(piece, *((across, width) if cut_at == "along" else (width, along)), cut_at)

    filled = [strip(width) for width in widths]
    best = [0] * len(widths)
    chosen = [0] * len(widths)
    for place, room in enumerate(widths):
        for number in range(1, place + 1):
            worth = filled[number].pieces + best[_floor(widths, room - widths[number])]
            if worth > best[place]:
                best[place], chosen[place] = worth, number
    place, nodes = len(widths) - 1, []
    while chosen[place]:
        nodes.append(filled[chosen[place]])
        place = _floor(widths, widths[place] - widths[chosen[place]])
    return _chain(nodes, across, along, depth, cut_at)


def _one_strip(piece: Piece, across: int, along: int, cut_at: CutAt) -> Node:
    """Fill a strip with stacks of the one way, then of the other."""
    run, width = (across, along) if cut_at == "along" else (along, across)
    first, second = (piece.across, piece.along) if cut_at == "along" else (piece.along, piece.across)
    counts = range(run // first + 1)
    best = max(counts, key=lambda n: n * (width // second) + (run - n * first) // second * (width // first))
    at = best * first
    if cut_at == "along":
        return _split("across", at, grid_of(piece, at, along), grid_of(piece, across - at, along))
    return _split("along", at, grid_of(piece, across, at), grid_of(piece, across, along - at))


def _split(cut_at: CutAt, at: int, first: Node, second: Node) -> Node:
    """Join two parts by the cut between them; a part that measures nothing needs none."""
    if not first.across or not first.along:
        return second
    if not second.across or not second.along:
        return first
    beside = cut_at == "across"
    across = first.across + second.across if beside else first.across
    along = first.along if beside else first.along + second.along
    return Node(across, along, first.pieces + second.pieces, cut_at, at, (first, second), 0, 0, False)


def _chain(nodes: list[Node], across: int, along: int, depth: int, cut_at: CutAt) -> Node:
    """Put strips one after the other, the rest at the end, as cuts within cuts."""
    sizes = [node.along if cut_at == "along" else node.across for node in nodes]
    rest = depth - sum(sizes)
    tail = (across, rest) if cut_at == "along" else (rest, along)
    whole = Node(*tail, 0, None, 0, (), 0, 0, False)
    for node, size in zip(reversed(nodes), reversed(sizes), strict=True):
        whole = _split(cut_at, size, node, whole)
    return whole
