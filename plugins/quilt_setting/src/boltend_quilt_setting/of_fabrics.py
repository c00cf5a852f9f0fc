"""Parts of a picture in the fabric that is chosen for their role."""

from collections.abc import Mapping, Sequence
from typing import TypeVar

from boltend.plugin import Polygon, Rect

Part = TypeVar("Part", Rect, Polygon)


def of_fabrics(parts: Sequence[Part], fabrics: Mapping[str, str | None]) -> list[Part]:
    """The parts, those of a role that has a fabric filled with it and labelled with their role."""
    return [
        part._replace(fill=fabric, label=part.fill) if (fabric := fabrics.get(part.fill)) else part
        for part in parts
    ]
