"""Example projects: scenarios, names and prices of our own invention."""

from importlib.resources import as_file, files
from pathlib import Path

NAMES = ("harbour-steps", "lantern-row", "tidewater", "short-measure", "orchard-cloth", "mistakes")
"""Whole chains in inches, the first four; one in centimetres, and one with deliberate mistakes."""


def path(name: str) -> Path:
    """The file of an example, by its name with or without `.toml`. Raises KeyError for an unknown one."""
    bare = name.removesuffix(".toml")
    if bare not in NAMES:
        raise KeyError(f"there is no example {name!r}. There are: {', '.join(NAMES)}.")
    with as_file(files(__package__) / f"{bare}.toml") as file:
        return file
