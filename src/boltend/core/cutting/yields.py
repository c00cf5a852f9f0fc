"""The most pieces of one size out of one sheet, with the cuts that give them, in inches."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from boltend.core.cutting.grid import Grid
from boltend.core.cutting.guillotine import CutAt, Node, Piece, most_pieces


@dataclass(frozen=True, slots=True)
class Block:
    """A rectangle of the sheet cut into `columns` × `rows` equal pieces; with none it is left over.

    `piece_across` × `piece_along` is one piece as it lies (turned or not).
    """

    across_from: Fraction
    along_from: Fraction
    across: Fraction
    along: Fraction
    columns: int
    rows: int
    turned: bool
    piece_across: Fraction
    piece_along: Fraction


@dataclass(frozen=True, slots=True)
class Split:
    """A cut from edge to edge: the part before it measures `at` (across or along), then the rest."""

    cut_at: CutAt
    at: Fraction
    first: "Split | Block"
    second: "Split | Block"


@dataclass(frozen=True, slots=True)
class Yield:
    """How many pieces and the cuts that give them; `proved` is no where the sizes passed the search's cap.

    `one_way` is what rows and columns alone give, all pieces lying alike.
    """

    pieces: int
    one_way: int
    layout: Split | Block
    proved: bool

    def blocks(self) -> tuple[Block, ...]:
        """List the rectangles that hold pieces, in the order of the cuts."""
        return tuple(block for block in _leaves(self.layout) if block.columns)

    def rests(self) -> tuple[Block, ...]:
        """List the rectangles left over: beside the blocks, and (not cut apart) within them."""
        return tuple(block for block in _leaves(self.layout) if not block.columns)


def _leaves(node: Split | Block) -> Iterator[Block]:
    if isinstance(node, Block):
        yield node
    else:
        yield from _leaves(node.first)
        yield from _leaves(node.second)


def yield_of(part: tuple[Fraction, Fraction, bool], sheet: tuple[Fraction, Fraction]) -> Yield:
    """Cut as many pieces (across, along, may it turn) as can be from one sheet (across, along), in inches.

    Cuts run from edge to edge in any number of stages. The answer is exact (`proved`) unless the sheet is so
    large beside the piece that the table would pass `guillotine.MOST_WORK` cuts; then the best plan of strips
    with stacks answers, which is also what `plan` can reach. Worked number: 3 1/2 × 6 1/2 in out of a 10 in
    square gives 3 (all lying alike 2; the pinwheel's 4 cannot be cut from edge to edge).
    """
    across, along, may_turn = part
    if min(across, along, *sheet) <= 0:
        raise ValueError("a piece and a sheet must measure more than nothing")
    grid = Grid.of([across, along, *sheet])
    piece = Piece(grid.up(across), grid.up(along), may_turn)
    node, proved = most_pieces(piece, grid.down(sheet[0]), grid.down(sheet[1]))
    fixed = [(sheet[0] // across) * (sheet[1] // along)]
    turned = [(sheet[0] // along) * (sheet[1] // across)] if may_turn else []
    layout = _layout(node, 0, 0, piece, grid)
    return Yield(node.pieces, max(fixed + turned), layout, proved and grid.exact)


def _layout(node: Node, x: int, y: int, piece: Piece, grid: Grid) -> Split | Block:
    """Give the tree of cuts in inches, each block with its place."""
    if node.cut_at is None:
        lying = (piece.along, piece.across) if node.turned else (piece.across, piece.along)
        place = (grid.inches(x), grid.inches(y), grid.inches(node.across), grid.inches(node.along))
        size = (grid.inches(lying[0]), grid.inches(lying[1]))
        return Block(*place, node.columns, node.rows, node.turned, *size)
    first, second = node.parts
    after = (x + node.at, y) if node.cut_at == "across" else (x, y + node.at)
    return Split(
        node.cut_at,
        grid.inches(node.at),
        _layout(first, x, y, piece, grid),
        _layout(second, *after, piece, grid),
    )
