"""A fabric as the shop sees it: what it is, what is in hand, what it costs."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from boltend.core.contract import Settings, Table
from boltend.core.flow.basis import Basis
from boltend.core.project.model import FabricRow, Project
from boltend.core.values import KINDS, NotationError, Price

BOLT = "bolt"
PRECUTS = "precuts"
"""The table that a precut's name is looked up in; its rows have `width`, `length` and `pieces` a pack."""

Tables = Callable[[str], Table | None]


@dataclass(frozen=True)
class Precut:
    """A precut as its table has it: the size of one piece in inches, and how many are in a pack."""

    name: str
    width: Fraction
    length: Fraction
    pieces: int


@dataclass(frozen=True)
class Cloth:
    """One fabric of a project.

    `usable` is its width in inches as it is cut, after prewashing; `kept` the part of a bought length that
    prewashing leaves. `have` is the length (bolt) or the number of pieces (precut) in hand, `printed` the
    length that a pattern prints. `troubles` are what keeps it from being planned.
    """

    name: str
    settings: Settings
    precut: Precut | None = None
    price: Price | None = None
    have: Fraction = Fraction(0)
    one_way: bool = False
    colour: str = ""
    printed: Fraction | None = None
    troubles: tuple[str, ...] = ()

    @property
    def usable(self) -> Fraction:
        """The usable width in inches once prewashed."""
        return self.settings.usable_width * (1 - self.settings.prewash_across / 100)

    @property
    def kept(self) -> Fraction:
        """What prewashing leaves of a length."""
        return 1 - self.settings.prewash_along / 100

    @property
    def squaring(self) -> Fraction:
        """Inches lost to square the cloth, once; nothing for a precut unless it says so itself."""
        own = self.settings.fabrics.get(self.name, {})
        if self.precut is not None and "squaring" not in own:
            return Fraction(0)
        return self.settings.squaring


def unnamed(basis: Basis, tab: str) -> Cloth:
    """The heap of one tab whose pieces name no fabric: the project's own bolt, without a price."""
    return Cloth(tab, basis.settings)


def cloth_of(name: str, project: Project, basis: Basis, tables: Tables) -> Cloth:
    """Read one fabric of the project."""
    row = project.find_fabric(name)
    if row is None:  # a tab that names it cannot be worked out, so that nothing of it gets here
        return Cloth(name, basis.settings)
    reading = _Reading(row, basis)
    precut = reading.precut(tables)
    return Cloth(
        name=row.name,
        settings=basis.settings.on(row.name),
        precut=precut,
        price=reading.read("price", "price"),
        have=Fraction(reading.read("have", "count" if precut else "length") or 0),
        one_way=row.data.get("one_way") is True,
        colour=reading.read("colour", "colour") or "",
        printed=reading.read("printed", "length", "yd"),
        troubles=tuple(reading.troubles),
    )


class _Reading:
    """Reads the cells of one fabric, and keeps what cannot be read."""

    def __init__(self, row: FabricRow, basis: Basis) -> None:
        self.row, self.basis = row, basis
        self.troubles: list[str] = []

    def read(self, key: str, kind: str, unit: str = "") -> Any:
        raw = self.row.data.get(key)
        if raw is None:
            return None
        try:
            return KINDS[kind].from_toml(raw, self.basis.how, unit)
        except NotationError as error:
            self.troubles.append(f"{key.replace('_', ' ')}: {error}")
            return None

    def precut(self, tables: Tables) -> Precut | None:
        form = self.row.form.strip()
        if form in ("", BOLT):
            return None
        table = tables(PRECUTS)
        names = {name.casefold(): name for name in table.rows} if table else {}
        name = names.get(form.casefold())
        if table is None or name is None:
            offers = ", ".join(["bolt", *list(names.values())[:6]])
            self.troubles.append(f"there is no precut “{form}”. Its form is one of {offers}.")
            return None
        return precut_row(table.row(name))


def precut_row(row: Mapping[str, Any]) -> Precut:
    """A row of the table of precuts."""
    return Precut(str(row["name"]), row["width"], row["length"], int(row["pieces"] or 1))
