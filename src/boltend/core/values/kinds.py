"""The kinds of value, by the names of the vocabulary.

Inside, a value is:

- ``finished``, ``cut``, ``length``: inches (Fraction); ``measured``: a tuple of cut inches
- ``area``: square inches (Fraction); ``time``: minutes (Fraction); ``percent``, ``number``: a Fraction
- ``count``: an int; ``yes_no``: a bool; ``price``, ``rate``, ``thread_number``: a Price, Rate, ThreadNumber
- ``choice``, ``fabric``, ``text``, ``colour``: a str
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from boltend.core.values.kind import Kind
from boltend.core.values.kinds_length import CUT_KIND, FINISHED_KIND, PLAIN_KIND, AreaKind, MeasuredKind
from boltend.core.values.kinds_money import PriceKind
from boltend.core.values.kinds_number import CountKind, NumberKind, PercentKind, TimeKind
from boltend.core.values.kinds_rate import RateKind
from boltend.core.values.kinds_text import ChoiceKind, ColourKind, TextKind, YesNoKind
from boltend.core.values.kinds_thread import ThreadNumberKind

KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        kind.name: kind
        for kind in (
            FINISHED_KIND,
            CUT_KIND,
            PLAIN_KIND,
            MeasuredKind(),
            AreaKind(),
            CountKind(),
            PercentKind(),
            PriceKind(),
            RateKind(),
            TimeKind(),
            ThreadNumberKind(),
            NumberKind(),
            ChoiceKind(()),  # knows no option: a given makes its own with the options that it offers
            YesNoKind(),
            TextKind("fabric", may_be_empty=False),
            TextKind("text", may_be_empty=True),
            ColourKind(),
        )
    }
)
"""Every kind but rows, which the contract makes of these."""
