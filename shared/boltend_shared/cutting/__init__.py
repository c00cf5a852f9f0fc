"""Published packing instances with their published values, each with its source: see `README.md` beside."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

_FOLDER = Path(__file__).parent

FILES = ("cintra2008_vsbp_2nho", "class_2bp_50", "hopper_turton_C", "knapsack_two_stage")


@dataclass(frozen=True, slots=True)
class Item:
    """`copies` rectangles of one size in the source's own unit; `profit` of one is its area if not given."""

    width: int
    height: int
    copies: int
    profit: int


@dataclass(frozen=True, slots=True)
class Bin:
    """A sheet in the source's own unit; without a height it is an endless strip. `cost` is its area if not
    given.
    """

    width: int
    height: int | None
    cost: int


@dataclass(frozen=True)
class Instance:
    """One instance. `published` holds all else that the file says of it; decimal numbers are Fractions."""

    name: str
    bins: tuple[Bin, ...]
    items: tuple[Item, ...]
    published: Mapping[str, Any]

    @property
    def copies(self) -> int:
        """How many rectangles there are in all."""
        return sum(item.copies for item in self.items)

    @property
    def area(self) -> int:
        """The area of all of them."""
        return sum(item.width * item.height * item.copies for item in self.items)


def instances(file: str) -> tuple[Instance, ...]:
    """The instances of one of `FILES`, in the file's order.

    Raises:
        ValueError: there is no file of that name.
    """
    return tuple(_instance(each) for each in _read(file)["instances"])


def source_of(file: str) -> str:
    """Where the instances and the values of one of `FILES` come from, as the file itself says.

    Raises:
        ValueError: there is no file of that name.
    """
    data = _read(file)
    return f"{data['source']}; values: {data['value_source']}"


@cache
def _read(file: str) -> Mapping[str, Any]:
    if file not in FILES:
        raise ValueError(f"no file of instances is named {file!r}; there are {', '.join(FILES)}")
    text = (_FOLDER / f"{file}.json").read_text(encoding="utf-8")
    data: Mapping[str, Any] = json.loads(text, parse_float=Fraction)
    return data


def _instance(data: Mapping[str, Any]) -> Instance:
    items = tuple(
        Item(each["w"], each["h"], each["n"], each.get("profit", each["w"] * each["h"]))
        for each in data["items"]
    )
    published = {key: value for key, value in data.items() if key not in ("name", "items", "bins", "bin")}
    return Instance(data["name"], tuple(_bins(data)), items, published)


def _bins(data: Mapping[str, Any]) -> Sequence[Bin]:
    if "width" in data:  # a strip without an end
        return [Bin(data["width"], None, 0)]
    sheets = data["bins"] if "bins" in data else [data["bin"]]
    return [Bin(s["width"], s["height"], s.get("cost", s["width"] * s["height"])) for s in sheets]
