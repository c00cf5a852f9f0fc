"""What a person has set for all projects, as the shell takes it: the look, and keys of their own."""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field

from boltend.core.host.config import config_file, read_config
from boltend.core.host.off import ConfigError
from boltend.shell.keys import judged
from boltend.shell.themes import NO_COLOUR, THEMES, USUAL, read_look

_KNOWN = ("look", "keys", "both_systems", "pictures")

PICTURES = ("cells", "sixel", "kitty")
"""How the picture of a whole screen is drawn: in cells, or by the terminal's own graphics."""


@dataclass(frozen=True)
class Habits:
    """The look by its name, keys by action, whether both systems are shown, how pictures are drawn.

    `troubles` says in words what was left out, and why.
    """

    look: str = USUAL
    keys: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    troubles: tuple[str, ...] = ()
    both_systems: bool = False
    pictures: str = "cells"

    @property
    def told(self) -> str:
        """The troubles in one line or two; the rest when these are mended."""
        if not self.troubles:
            return ""
        more = f" And {len(self.troubles) - 2} more." if len(self.troubles) > 2 else ""
        said = " · ".join(self.troubles[:2]) + more
        path = str(config_file())
        return said if said.startswith(path) else f"{path}: {said}"


def read_habits() -> Habits:
    """Read them. It never fails: what is wrong is told and left out. NO_COLOR goes before the file."""
    plain = bool(os.environ.get("NO_COLOR"))
    try:
        said = read_config()
    except ConfigError as error:
        return Habits(NO_COLOUR if plain else USUAL, {}, (str(error),))
    troubles = [f"{name}: nothing has this name here." for name in said if name not in _KNOWN]
    look = read_look(said.get("look", USUAL))
    if look is None:
        troubles.append(f"look: “{said['look']}” is none of {', '.join(THEMES)}.")
    both = said.get("both_systems", False)
    if not isinstance(both, bool):
        troubles.append(f"both_systems: “{both}” is neither true nor false.")
        both = False
    pictures = said.get("pictures", PICTURES[0])
    if pictures not in PICTURES:
        troubles.append(f"pictures: “{pictures}” is none of {', '.join(PICTURES)}.")
        pictures = PICTURES[0]
    keys, wrong = judged(said.get("keys", {}))
    return Habits(NO_COLOUR if plain else look or USUAL, keys, (*troubles, *wrong), both, pictures)
