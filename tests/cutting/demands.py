"""The demands and figures of `cutting.md` ("Measured in November 2026 on a machine of 2 cores, Python 3.11").

Q01-Q11 and Q17-Q20: usable width 42 in, pieces (across, along, copies, may turn), and from the table "Bolt,
two-stage" the columns "area bound" and "(a) best level", from "what a third stage saves" the 3-stage best;
sheet tasks: columns "area bound", "LP bound" (rounded up) and "(a) level FFD". Sizes in inches. `SIMPLE`,
`FEWEST` and `MIXED` are the best answers of the proving prototype measured there.
"""

from fractions import Fraction

from boltend.core.cutting import Part

Piece = tuple[str, str, int, bool]


def square(side: str, count: int) -> Piece:
    return side, side, count, True


def oblong(across: str, along: str, count: int, may_turn: bool = True) -> Piece:
    return across, along, count, may_turn


LOGS = [f"{n}.5" for n in range(2, 12)]
GEESE = [square("5.25", 96), square("2.875", 384), oblong("2.5", "4.5", 200)]
CHAIN = [square("2.5", 725), oblong("2.5", "6.5", 48), oblong("6.5", "10.5", 24)]

# name: pieces, area bound, best level (two stages), best with stacks (proved least within the stack rule)
BOLT: dict[str, tuple[list[Piece], str, str, str]] = {
    "Q01": (
        [oblong("42", "2.5", 60, False), square("6.5", 32), square("18.25", 14)],
        "293.25",
        "316.75",
        "316.75",
    ),
    "Q02": (
        [square("18.25", 5), square("9.375", 2), oblong("2.5", "12.5", 120), square("2.5", 49)],
        "140.438",
        "152.25",
        "147.25",
    ),
    "Q03": ([oblong("1.5", log, 42) for log in LOGS], "105", "106.5", "105"),
    "Q04": ([square("2.5", 405), square("6.5", 44)], "104.562", "114.5", "106.5"),
    "Q05": (CHAIN, "165.5", "171.5", "167.5"),
    "Q06": ([square("5.25", 80), square("4.5", 100), oblong("2.5", "12.5", 31)], "123.812", "127", "126"),
    "Q07": ([square("4.875", 288), square("8.5", 31)], "216.312", "238.625", "233.875"),
    "Q08": (GEESE, "192.188", "198.5", "193"),
    "Q09": ([oblong("40", "90", 3, False)], "257.188", "270", "270"),
    "Q10": (
        [
            oblong("42", "6.5", 8, False),
            oblong("42", "2.25", 9, False),
            square("6.5", 4),
            square("6.875", 18),
        ],
        "96.562",
        "99.375",
        "99.375",
    ),
    "Q11": (
        [
            oblong("6.5", "78.5", 2, False),
            oblong("6.5", "90.5", 2, False),
            square("4.5", 64),
            oblong("8.5", "4.5", 28),
        ],
        "108.688",
        "147.5",
        "120.5",
    ),
    "Q17": (
        [square("2.5", 2000), oblong("1.5", "4.5", 400), oblong("4.5", "8.5", 120)],
        "471.25",
        "494.5",
        "471.5",
    ),
    "Q18": (
        [oblong("12.5", "20.5", 3), square("8.375", 4), oblong("3.5", "16.25", 3)],
        "29.062",
        "36.75",
        "32.375",
    ),
    "Q19": (
        [
            oblong("1.5", "20.5", 40),
            oblong("2.5", "21", 22),
            oblong("3.5", "18.5", 16),
            oblong("1.25", "36.5", 8),
            square("2.5", 90),
            square("5.5", 30),
        ],
        "125.188",
        "133",
        "126",
    ),
    "Q20": (
        [
            square("36.5", 1),
            oblong("12.5", "36.5", 4),
            square("12.5", 4),
            square("6.875", 8),
            square("8.375", 24),
            oblong("3.5", "24.5", 8),
            oblong("4.5", "10.25", 26),
            oblong("42", "2.5", 10, False),
        ],
        "209.062",
        "233.75",
        "214",
    ),
}

# name: pieces, sheet, area bound, LP bound (two stages), level FFD
SHEETS: dict[str, tuple[list[Piece], tuple[str, str], int, int, int]] = {
    "S01": (BOLT["Q04"][0], ("18", "21"), 12, 13, 13),
    "S02": (CHAIN, ("18", "21"), 19, 20, 20),
    "S03": (BOLT["Q06"][0], ("18", "21"), 14, 15, 16),
    "S04": (BOLT["Q07"][0], ("18", "21"), 25, 32, 32),
    "S05": (GEESE, ("18", "21"), 22, 23, 24),
    "S06": (BOLT["Q03"][0], ("18", "21"), 12, 12, 12),
    "S11": (GEESE, ("10", "10"), 81, 113, 116),
    "S12": (BOLT["Q03"][0][:8], ("10", "10"), 31, 34, 35),
    "S14": (CHAIN[:2], ("42", "2.5"), 51, 52, 53),
}

# The column "(b) 6 s" of the table "Bolt, two-stage": each of these is marked as proved least.
SIMPLE = {
    "Q01": "316.75",
    "Q02": "152.25",
    "Q03": "105",
    "Q04": "114.5",
    "Q05": "169",
    "Q06": "127",
    "Q07": "238.625",
    "Q08": "195.75",
    "Q09": "270",
    "Q10": "99.375",
    "Q11": "147.5",
    "Q17": "486.5",
    "Q18": "32.375",
    "Q19": "131",
    "Q20": "222.25",
}

# Sheets: the columns "(b) 6 s" and "(b) 3-stage", each marked as proved least.
FEWEST = {
    "S01": (13, 13),
    "S02": (20, 20),
    "S03": (15, 15),
    "S04": (32, 32),
    "S05": (23, 23),
    "S06": (12, 12),
    "S11": (113, 104),
    "S12": (34, 34),
    "S14": (52, 52),
}

# S15: the geese from cloth in hand (across, along, how many), least area in square inches; "LP bound",
# "(b) 6 s" and "(b) 3-stage", neither of them proved.
MIXED = (GEESE, [("18", "21", 8), ("10", "10", 60), ("42", "2.5", 40)], 9538, 9549, 9444)


def parts(pieces: list[Piece]) -> list[Part]:
    return [
        Part(f"p{n}", Fraction(across), Fraction(along), count, may_turn)
        for n, (across, along, count, may_turn) in enumerate(pieces)
    ]
