"""What a person has set for all projects: `config.toml` in the config folder."""

import os
import tempfile
import tomllib
from pathlib import Path
from typing import Any

from boltend.core.host.off import ConfigError, config_folder


def config_file() -> Path:
    """The file; it need not exist."""
    return config_folder() / "config.toml"


def read_config() -> dict[str, Any]:
    """All that the file says, as TOML reads it; nothing where there is none.

    Raises `ConfigError` where the file cannot be read.
    """
    path = config_file()
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        return {}
    except (OSError, ValueError, RecursionError) as error:
        raise ConfigError(f"{path} cannot be read: {error}. Mend or delete it.") from error


def keep_in_config(name: str, value: str | bool) -> None:
    """Set one key at the top of the file; comments and all else stay.

    Raises `ConfigError` where the file cannot be read or written, or would say anything else afterwards.
    """
    import tomlkit  # late: only who changes something needs it

    wanted = {**read_config(), name: value}
    path = config_file()
    try:
        text = path.read_bytes().decode("utf-8-sig") if path.exists() else ""
        document = tomlkit.parse(text)
        document[name] = value
        made = tomlkit.dumps(document)
        if tomllib.loads(made) != wanted:
            raise ConfigError(f"{path} is written in a way that cannot be changed here: set {name} by hand.")
        _write(path, made)
    except ConfigError:
        raise
    except (OSError, ValueError, RecursionError) as error:
        raise ConfigError(f"{path} cannot be written: {error}.") from error


def _write(path: Path, text: str) -> None:
    """Write the file whole or not at all."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, made = tempfile.mkstemp(dir=path.parent, prefix=".config-")
    try:
        with open(handle, "w", encoding="utf-8", newline="") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.replace(made, path)
    except BaseException:
        Path(made).unlink(missing_ok=True)
        raise
