"""Exact values: numbers, kinds, reading and showing, units."""

from boltend.core.values.errors import NotationError, is_unseen, visible
from boltend.core.values.kind import Kind
from boltend.core.values.kinds import KINDS
from boltend.core.values.kinds_length import counted, listed
from boltend.core.values.kinds_money import per_length
from boltend.core.values.kinds_rate import convert_rate, rate_unit
from boltend.core.values.kinds_text import ChoiceKind
from boltend.core.values.kinds_thread import CONVENTIONS, tex
from boltend.core.values.lengths import (
    about_length,
    also_length,
    convert_length,
    read_length,
    show_length,
)
from boltend.core.values.notation import Notation, System
from boltend.core.values.numbers import (
    ROOT2,
    Number,
    Surd,
    ceil_div,
    decimal_text,
    down,
    floor_div,
    nearest,
    up,
)
from boltend.core.values.types import Per, Price, Rate, ThreadNumber, Value
from boltend.core.values.units import factor, shown_unit

__all__ = [
    "CONVENTIONS",
    "KINDS",
    "ROOT2",
    "ChoiceKind",
    "Kind",
    "Notation",
    "NotationError",
    "Number",
    "Per",
    "Price",
    "Rate",
    "Surd",
    "System",
    "ThreadNumber",
    "Value",
    "about_length",
    "also_length",
    "ceil_div",
    "convert_length",
    "convert_rate",
    "counted",
    "decimal_text",
    "down",
    "factor",
    "floor_div",
    "is_unseen",
    "listed",
    "nearest",
    "per_length",
    "rate_unit",
    "read_length",
    "show_length",
    "shown_unit",
    "tex",
    "up",
    "visible",
]
