"""The kinds of value as annotations: what a calculator writes behind the name of a given or a found.

Every alias is a plain Python type with its kind attached, so a calculator works with ordinary exact
numbers and mypy sees just those: lengths are ``Fraction`` inches, counts ``int``, percents the number
of percent, times minutes. A rate and a thread number are values of a class of their own, which is the kind.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Annotated, NamedTuple, TypeAlias, TypeVar

from boltend.core import values


class Is(NamedTuple):
    """Marks an annotated type with the kind of value that it holds."""

    kind: str


Finished = Annotated[Fraction, Is("finished")]
Cut = Annotated[Fraction, Is("cut")]
Length = Annotated[Fraction, Is("length")]
Measured = Annotated[tuple[Fraction, ...], Is("measured")]
Area = Annotated[Fraction, Is("area")]
Count = Annotated[int, Is("count")]
Percent = Annotated[Fraction, Is("percent")]
Money = Annotated[values.Price, Is("price")]
Rate = values.Rate
Time = Annotated[Fraction, Is("time")]
ThreadNumber = values.ThreadNumber
PlainNumber = Annotated[Fraction, Is("number")]
YesNo = Annotated[bool, Is("yes_no")]
Fabric = Annotated[str, Is("fabric")]
Text = Annotated[str, Is("text")]
Colour = Annotated[str, Is("colour")]
TableRow = Annotated[Mapping[str, object], Is("table_row")]
"""A choice from a table: the person picks the row's name, the calculator gets the whole row."""

KIND_OF_CLASS: Mapping[object, str] = {Rate: "rate", ThreadNumber: "thread_number"}
"""Classes that are a kind by themselves: they annotate a given, and make a value of it when called."""

R = TypeVar("R")
Rows: TypeAlias = tuple[R, ...]
"""A table of row objects; the row class is made by `row`."""
