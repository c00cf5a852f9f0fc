"""The keys of a project file and the types that they take, as settled in the design ("File keys")."""

from __future__ import annotations

from typing import Literal

Form = Literal["text", "size", "percent", "count", "truth", "any", "table", "list"]

ROOT: dict[str, Form] = {
    "boltend": "count", "project": "table", "fabric": "list", "tab": "list", "ladder": "list", "row": "list",
}  # fmt: skip

PROJECT: dict[str, Form] = {
    "name": "text", "notes": "text", "currency": "text", "units": "text", "seam": "size",
    "usable_width": "size", "overage": "size", "squaring": "size", "buying_step": "size",
    "cutting_step": "size", "size_step": "size",
    "layers": "count", "prewash_across": "percent", "prewash_along": "percent", "copies": "count",
}  # fmt: skip

FABRIC: dict[str, Form] = {
    "name": "text", "form": "text", "usable_width": "size", "squaring": "size", "prewash_across": "percent",
    "prewash_along": "percent", "price": "size", "have": "size", "one_way": "truth", "colour": "text",
    "printed": "size",
}  # fmt: skip

TAB: dict[str, Form] = {
    "name": "text", "calculator": "text", "aside": "truth", "done": "truth", "note": "text", "given": "table",
}  # fmt: skip

LADDER: dict[str, Form] = {
    "name": "text", "tab": "text", "given": "text", "values": "list", "take": "any",
}  # fmt: skip

LINK: dict[str, Form] = {"from": "text", "take": "text"}
