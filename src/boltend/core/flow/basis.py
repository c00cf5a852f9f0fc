"""What a project says for all its tabs: working system, settings, fabrics."""

import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType
from typing import Any, NamedTuple

from boltend.core.contract import DEFAULTS, SETTING_KINDS, STEP_SETTINGS, Settings, read_own_rows
from boltend.core.flow.results import Trouble
from boltend.core.project.model import Project
from boltend.core.project.plain import folded
from boltend.core.values import KINDS, Notation, NotationError, Price, System

UNITS: Mapping[str, System] = {"inches": "in", "centimetres": "cm"}
"""The two working systems: what the file says, and the system of the notation."""

FABRIC_SETTINGS = ("usable_width", "squaring", "prewash_across", "prewash_along")
"""The settings that a fabric may say for itself."""

WIDEST = 150
"""Inches of usable width: a quarter over the widest cloth that is sold for backings, 118 in (`fabric`,
`wider_backing_in`, in the reference standards). More is a slip of the keyboard or of the unit, and by it
everything would come out of one strip."""


class Basis(NamedTuple):
    """The settings of a project as every tab starts from them.

    `said` names the settings that the project itself says; `troubles` keep every tab from being worked
    out, `fabric_troubles` only the tabs that use that fabric.
    """

    settings: Settings = Settings()
    how: Notation = Notation()
    said: frozenset[str] = frozenset()
    fabric_names: Mapping[str, str] = MappingProxyType({})
    fabric_troubles: Mapping[str, Trouble] = MappingProxyType({})
    rows: Mapping[str, dict[str, dict[str, str]]] = MappingProxyType({})
    row_troubles: tuple[str, ...] = ()
    troubles: tuple[Trouble, ...] = ()


def read_basis(project: Project) -> Basis:
    """Read the project's settings, its fabrics' own, and the rows that it adds to tables."""
    plain = project.settings
    troubles: list[Trouble] = []
    how = _notation(plain, troubles)
    said: dict[str, Any] = {}
    for name, value in _read(plain, "the project's", (*SETTING_KINDS, *STEP_SETTINGS), how, troubles):
        said[name] = value
    how = how._replace(seam=said.get("seam", default_of("seam", how)))
    fabrics, fabric_troubles = _read_fabrics(project, how)
    rows, row_troubles = read_own_rows(project.root.get("row", []), "the project's own")
    return Basis(
        settings=replace(_settings(how, said), fabrics={k: v for k, v in fabrics.items() if v}),
        how=how,
        said=frozenset(said),
        fabric_names={folded(row.name): _as_read(row.name) for row in reversed(project.fabrics) if row.name},
        fabric_troubles=fabric_troubles,
        rows=rows,
        row_troubles=tuple(row_troubles),
        troubles=tuple(troubles),
    )


def _notation(plain: Mapping[str, Any], troubles: list[Trouble]) -> Notation:
    units, currency = plain.get("units", "inches"), plain.get("currency", "USD")
    if not isinstance(units, str) or units not in UNITS:
        troubles.append(
            Trouble(
                f"the project's units are {units!r}.", 'Write units = "inches" or "centimetres".', "units"
            )
        )
        units = "inches"
    if not isinstance(currency, str) or KINDS["price"].check(Price(Fraction(0), currency)) is not None:
        troubles.append(
            Trouble(
                f"the project's currency is {currency!r}.",
                'Write its three letters: currency = "USD".',
                "currency",
            )
        )
        currency = "USD"
    return Notation(system=UNITS[units], currency=currency)


def _read_fabrics(project: Project, how: Notation) -> tuple[dict[str, dict[str, object]], dict[str, Trouble]]:
    """What each fabric says for itself, and what is wrong; of two with one name the first is meant."""
    fabrics: dict[str, dict[str, object]] = {}
    wrong: dict[str, Trouble] = {}
    for row in project.fabrics:
        name = _as_read(row.name)
        if name in fabrics:
            continue
        own: list[Trouble] = []
        said = dict(_read(row.data, f"fabric “{row.name}”:", FABRIC_SETTINGS, how, own))
        if row.form and row.form.strip().casefold() != "bolt":
            said.setdefault("squaring", Fraction(0))  # a bolt is squared; of a precut nothing is lost
        colour = _colour(row.data.get("colour"), how)
        if colour:
            said["colour"] = colour
        fabrics[name] = said
        if own:
            wrong[name] = own[0]
    return fabrics, wrong


def _colour(raw: object, how: Notation) -> str:
    """A fabric's colour, or nothing where it cannot be read: the lists say so, and no cut depends on it."""
    try:
        return "" if raw is None else str(KINDS["colour"].from_toml(raw, how))
    except NotationError:
        return ""


def _as_read(name: str) -> str:
    """A fabric's name in the form in which a given is read, so that a calculator may tell it on."""
    return unicodedata.normalize("NFC", name).strip()


@lru_cache(maxsize=256)
def default_of(name: str, how: Notation) -> Any:
    """What a setting is where nobody says anything. Kept: most tabs ask for one or two at every edit."""
    kind = SETTING_KINDS.get(name, "length")
    return KINDS[kind].read(DEFAULTS[name][how.system == "cm"], how)


def setting_trouble(name: str, value: object) -> str:
    """Why a value cannot be this setting, or nothing."""
    if name == "usable_width" and _above(value, WIDEST):
        return "it must be at most 150 in (381 cm): the widest cloth, for backings, is some 118 in (3 m)"
    if name in STEP_SETTINGS or name in ("usable_width", "layers"):
        return "" if _above(value, 0) else "it must be more than nothing"
    if name.startswith("prewash"):
        return "" if not _above(value, 99) and not _below(value) else "it must be from 0 to 99 %"
    return "it must not be negative" if _below(value) else ""


def _above(value: object, least: int) -> bool:
    return isinstance(value, int | Fraction) and value > least


def _below(value: object) -> bool:
    return isinstance(value, int | Fraction) and value < 0


def _read(
    plain: Mapping[str, Any], whose: str, names: tuple[str, ...], how: Notation, troubles: list[Trouble]
) -> Iterator[tuple[str, object]]:
    for name in names:
        if name not in plain:
            continue
        kind = KINDS[SETTING_KINDS.get(name, "length")]
        label = name.replace("_", " ")
        try:
            value = kind.from_toml(plain[name], how)
        except NotationError as error:
            troubles.append(Trouble(f"{whose} {label} {error}", "", name))
            continue
        problem = setting_trouble(name, value)
        if problem:
            shown = kind.show(value, how)
            troubles.append(Trouble(f"{whose} {label} is {shown}: {problem}.", "Change it there.", name))
        else:
            yield name, value


def _settings(how: Notation, said: Mapping[str, Any]) -> Settings:
    values: dict[str, Any] = {name: default_of(name, how) for name in DEFAULTS}
    values.update(said)
    return Settings(system=how.system, currency=how.currency, **values)
