"""Units: exact factors, with pint as the authority.

A length, area or time is read and shown on every keystroke, and importing pint costs about 80 ms of the first
paint, so the few factors of those stand here as a table; the tests hold the table against pint and against
``scipy.constants``. Every other factor comes from pint on first need and is kept.
"""

from __future__ import annotations

from fractions import Fraction
from threading import Lock
from typing import TYPE_CHECKING, Any

from boltend.core.values.notation import Notation

if TYPE_CHECKING:
    import pint

INCHES = {
    "in": Fraction(1),
    "ft": Fraction(12),
    "yd": Fraction(36),
    "mm": Fraction(5, 127),
    "cm": Fraction(50, 127),
    "m": Fraction(5000, 127),
}
"""Inches in each unit of length. 1 in = 2.54 cm exactly (NIST Handbook 44, appendix C)."""

SQUARE_INCHES = {f"sq {name}": size * size for name, size in INCHES.items()}
"""Square inches in each unit of area."""

MINUTES = {"s": Fraction(1, 60), "min": Fraction(1), "h": Fraction(60)}
"""Minutes in each unit of time."""

METRIC = frozenset({"mm", "cm", "m", "sq mm", "sq cm", "sq m"})

_TO_METRIC = {"in": "cm", "ft": "cm", "yd": "m", "sq in": "sq cm", "sq ft": "sq cm", "sq yd": "sq m"}
_TO_INCHES = {"mm": "in", "cm": "in", "m": "yd", "sq mm": "sq in", "sq cm": "sq in", "sq m": "sq yd"}

_lock = Lock()
_registry: pint.UnitRegistry[Any] | None = None
_factors: dict[tuple[str, str], Fraction] = {}


def shown_unit(unit: str, how: Notation) -> str:
    """Return the unit that a project shows where a given declares `unit`.

    ``""`` is the system's own (in or cm). In a metric project yd becomes m, in and ft become cm; in an inch
    project m becomes yd, cm and mm become in; areas alike.
    """
    if not unit:
        return how.system
    return (_TO_METRIC if how.system == "cm" else _TO_INCHES).get(unit, unit)


def factor(unit: str, into: str) -> Fraction:
    """Return how many `into` one `unit` is, exactly: ``factor("yd", "in")`` is 36.

    Raises:
        ValueError: one of them is no unit of ours, or they measure different things.
    """
    for table in (INCHES, SQUARE_INCHES, MINUTES):
        if unit in table and into in table:
            return table[unit] / table[into]
    if (unit, into) not in _factors:
        _factors[unit, into] = _factor_by_pint(unit, into)
    return _factors[unit, into]


def tex_times(convention: str) -> Fraction:
    """Return k where a thread number n counted by length for a mass (Ne, Nm) is ``k / n`` tex."""
    key = (convention, "1/tex")
    if key not in _factors:
        ureg = registry()
        _factors[key] = _exact((1 / ureg.Quantity(Fraction(1), convention)).to("tex").magnitude)
    return _factors[key]


def registry() -> pint.UnitRegistry[Any]:
    """Return the one pint registry, made on first need; several threads may ask at once."""
    global _registry
    if _registry is None:
        with _lock:
            if _registry is None:
                _registry = _made_registry()
    return _registry


def _made_registry() -> pint.UnitRegistry[Any]:
    from importlib.resources import files

    import pint  # late, both: about 80 ms, and most runs never need it

    lines = files("boltend.core.values").joinpath("boltend_units.txt").read_text("utf-8").splitlines()
    return pint.UnitRegistry(lines, non_int_type=Fraction)


def _factor_by_pint(unit: str, into: str) -> Fraction:
    import pint  # late, see above

    ureg = registry()
    try:
        return _exact(ureg.Quantity(Fraction(1), _pint_name(unit)).to(_pint_name(into)).magnitude)
    except (pint.UndefinedUnitError, pint.DimensionalityError):
        # never str() the pint error: with Fractions it raises itself where an area is in it
        raise ValueError(f"{unit!r} cannot be turned into {into!r}") from None


def _pint_name(unit: str) -> str:
    return unit.replace(" ", "_")


def _exact(magnitude: object) -> Fraction:
    """Keep a float, that pint might let in, from passing for exact."""
    if isinstance(magnitude, int | Fraction):
        return Fraction(magnitude)
    raise TypeError(f"pint answered {type(magnitude).__name__}, not an exact number")
