"""Rows that a person adds to the tables for all projects: `rows.toml` in the config folder."""

import tomllib
from pathlib import Path

from boltend.core.contract import OwnRows, read_own_rows
from boltend.core.host.calls import Fault
from boltend.core.host.off import config_folder


def rows_file() -> Path:
    """The file that holds them: `[[row]]` with `table`, `name` and the cells."""
    return config_folder() / "rows.toml"


def own_rows(problems: list[Fault]) -> OwnRows:
    """The person's rows; what is wrong with them is added to `problems`."""
    path = rows_file()
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        return {}
    except (OSError, ValueError, RecursionError) as error:
        problems.append(Fault(f"{path} cannot be read: {error}. Mend or delete it; its rows are left out."))
        return {}
    rows, wrong = read_own_rows(data.get("row", []), f"your own, {path.name}")
    problems += [Fault(f"{path}: {what}") for what in wrong]
    return rows
