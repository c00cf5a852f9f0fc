"""Our notation against pint's own parser, on texts that both read rightly.

pint gets a registry of its own of our small definitions file, with exact fractions; its answer is a quantity,
ours a number of inches. Of what people really write (`3 5/8`, `12½ in`) pint reads most wrongly: not here.
"""

from collections.abc import Sequence
from fractions import Fraction
from functools import partial
from importlib.resources import files

import pint
from figures import ROUNDS, Figure, figure, timed

from boltend.core.values import KINDS, Notation

TEXTS = ("3.5 inch", "2 yard", "32 cm", "1.5 m", "0.25 yd", "12 in", "5 ft")
TIMES = 500


def figures() -> Sequence[Figure]:
    """One line a text."""
    lines = files("boltend.core.values").joinpath("boltend_units.txt").read_text("utf-8").splitlines()
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(lines, non_int_type=Fraction)
    return [_figure(text, registry) for text in TEXTS]


def _figure(text: str, registry: "pint.UnitRegistry[Fraction]") -> Figure:
    read = partial(KINDS["length"].read, text, Notation())
    parse = partial(registry.parse_expression, text)
    inches = parse().to("inch").magnitude
    if read() != inches:
        raise ValueError(f"{text!r} is {read()} in to us and {inches} in to pint: no text to compare on")
    taken = [(timed(read, TIMES), timed(parse, TIMES)) for _ in range(ROUNDS)]
    return figure(f"parsing {text!r} against pint", [t[0] for t in taken], [t[1] for t in taken])
