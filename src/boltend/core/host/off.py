"""Which plugins a person has switched off: a small file in the person's config folder.

A plugin that is switched off is not imported at all, so the file also remembers which calculators it
brought; a tab that needs one of them can then say what happened to it.
"""

import json
import os
import tempfile
import tomllib
from collections.abc import Iterable, Mapping
from pathlib import Path

_HEAD = "# Plugins that are switched off, and the calculators that each brings.\n[off]\n"


class ConfigError(ValueError):
    """A config file that cannot be read or written. Says which, where, and what would do."""


def config_folder() -> Path:
    """The person's config folder for Boltend; the environment variable BOLTEND_CONFIG names another."""
    told = os.environ.get("BOLTEND_CONFIG")
    if told:
        return Path(told)
    from platformdirs import user_config_path  # late: up to 12 ms, and not needed where the folder is told

    return user_config_path("boltend")


def off_file() -> Path:
    """The file that `switch_off` writes."""
    return config_folder() / "off.toml"


def switched_off() -> Mapping[str, tuple[str, ...]]:
    """The names of plugins that are switched off, each with the calculators that it brought.

    Raises `ConfigError` where the file cannot be read.
    """
    path = off_file()
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        return {}
    except (OSError, ValueError, RecursionError) as error:
        raise ConfigError(
            f"{path} cannot be read: {error}. Mend or delete it; no plugin is off now."
        ) from error
    off = data.get("off", {})
    if not isinstance(off, dict):
        raise ConfigError(f"{path}: `off` is no table. Write [off], and below it name = [calculators].")
    return {name: _names(path, name, brought) for name, brought in off.items()}


def _names(path: Path, name: str, brought: object) -> tuple[str, ...]:
    if isinstance(brought, list) and all(isinstance(b, str) for b in brought):
        return tuple(brought)
    raise ConfigError(f"{path}: {name!r} is no list of calculators. {json.dumps(name)} = [] would do.")


def switch_off(name: str, calculators: Iterable[str] = ()) -> None:
    """Switch a plugin off by its name, and remember the calculators that it brought.

    It takes effect when plugins are next loaded. Raises `ConfigError` where the file cannot be written.
    """
    off = dict(switched_off())
    off[name] = tuple(calculators) or off.get(name, ())
    _write(off)


def switch_on(name: str) -> bool:
    """Switch a plugin on again; whether it was off. Raises `ConfigError` where the file cannot be written."""
    off = dict(switched_off())
    was_off = off.pop(name, None) is not None
    if was_off:
        _write(off)
    return was_off


def _write(off: Mapping[str, tuple[str, ...]]) -> None:
    """Write the file whole or not at all."""
    lines = [f"{_quoted(name)} = [{', '.join(map(_quoted, off[name]))}]\n" for name in sorted(off)]
    path = off_file()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, made = tempfile.mkstemp(dir=path.parent, prefix=".off-")
        try:
            with open(handle, "w", encoding="utf-8") as file:
                file.write(_HEAD + "".join(lines))
                file.flush()
                os.fsync(file.fileno())
            os.replace(made, path)
        except BaseException:
            Path(made).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise ConfigError(f"{path} cannot be written: {error}.") from error


def _quoted(text: str) -> str:
    """A TOML basic string; JSON's escapes are a part of TOML's."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
