"""A fabric as the shop sees it: what it is, what is in hand, what it costs."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from boltend.core.contract import Line, Settings, Table
from boltend.core.flow.basis import Basis
from boltend.core.pool.agreed import agreed_settings
from boltend.core.pool.heaps import Heap
from boltend.core.pool.snapshot import PRECUTS, Snapshot
from boltend.core.pool.strips import Room
from boltend.core.project.model import FabricRow
from boltend.core.values import KINDS, NotationError, Price

BOLT = "bolt"


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

    `settings` are those that the pool cuts it by. `have` is the length in inches (bolt) or the number of
    pieces (precut) in hand, `printed` the length that a pattern prints. `hinders` is what keeps it from
    being planned, `troubles` what else is wrong with it: that is left out, and the rest is planned.
    """

    name: str
    settings: Settings
    precut: Precut | None = None
    price: Price | None = None
    have: Fraction = Fraction(0)
    one_way: bool = False
    colour: str = ""
    printed: Fraction | None = None
    hinders: tuple[str, ...] = ()
    troubles: tuple[str, ...] = ()
    notes: tuple[Line, ...] = ()

    @property
    def usable(self) -> Fraction:
        """The usable width of a bolt in inches, once prewashed."""
        return self.washed(self.settings.usable_width)

    @property
    def kept(self) -> Fraction:
        """What prewashing leaves of a length: 1 is all of it."""
        return 1 - self.settings.prewash_along / 100

    @property
    def squaring(self) -> Fraction:
        """Inches lost to square each piece of cloth that is cut into, once."""
        return self.settings.squaring

    @property
    def room(self) -> Room:
        """What strips are cut from: the bolt, or one piece of the precut."""
        step = self.settings.cutting_step
        if self.precut is None:
            return Room(self.usable, None, step)
        across, along = self.washed(self.precut.width), self.precut.length * self.kept
        return Room(across - self.squaring, along - self.squaring, step)

    def washed(self, width: Fraction) -> Fraction:
        """What prewashing leaves of a width in inches."""
        return width * (1 - self.settings.prewash_across / 100)


def cloth_of(heap: Heap, snapshot: Snapshot) -> Cloth:
    """Read the fabric of a heap; the heap of a tab whose pieces name none is the project's plain bolt."""
    project, basis = snapshot.project, snapshot.basis
    shares = [(share.tab, share.settings) for share in heap.shares]
    row = None if heap.fabric is None else project.find_fabric(heap.fabric)
    if row is None:
        settings, notes = agreed_settings(shares, {}, precut=False)
        unknown = () if heap.fabric is None else (f"the project has no fabric “{heap.fabric}”.",)
        return Cloth(heap.name, settings, have=heap.have, printed=heap.printed, troubles=unknown, notes=notes)
    reading = _Reading(row, basis)
    precut = reading.precut(snapshot.precuts)
    settings, notes = agreed_settings(
        shares, basis.settings.fabrics.get(heap.fabric or "", {}), precut=precut is not None
    )
    return Cloth(
        name=row.name,
        settings=settings,
        precut=precut,
        price=reading.price(of_bolt=precut is None),
        have=heap.have if precut is None and "have" not in row.data else reading.have(of_bolt=precut is None),
        one_way=reading.one_way(),
        colour=reading.read("colour", "colour") or "",
        printed=reading.printed() or heap.printed,
        hinders=tuple(reading.hinders),
        troubles=tuple(reading.troubles),
        notes=notes,
    )


class _Reading:
    """Reads the cells of one fabric, and keeps what cannot be read."""

    def __init__(self, row: FabricRow, basis: Basis) -> None:
        self.row, self.basis = row, basis
        self.hinders: list[str] = []
        self.troubles: list[str] = []

    def read(self, key: str, kind: str, unit: str = "") -> Any:
        raw = self.row.data.get(key)
        if raw is None:
            return None
        try:
            return KINDS[kind].from_toml(raw, self.basis.how, unit)
        except NotationError as error:
            self.troubles.append(f"{key}: {error}")
            return None

    def have(self, *, of_bolt: bool) -> Fraction:
        value = self.read("have", "length", "yd") if of_bolt else self.read("have", "count")
        if value is not None and value < 0:
            self.troubles.append("have: it must not be less than nothing.")
        return Fraction(max(0, value or 0))

    def price(self, *, of_bolt: bool) -> Price | None:
        """A bare number is for a yard or metre of a bolt, and for a pack (or a single piece) of a precut."""
        price: Price | None = self.read("price", "price", "yd" if of_bolt else "")
        if price is None or (price.per is not None) == of_bolt:
            return price
        said = "a bolt is priced by the yard or the metre: write “12.50 per yard”."
        self.troubles.append(f"price: {said if of_bolt else 'a precut is priced each: write “12.50”.'}")
        return None

    def printed(self) -> Fraction | None:
        value: Fraction | None = self.read("printed", "length", "yd")
        if value is not None and value <= 0:
            self.troubles.append("printed: it must be more than nothing.")
            return None
        return value

    def one_way(self) -> bool:
        raw = self.row.data.get("one_way", False)
        if not isinstance(raw, bool):
            self.troubles.append("one way: write true or false. It is cut as a one-way print to be safe.")
        return raw is not False

    def precut(self, table: Table | None) -> Precut | None:
        """The precut that the fabric's form names; None for a bolt, or where there is no such precut."""
        form = self.row.data.get("form") or BOLT
        wanted = form.strip().casefold() if isinstance(form, str) else ""
        if wanted in ("", BOLT) and isinstance(form, str):
            return None
        names = {name.casefold(): name for name in table.rows} if table else {}
        if table is None or wanted not in names:
            offers = ", ".join([BOLT, *list(names.values())[:6]])
            self.hinders.append(f"there is no precut {form!r:.60}. Its form is one of {offers}.")
            return None
        return self._precut_row(names[wanted], table.row(names[wanted]))

    def _precut_row(self, name: str, row: Mapping[str, Any]) -> Precut | None:
        width, length, pieces = row.get("width"), row.get("length"), row.get("pieces")
        if not width or not length or width <= 0 or length <= 0:
            self.hinders.append(f"the table of {PRECUTS} does not say how large “{name}” is.")
            return None
        return Precut(name, width, length, max(1, int(pieces or 1)))


def at_width(cloth: Cloth, usable_width: Fraction) -> Cloth:
    """The same cloth off a bolt of another usable width, in inches before prewashing."""
    return replace(cloth, settings=replace(cloth.settings, usable_width=usable_width))
