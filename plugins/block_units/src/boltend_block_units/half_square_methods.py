"""The three ways to sew half-square triangles from squares, as exact arithmetic. All lengths in inches."""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from fractions import Fraction

from boltend.plugin import ROOT2, cut, finished, length
from boltend_block_units.parts import Exact, chord, half_square
from boltend_block_units.words import larger


class Method(ABC):
    """One way: `units` come out of a pair of squares, `sewn` says how, `bias_edges` whether they stretch."""

    units: int
    sewn: str
    seams_in_words: str
    bias_edges = False

    @abstractmethod
    def square(self, size: Fraction, oversize: Fraction, seam: Fraction) -> Exact:
        """The least square for units of a finished size, each made so much larger."""

    @abstractmethod
    def as_sewn(self, square: Fraction, seam: Fraction) -> Exact:
        """The raw edge of a unit before it is trimmed."""

    @abstractmethod
    def sum_in_words(
        self, size: Fraction, oversize: Fraction, seam: Fraction
    ) -> tuple[str, tuple[object, ...]]:
        """The sum that gives the square."""

    @abstractmethod
    def seams(self, square: Fraction, seam: Fraction) -> Exact:
        """All seams of one pair of squares, raw edge to raw edge."""

    def seam_values(self, square: Fraction, seam: Fraction) -> tuple[object, ...]:
        """The values for `seams_in_words`."""
        return cut(square), length(seam)


class Two(Method):
    """Sewn on both sides of one diagonal, and cut on it."""

    units = 2
    sewn = "sewn a seam away from both sides of a diagonal and cut on it"
    seams_in_words = "2 × ({} × √2 − 2 × {})"

    def square(self, size: Fraction, oversize: Fraction, seam: Fraction) -> Exact:
        """f + s(2 + √2)."""
        return half_square(size + oversize, seam)

    def as_sewn(self, square: Fraction, seam: Fraction) -> Exact:
        """Square less s√2: the seam takes so much of each raw leg."""
        return square - seam * ROOT2

    def sum_in_words(
        self, size: Fraction, oversize: Fraction, seam: Fraction
    ) -> tuple[str, tuple[object, ...]]:
        """As it is summed."""
        words, values = larger("{}", finished(size), oversize)
        return words + " + {} × (2 + √2)", (*values, length(seam))

    def seams(self, square: Fraction, seam: Fraction) -> Exact:
        """Two seams beside the diagonal."""
        return 2 * chord(square, seam)


class Four(Method):
    """Sewn all round, and cut on both diagonals."""

    units = 4
    sewn = "sewn all round, a seam from the edge, and cut on both diagonals"
    seams_in_words = "4 × {}"
    bias_edges = True

    def square(self, size: Fraction, oversize: Fraction, seam: Fraction) -> Exact:
        """(f + 2s)√2 + 2s: the unit's diagonal is the finished side of the square."""
        return (size + oversize + 2 * seam) * ROOT2 + 2 * seam

    def as_sewn(self, square: Fraction, seam: Fraction) -> Exact:
        """(Square − 2s) ÷ √2."""
        return (square - 2 * seam) / ROOT2

    def sum_in_words(
        self, size: Fraction, oversize: Fraction, seam: Fraction
    ) -> tuple[str, tuple[object, ...]]:
        """As it is summed."""
        words, values = larger("{}", finished(size), oversize)
        return f"({words} + 2 × {{}}) × √2 + 2 × {{}}", (*values, length(seam), length(seam))

    def seams(self, square: Fraction, seam: Fraction) -> Exact:
        """Four seams along the edges."""
        return Fraction(4 * square)

    def seam_values(self, square: Fraction, seam: Fraction) -> tuple[object, ...]:
        """The square alone."""
        return (cut(square),)


class Eight(Method):
    """Sewn on both sides of both diagonals, and cut on these and across the middles."""

    units = 8
    sewn = "sewn a seam away from both sides of both diagonals, cut across both middles and on the diagonals"
    seams_in_words = "4 × ({} × √2 − 2 × {})"

    def square(self, size: Fraction, oversize: Fraction, seam: Fraction) -> Exact:
        """2f + 2s(2 + √2): twice the square of two at a time."""
        return 2 * half_square(size + oversize, seam)

    def as_sewn(self, square: Fraction, seam: Fraction) -> Exact:
        """As two at a time, from a quarter of the square."""
        return square / 2 - seam * ROOT2

    def sum_in_words(
        self, size: Fraction, oversize: Fraction, seam: Fraction
    ) -> tuple[str, tuple[object, ...]]:
        """As it is summed."""
        words, values = larger("{}", finished(size), oversize)
        return f"2 × ({words}) + 2 × {{}} × (2 + √2)" if oversize else "2 × {} + 2 × {} × (2 + √2)", (
            *values,
            length(seam),
        )

    def seams(self, square: Fraction, seam: Fraction) -> Exact:
        """Four seams beside the diagonals."""
        return 4 * chord(square, seam)


METHODS: Mapping[str, Method] = {"two at a time": Two(), "four at a time": Four(), "eight at a time": Eight()}
"""By the name that a person chooses."""
