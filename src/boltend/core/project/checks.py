"""Strict checks of plain data: which key is wrong, of what type it is, and the nearest right name.

Only the shape is checked here. Whether "12 1/2 in" is a length is the flow's to say: this layer knows no
calculator.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from boltend.core.project import keys
from boltend.core.project.plain import Plain, is_table_list
from boltend.core.project.problems import Problem, Severity, nearest

Path = tuple[str | int, ...]
_SORTS = {
    bool: "true or false", int: "a whole number", float: "a decimal number", str: "text in quotes",
    list: "a list", dict: "a table",
}  # fmt: skip
_FITTING: Mapping[keys.Form, tuple[type, ...]] = {
    "text": (str,), "truth": (bool,), "list": (list,), "count": (int, str), "size": (int, str),
    "percent": (int, float, str), "table": (dict,),
}  # fmt: skip
"""The plain types that each form takes; a table may be any mapping."""


def sort_of(value: Any) -> str:
    """What a raw value is, in a person's words."""
    return _SORTS.get(type(value), "a date or time")


def _complaint(form: keys.Form, key: str, value: Any) -> tuple[str, str] | None:
    """What is wrong with a value of this form and the way out, or None."""
    if type(value) in _FITTING.get(form, ()) or form == "any":
        return None
    if form == "table" and isinstance(value, Mapping):
        return None
    if form == "size" and type(value) is float:
        return (
            f"a decimal number cannot be kept exactly ({value!r}).",
            f'Write {key} = "{value!r}" in quotes.',
        )
    ways = {
        "text": f'Write {key} = "…".', "truth": f"Write {key} = true or {key} = false.",
        "table": f"Write its keys under a header [tab.{key}].", "list": f"Write {key} = [ … ].",
        "count": f"Write a whole number: {key} = 4.", "size": f'Write it in quotes: {key} = "1/4 in".',
        "percent": f"Write a number: {key} = 3, or {key} = \"3 %\".", "any": "",
    }  # fmt: skip
    return f"this is {sort_of(value)}, which {key} cannot take.", ways[form]


class _Checker:
    """Collects the problems of one table."""

    def __init__(self, title: str, tab_key: int | None, owner_key: int | None) -> None:
        self.title, self.tab_key, self.owner_key = title, tab_key, owner_key
        self.found: list[Problem] = []

    def add(self, path: Path, what: str, way_out: str = "", severity: Severity = "error") -> None:
        """Note one problem at `path`, counted from the table."""
        where = " · ".join([self.title, *(str(p + 1) if isinstance(p, int) else p for p in path)])
        self.found.append(
            Problem(
                where,
                what,
                way_out,
                severity=severity,
                tab_key=self.tab_key,
                owner_key=self.owner_key,
                path=path,
            )
        )

    def table(self, data: Plain, known: Mapping[str, keys.Form], base: Path = ()) -> None:
        """Check each key of a table against the known ones."""
        for key, value in data.items():
            form = known.get(key)
            if form is None:
                close = nearest(key, (k for k in known if k not in data))
                hint = f"Did you mean {close}?" if close else f"Known here: {', '.join(known)}."
                self.add((*base, key), f"{key!r} is not a key that Boltend knows; it is kept.", hint, "note")
            elif wrong := _complaint(form, key, value):
                self.add((*base, key), *wrong)

    def needed(self, data: Plain, *names: str) -> None:
        """Complain where a key is missing or is empty text."""
        for name in names:
            if name not in data:
                self.add((), f"it has no {name}.", f'Write {name} = "…" under its header.')
            elif isinstance(data[name], str) and not data[name].strip():
                self.add((name,), f"its {name} is empty.", f'Write {name} = "…".')


def tab_problems(data: Plain, key: int | None = None) -> tuple[Problem, ...]:
    """What is wrong with one `[[tab]]` table."""
    check = _Checker(f'tab "{_title(data)}"', key, key)
    check.needed(data, "name", "calculator")
    check.table(data, keys.TAB)
    given = data.get("given")
    if isinstance(given, Mapping):
        for path, value in _cells(given):
            _check_cell(check, ("given", *path), value)
    return tuple(check.found)


def stays_sound(before: Plain, after: Plain) -> bool:
    """Whether a `[[tab]]` without problems has none after an edit either: nothing is new but texts of givens.

    A quick answer for what is typed; where it is no, `tab_problems` knows.
    """
    old, new = before.get("given"), after.get("given")
    if not (isinstance(old, dict) and isinstance(new, dict) and before.keys() == after.keys()):
        return False
    return all(type(value) is str or value is old.get(name) for name, value in new.items()) and all(
        value is before[key] for key, value in after.items() if key != "given"
    )


def fabric_problems(data: Plain, key: int | None = None) -> tuple[Problem, ...]:
    """What is wrong with one `[[fabric]]` table."""
    check = _Checker(f'fabric "{_title(data)}"', None, key)
    check.needed(data, "name")
    check.table(data, keys.FABRIC)
    return tuple(check.found)


def ladder_problems(data: Plain, key: int | None = None) -> tuple[Problem, ...]:
    """What is wrong with one `[[ladder]]` table."""
    check = _Checker(f'ladder "{_title(data)}"', None, key)
    check.needed(data, "tab", "given", "values")
    check.table(data, keys.LADDER)
    return tuple(check.found)


def settings_problems(data: Plain) -> tuple[Problem, ...]:
    """What is wrong with the `[project]` table."""
    check = _Checker("project", None, None)
    check.table(data, keys.PROJECT)
    return tuple(check.found)


def root_problems(data: Plain) -> tuple[Problem, ...]:
    """What is wrong among the root keys: `data` holds only what found no better place."""
    check = _Checker("file", None, None)
    for key, value in data.items():
        if key in ("fabric", "tab", "ladder") and value != []:
            check.add((key,), f"this is not a list of {key} tables.", f"Write each under a header [[{key}]].")
        elif key == "project" and not isinstance(value, Mapping):
            check.add((key,), "this is not a table.", "Write its keys under a header [project].")
        elif key not in keys.ROOT:
            known = {**keys.ROOT, **keys.PROJECT}
            close = nearest(key, known)
            hint = f"Did you mean {close}?" if close else ""
            if close in keys.PROJECT and close not in keys.ROOT:
                hint = f"Did you mean {close} under [project]?"
            check.add((key,), f"{key!r} is not a key that Boltend knows; it is kept.", hint, "note")
    return tuple(check.found)


def _title(data: Plain) -> str:
    name = data.get("name")
    return name if isinstance(name, str) and name else "without a name"


def _cells(given: Plain) -> Iterator[tuple[Path, Any]]:
    """Each raw value of a given, with the cells of rows one by one."""
    for name, value in given.items():
        if is_table_list(value):
            for index, row in enumerate(value):
                # A row that is itself `{ from, take }` is a table of cells all the same: rows hold no links.
                yield from (((name, index, column), cell) for column, cell in row.items())
        else:
            yield (name,), value


def _check_cell(check: _Checker, path: Path, value: Any) -> None:
    if type(value) is str:  # nearly every cell
        return
    if isinstance(value, Mapping):
        example = 'Write { from = "name of a tab", take = "what it found" }.'
        for word in ("from", "take"):
            if word not in value:
                check.add(path, f"a link needs {word!r}.", example)
        check.table(value, keys.LINK, path)
    elif isinstance(value, list) and any(isinstance(item, Mapping | list) for item in value):
        check.add(
            path, "a list here holds plain values only, or tables only.", "Rows go under [[tab.given.NAME]]."
        )
    elif not isinstance(value, str | bool | int | float | list):
        check.add(path, f"this is {sort_of(value)}, which no given takes.", "Write it in quotes.")
