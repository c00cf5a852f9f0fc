"""A sheet of paper as blocks: what the back ends set, each in its own way.

Every text in it can be seen (`visible`) and is plain: a back end escapes it as its own form needs.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from boltend.core.contract import Shape
from boltend.core.drawing import Mark
from boltend.core.values import Number

TextLook = Literal["plain", "faint", "caution"]
"""How a paragraph looks: faint is an aside, a caution stands in a frame."""


@dataclass(frozen=True)
class Heading:
    """A heading of level 1 (the sheet's own) to 3. `key` names the place, unlike any other on the sheet."""

    words: str
    level: Literal[1, 2, 3]
    key: str


@dataclass(frozen=True)
class Text:
    """A paragraph. `own` tells that a person wrote it: it may read from right to left as a whole."""

    words: str
    look: TextLook = "plain"
    own: bool = False


@dataclass(frozen=True)
class Items:
    """A list of lines, below a title where there is one; `ordered` is followed from first to last."""

    title: str
    lines: tuple[str, ...]
    ordered: bool = False
    caution: bool = False


@dataclass(frozen=True)
class Row:
    """Cells, the first of which names the row; `notes` stand small below it."""

    cells: tuple[str, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Table:
    """Rows under labelled columns; those in `right` stand at the right of their column; `total` ends it.

    The column `grows` takes what is left of the page's width; None: the table is only as wide as it must be.
    """

    title: str
    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    right: frozenset[int] = frozenset()
    total: Row | None = None
    grows: int | None = None


@dataclass(frozen=True)
class Picture:
    """Shapes in inches with what stands beside them.

    `show` says the overall size; None where `marks` say all. `key` has a line for each letter in it,
    `shorter` a shorter word for a label without room, `colours` are the fabrics' as #rrggbb. `room` is the
    width and height (points) that it may take.
    """

    title: str
    shapes: tuple[Shape, ...]
    show: Callable[[Number], str] | None = None
    marks: tuple[Mark, ...] = ()
    shorter: Mapping[str, str] = field(default_factory=dict)
    key: tuple[str, ...] = ()
    colours: Mapping[str, str] = field(default_factory=dict)
    room: tuple[float, float] = (300.0, 270.0)
    all_told: bool = False
    """Whether the legend tells what each fill is for even where the picture's own words do."""
    facts: Mapping[str, str] = field(default_factory=dict)
    """What the legend says more of parts, by label or fill: how large they are."""


Block: TypeAlias = Heading | Text | Items | Table | Picture


@dataclass(frozen=True)
class Sheet:
    """All blocks, first thing first. `name` is the project's, `one_page` says that it is to fit on one."""

    name: str
    blocks: tuple[Block, ...]
    one_page: bool = False

    def pictures(self) -> Sequence[Picture]:
        """The pictures in the order of the sheet."""
        return [block for block in self.blocks if isinstance(block, Picture)]
