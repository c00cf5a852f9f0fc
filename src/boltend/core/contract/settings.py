"""Settings: what holds for a whole project unless a fabric, a tab or a calculator says otherwise."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from difflib import get_close_matches
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from boltend.core.values import Notation, Number, up

SETTING_KINDS: dict[str, str] = {
    "seam": "length",
    "usable_width": "length",
    "overage": "length",
    "squaring": "length",
    "layers": "count",
    "prewash_across": "percent",
    "prewash_along": "percent",
}
"""Settings that a given of the same name stands for, with their kinds."""

STEP_SETTINGS = ("size_step", "cutting_step", "buying_step")

# Common practice, no source: 1/4 in seams, 42 in usable width of a bolt, 4 in overage for a frame,
# 1/2 in to square a bolt, eight layers; metric twins at the nearest step a metric sewer uses.
DEFAULTS: dict[str, tuple[str, str]] = {
    "seam": ("1/4 in", "6 mm"),
    "usable_width": ("42 in", "106 cm"),
    "overage": ("4 in", "10 cm"),
    "squaring": ("1/2 in", "12 mm"),
    "layers": ("8", "8"),
    "prewash_across": ("0 %", "0 %"),
    "prewash_along": ("0 %", "0 %"),
    "size_step": ("1/16 in", "1 mm"),
    "cutting_step": ("1/8 in", "1 mm"),
    "buying_step": ("1/8 yd", "10 cm"),
}
"""What holds where nobody says anything: in inches and in centimetres."""


@dataclass(frozen=True)
class Settings:
    """The settings as one tab sees them; lengths in inches, percents as numbers of percent.

    `fabrics` holds what each fabric says of its own; `fixed` names the settings that the tab itself
    says, which no fabric changes; `plain` is set where a fabric speaks for the tab, and holds what is so
    without it. `colour` is a fabric's (`setting.on(fabric).colour`), as `#rrggbb`; empty where it says none.
    """

    system: Literal["in", "cm"] = "in"
    currency: str = "USD"
    seam: Fraction = Fraction(1, 4)
    usable_width: Fraction = Fraction(42)
    overage: Fraction = Fraction(4)
    squaring: Fraction = Fraction(1, 2)
    layers: int = 8
    prewash_across: Fraction = Fraction(0)
    prewash_along: Fraction = Fraction(0)
    size_step: Fraction = Fraction(1, 16)
    cutting_step: Fraction = Fraction(1, 8)
    buying_step: Fraction = Fraction(9, 2)
    fabrics: Mapping[str, Mapping[str, object]] = field(default_factory=dict)
    fixed: frozenset[str] = frozenset()
    colour: str = ""
    plain: "Settings | None" = None

    def on(self, fabric: str | None) -> "Settings":
        """The settings for one fabric: what it says of its own, unless the tab itself says it.

        They start from what holds for no fabric in particular (`plain`), which is also what None gives: what
        the tab's own fabric says holds for no other cloth.
        """
        start = self if self.plain is None else self.plain
        own = self.fabrics.get(fabric) if fabric is not None else None
        if not own:
            return start
        return replace(start, **{k: v for k, v in own.items() if k not in self.fixed})  # type: ignore[arg-type]  # checked by kind when the fabric was read

    if not TYPE_CHECKING:  # for a plugin that is checked, mypy says so

        def __getattr__(self, name: str) -> object:
            """Never anything: a misspelt setting is told with the nearest right one."""
            if name.startswith("__"):  # what Python itself looks for, as pickle does
                raise AttributeError(name)
            near = get_close_matches(name, [each.name for each in fields(self)], 1)
            hint = f" Did you mean setting.{near[0]}?" if near else ""
            raise AttributeError(f"there is no setting.{name}.{hint}")

    def cut_up(self, inches: Number | int) -> Fraction:
        """A cut length rounded up to the cutting step."""
        return up(inches, self.cutting_step)

    def buy_up(self, inches: Number | int) -> Fraction:
        """A length of fabric rounded up to the shop's step."""
        return up(inches, self.buying_step)

    @property
    def notation(self) -> Notation:
        """How this project reads and shows values."""
        return Notation(system=self.system, seam=self.seam, currency=self.currency)

    @property
    def steps(self) -> dict[str, Fraction]:
        """The named steps, in inches."""
        return {"size": self.size_step, "cutting": self.cutting_step, "buying": self.buying_step}
