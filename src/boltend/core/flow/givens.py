"""From what a tab says to what its calculator gets: read, checked, defaulted, linked."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any, Literal, NamedTuple

from boltend.core.contract import SETTING_KINDS, CalculatorSpec, GivenSpec, Settings, Table
from boltend.core.flow.basis import Basis, default_of, setting_trouble
from boltend.core.flow.links import Link, as_link
from boltend.core.flow.results import Trouble
from boltend.core.project.plain import folded
from boltend.core.values import Notation, NotationError
from boltend.core.values.alike import likeliest

Speaks = Literal["typed", "link", "default", "empty", "project", "fabric", "calculator", "boltend"]
"""Who says a given's value; the last four speak for settings that the tab leaves empty."""


class GivenState(NamedTuple):
    """One given of one tab: what stands there, what it means, who says it, and what is wrong with it."""

    spec: GivenSpec
    raw: object = None
    value: Any = None
    speaks: Speaks = "empty"
    link: Link | None = None
    trouble: Trouble | None = None
    cells: tuple[Mapping[str, "GivenState"], ...] = ()


class LinkSlot(NamedTuple):
    """A place that a link fills: a given, or a cell of a rows given."""

    spec: GivenSpec
    link: Link
    given: str
    row: int = -1

    @property
    def place(self) -> str:
        """Words for where it stands: `Width`, or `row 2, Width`."""
        return self.spec.label if self.row < 0 else f"row {self.row + 1}, {self.spec.label}"


class Prepared(NamedTuple):
    """A tab ready to be worked out: all but what its links bring."""

    spec: CalculatorSpec
    states: Mapping[str, GivenState]
    constants: Mapping[str, Any]
    links: tuple[LinkSlot, ...]
    settings: Settings
    troubles: tuple[Trouble, ...]
    fabric: str | None


Tables = Callable[[str], Table | None]
"""Finds the table that a given chooses from."""


@dataclass
class _Gathering:
    links: list[LinkSlot] = field(default_factory=list)
    troubles: list[Trouble] = field(default_factory=list)


def prepare(
    spec: CalculatorSpec,
    given: Mapping[str, object],
    basis: Basis,
    tables: Tables,
    before: Prepared | None = None,
) -> Prepared:
    """Read a tab's givens against its calculator.

    `before` is the same tab as read before an edit, against the same basis: what the edit left alone is
    not read again.
    """
    gathering = _Gathering()
    given = _renamed(spec, given)
    for name in given:
        if spec.given(name) is None:
            gathering.troubles.append(_unknown(spec, name))
    if before is not None and before.spec is not spec:
        before = None
    states = {
        g.name: _unchanged(before, g, given.get(g.name), gathering)
        or _state(g, given.get(g.name), basis, tables, gathering)
        for g in spec.givens
        if not g.setting
    }
    fabric = _one_fabric(states)
    if before is not None and before.fabric != fabric:
        before = None  # the fabric speaks for settings that are left empty
    for g in spec.givens:
        if g.setting:
            raw = given.get(g.name)
            kept = _unchanged(before, g, raw, gathering)
            states[g.name] = kept or _setting_state(g, raw, fabric, basis, tables, gathering)
    states = {g.name: states[g.name] for g in spec.givens}
    return Prepared(
        spec=spec,
        states=states,
        constants={name: state.value for name, state in states.items()},
        links=tuple(gathering.links),
        settings=_tab_settings(states, fabric, basis, before),
        troubles=(*basis.troubles, *gathering.troubles),
        fabric=fabric,
    )


def _unchanged(
    before: Prepared | None, spec: GivenSpec, raw: object, gathering: _Gathering
) -> GivenState | None:
    """The state of a given that stands as it stood, unless it has more to tell than its value or its link."""
    if before is None:
        return None
    state = before.states[spec.name]
    if state.raw is not raw or state.trouble or state.cells:
        return None
    if state.link is not None:
        gathering.links += [slot for slot in before.links if slot.given == spec.name]
    return state


def _renamed(spec: CalculatorSpec, given: Mapping[str, object]) -> Mapping[str, object]:
    """A plugin may have renamed a given: its former name still speaks for it."""
    now = {was: g.name for g in spec.givens for was in g.was if was in given and g.name not in given}
    return {now.get(name, name): raw for name, raw in given.items()} if now else given


def _unknown(spec: CalculatorSpec, name: str) -> Trouble:
    near = likeliest(name, [g.name for g in spec.givens])
    way_out = f"Did you mean {near}?" if near else f"It takes {', '.join(g.name for g in spec.givens)}."
    return Trouble(f"{spec.name} has no given {name!r}.", way_out, name)


def _state(
    spec: GivenSpec,
    raw: object,
    basis: Basis,
    tables: Tables,
    gathering: _Gathering,
    where: tuple[str, int] = ("", -1),
) -> GivenState:
    given, row = where[0] or spec.name, where[1]
    if _is_empty(raw):
        return _left_empty(spec, raw, basis, gathering, where)
    link = as_link(raw)
    if link is not None:
        gathering.links.append(LinkSlot(spec, link, given, row))
        return GivenState(spec, raw, None, "link", link)
    try:
        if spec.kind == "rows":
            return _rows_state(spec, raw, basis, tables, gathering)
        value = _read(spec, raw, basis, tables)
    except (NotationError, ValueError) as error:
        trouble = Trouble(_place(spec, row) + str(error), "", given)
        gathering.troubles.append(trouble)
        return GivenState(spec, raw, None, "typed", None, trouble)
    problem = out_of_limits(spec, value, basis.how)
    if problem:
        trouble = Trouble(_place(spec, row) + problem, "", given)
        gathering.troubles.append(trouble)
        return GivenState(spec, raw, value, "typed", None, trouble)
    return GivenState(spec, raw, value, "typed")


def _is_empty(raw: object) -> bool:
    return raw is None or raw == [] or (isinstance(raw, str) and not raw.strip())


def _place(spec: GivenSpec, row: int) -> str:
    return f"{spec.label}: " if row < 0 else f"row {row + 1}, {spec.label}: "


def _left_empty(
    spec: GivenSpec, raw: object, basis: Basis, gathering: _Gathering, where: tuple[str, int]
) -> GivenState:
    default = spec.default_text(basis.how)
    if default is not None:
        return GivenState(spec, raw, default_value(spec, basis.how), "default")
    if spec.optional:
        return GivenState(spec, raw, None, "empty")
    given = where[0] or spec.name
    trouble = Trouble(_place(spec, where[1]) + "nothing is given yet.", _what_to_type(spec, basis), given)
    gathering.troubles.append(trouble)
    return GivenState(spec, raw, None, "empty", None, trouble)


_EXAMPLES = {
    "count": ("16", "16"), "measured": ("60 1/4; 60 3/8; 60 1/4", "153; 153.3; 153 cm"),
    "finished": ("12 in", "30 cm"), "cut": ("2 1/2 in", "6.5 cm"), "length": ("10 in", "25 cm"),
    "percent": ("10 %", "10 %"),
}  # fmt: skip
"""Something that would do, in an inch and in a metric project."""


def _what_to_type(spec: GivenSpec, basis: Basis) -> str:
    if spec.kind == "rows":
        return "Add a row."
    if spec.options:
        return f"Choose one of {', '.join(spec.options)}."
    if spec.kind == "fabric":
        return "Name one of the project's fabrics."
    example = example_of(spec, basis.how)
    return f"Type it{f', as {example},' if example else ','} or link it to another tab."


def example_of(spec: GivenSpec, how: Notation) -> str:
    """What could be typed in the project's system: the given's own, or one of its kind; or nothing."""
    at = how.system == "cm"
    return spec.example[at] or _EXAMPLES.get(spec.kind, ("", ""))[at]


@lru_cache(maxsize=2048)
def default_value(spec: GivenSpec, how: Notation) -> Any:
    """The default as a value."""
    text = spec.default_text(how)
    if text is None:
        return None
    return text if spec.kind == "table_row" else spec.reader.read(text, how, spec.unit)


@lru_cache(maxsize=2048)
def _limit(spec: GivenSpec, text: str, how: Notation) -> Any:
    value = spec.reader.read(text, how, spec.unit)
    return value[0] if spec.kind == "measured" else value


def out_of_limits(spec: GivenSpec, value: Any, how: Notation) -> str:
    """Why a value is outside the declared limits, or nothing."""
    if spec.least is None and spec.most is None:
        return ""
    for one in value if spec.kind == "measured" else (value,):
        if spec.least is not None and one < (least := _limit(spec, spec.least, how)):
            said, limit = _shown(spec, one, how), _shown(spec, least, how)
            return f"{said} is less than {limit}, the least that makes sense."
        if spec.most is not None and one > (most := _limit(spec, spec.most, how)):
            said, limit = _shown(spec, one, how), _shown(spec, most, how)
            return f"{said} is more than {limit}, the most that is worked out."
    return ""


def _shown(spec: GivenSpec, value: Any, how: Notation) -> str:
    """One value in the project's own units; of a list of measurements, one of them."""
    return spec.reader.show((value,) if spec.kind == "measured" else value, how, spec.unit)


def _read(spec: GivenSpec, raw: object, basis: Basis, tables: Tables) -> Any:
    value = spec.reader.from_toml(raw, basis.how, spec.unit)
    if spec.kind == "fabric":
        return known_fabric(str(value), basis)
    if spec.kind == "table_row":
        return _known_row(spec, str(value), tables)
    return value


def known_fabric(name: str, basis: Basis) -> str:
    """The fabric of the project that a name means. Raises ValueError where there is none that can be used."""
    known = basis.fabric_names.get(folded(name))
    if known is None:
        near = likeliest(name, basis.fabric_names.values())
        way_out = f"Did you mean “{near}”?" if near else "Add it to the project's fabrics first."
        raise ValueError(f"the project has no fabric “{name}”. {way_out}")
    if known in basis.fabric_troubles:
        raise ValueError(str(basis.fabric_troubles[known]))
    return known


def _known_row(spec: GivenSpec, name: str, tables: Tables) -> str:
    table = tables(spec.table or "")
    names = list(table.rows) if table else []
    for known in names:
        if known.casefold() == name.casefold():
            return known
    near = likeliest(name, names)
    way_out = f"Did you mean “{near}”?" if near else "Choose one of " + ", ".join(names[:8]) + "."
    raise ValueError(f"the table of {spec.table} has no “{name}”. {way_out}")


def _rows_state(
    spec: GivenSpec, raw: object, basis: Basis, tables: Tables, gathering: _Gathering
) -> GivenState:
    if not isinstance(raw, list) or not all(isinstance(r, Mapping) for r in raw):
        raise ValueError(f"these are rows: write each under [[tab.given.{spec.name}]].")
    known = {c.name for c in spec.columns}
    rows = []
    for number, cells in enumerate(raw):
        for name in cells:
            if name not in known:
                gathering.troubles.append(_unknown_column(spec, number, name))
        where = (spec.name, number)
        rows.append(
            {c.name: _state(c, cells.get(c.name), basis, tables, gathering, where) for c in spec.columns}
        )
    value = tuple({name: state.value for name, state in row.items()} for row in rows)
    return GivenState(spec, raw, value, "typed", cells=tuple(rows))


def _unknown_column(spec: GivenSpec, row: int, name: str) -> Trouble:
    known = [c.name for c in spec.columns]
    near = likeliest(name, known)
    way_out = f"Did you mean {near}?" if near else f"Columns are {', '.join(known)}."
    return Trouble(f"row {row + 1} has an unknown column {name!r}.", way_out, spec.name)


def _one_fabric(states: Mapping[str, GivenState]) -> str | None:
    """The fabric of a tab that has just one: it speaks for the tab's settings."""
    named = [s.value for s in states.values() if s.spec.kind == "fabric" and s.value]
    return named[0] if len(set(named)) == 1 else None


def _setting_state(
    spec: GivenSpec, raw: object, fabric: str | None, basis: Basis, tables: Tables, gathering: _Gathering
) -> GivenState:
    if not _is_empty(raw):
        state = _state(spec, raw, basis, tables, gathering)
        problem = (
            setting_trouble(spec.name, state.value) if state.speaks == "typed" and not state.trouble else ""
        )
        if problem:
            trouble = Trouble(f"{spec.label}: {problem}.", "", spec.name)
            gathering.troubles.append(trouble)
            return state._replace(trouble=trouble)
        return state
    own = basis.settings.fabrics.get(fabric, {}) if fabric else {}
    if spec.name in own:
        return GivenState(spec, raw, own[spec.name], "fabric")
    return _inherited(spec, raw, basis)


def _inherited(spec: GivenSpec, raw: object, basis: Basis) -> GivenState:
    """What a setting is for cloth in general, left empty in the tab."""
    if spec.name in basis.said and spec.inherits:
        return GivenState(spec, raw, getattr(basis.settings, spec.name), "project")
    if spec.default is not None:
        return GivenState(spec, raw, default_value(spec, basis.how), "calculator")
    return GivenState(spec, raw, default_of(spec.name, basis.how), "boltend")


def _tab_settings(
    states: Mapping[str, GivenState], fabric: str | None, basis: Basis, before: Prepared | None
) -> Settings:
    """The tab's settings; where its fabric speaks, `plain` keeps what holds for any other cloth."""
    if before is not None and all(s is before.states[n] for n, s in states.items() if n in SETTING_KINDS):
        return before.settings
    said = {n: s for n, s in states.items() if n in SETTING_KINDS and s.value is not None}
    typed = frozenset(n for n, s in states.items() if n in SETTING_KINDS and s.speaks in ("typed", "link"))
    values = {n: s.value for n, s in said.items()}
    own = basis.settings.on(fabric)
    if own is basis.settings:
        return replace(own, fixed=typed, **values) if values or typed else own
    others = {n: _inherited(s.spec, None, basis).value for n, s in said.items() if s.speaks == "fabric"}
    plain = replace(basis.settings, fixed=typed, **{**values, **others})
    return replace(own, fixed=typed, plain=plain, **values)
