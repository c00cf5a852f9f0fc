"""`boltend where`: the places, as a person calls it."""

from pathlib import Path

from calling import call

import boltend


def rows(text: str) -> dict[str, str]:
    """What stands behind each label."""
    found = {}
    for line in text.splitlines():
        label, _, rest = line.strip().partition("  ")
        found[label] = rest.strip()
    return found


def test_where_says_paths_and_what_is_there(tmp_path: Path) -> None:
    config, state = tmp_path / "config", tmp_path / "state"
    said = call("where", BOLTEND_CONFIG=str(config), BOLTEND_STATE=str(state))
    assert (said.returncode, said.stderr) == (0, "")
    there = rows(said.stdout)
    assert there["boltend"].startswith(boltend.__version__)
    assert there["config folder"] == f"{config}  (does not exist)"
    assert there["look and keys"] == f"{config / 'config.toml'}  (does not exist)"
    assert there["rows of tables"] == f"{config / 'rows.toml'}  (does not exist)"
    assert there["plugins switched off"] == f"{config / 'off.toml'}  (does not exist)"
    assert there["state folder"] == f"{state}  (does not exist)"
    assert there["unsaved work"] == f"{state / 'recovery'}  (does not exist)"
    examples = Path(there["examples"])
    assert (examples / "harbour-steps.toml").is_file()
    assert not config.exists(), "it only looks"
    assert not state.exists(), "it only looks"


def test_what_is_there_is_not_said_to_be_missing(tmp_path: Path) -> None:
    config, state = tmp_path / "config", tmp_path / "state"
    (state / "recovery").mkdir(parents=True)
    (state / "recovery" / "a.journal").write_text("", encoding="utf-8")
    config.mkdir()
    (config / "config.toml").write_text('look = "light"\n', encoding="utf-8")
    said = call("where", BOLTEND_CONFIG=str(config), BOLTEND_STATE=str(state))
    there = rows(said.stdout)
    assert there["look and keys"] == str(config / "config.toml")
    assert there["unsaved work"] == f"{state / 'recovery'}  (1 journal)"
    assert there["state folder"] == str(state)


def test_the_paths_are_those_that_the_shell_uses(tmp_path: Path) -> None:
    from boltend.commands.where import RECENT
    from boltend.shell.start_recent import recent_file

    assert recent_file().name == RECENT


def test_a_config_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    (tmp_path / "config.toml").write_text("look = ", encoding="utf-8")
    said = call("where", BOLTEND_CONFIG=str(tmp_path))
    assert said.returncode == 2
    assert "config.toml cannot be read" in said.stderr
    assert "config folder" in said.stdout


def test_hidden_signs_in_a_path_are_written_out(tmp_path: Path) -> None:
    said = call("where", BOLTEND_CONFIG=str(tmp_path / "a\x1b[31mb"))
    assert "\x1b" not in said.stdout
    assert "<U+001B>" in said.stdout
