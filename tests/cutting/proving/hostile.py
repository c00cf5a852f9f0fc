"""Demands that nobody should ask for. Also read by `tests/benchmarks/cutting_growth.py`."""

from fractions import Fraction

from boltend.core.cutting import Bolt, Part, Sheet, Stock

F = Fraction
BOLT = Stock(bolt=Bolt(F(42)))
SHEETS = Stock((Sheet("quarter", F(18), F(21)), Sheet("wide", F(44), F(44))))


def squares(side: str, count: int, name: str = "square") -> Part:
    """Squares of one size."""
    return Part(name, F(side), F(side), count)


DEMANDS = {
    "wider than the cloth": [squares("45", 4), Part("too long", F(50), F(2), 3, False), squares("6", 9)],
    "a million of one size": [squares("5/2", 1_000_000)],
    "a million of three sizes": [
        squares("21/8", 1_000_000),
        Part("b", F(3, 2), F(37, 8), 999_999),
        squares("9", 1 << 20, "c"),
    ],
    "400 singles": [Part(f"{n}", F(16 + n % 97, 8), F(24 + (n * 37) % 211, 8), 1) for n in range(400)],
    "dust": [Part("dust", F(1, 64), F(1, 32), 10**6), squares("40", 2)],
    "near ties": [Part(f"{n}", F(21) - F(n, 64), F(5) + F(n, 64), 9) for n in range(20)],
    "nothing and a piece": [squares("5", 0), squares("7", 1, "one")],
    "as fine as the grid goes": [Part("fine", F(5) + F(1, 238_000), F(4), 9), squares("3", 14)],
}
"""Each with its name."""
