"""Projects of many tabs, each fed by the one before: what one edit at the head runs through."""

from boltend.core.project.edits import add_tab
from boltend.core.project.model import Project

TABS = 200


def straight_chain() -> Project:
    """Tops of one block, each the block of the next: the cheapest calculator there is."""
    project = add_tab(Project(), "T1", "straight_set", _block("10 in", "10 in"))
    for number in range(2, TABS + 1):
        source = f"T{number - 1}"
        given = _block(_link(source, "width"), _link(source, "height"))
        project = add_tab(project, f"T{number}", "straight_set", given)
    return project


def mixed_chain() -> Project:
    """Set, measured, bordered, bound, and set again: with rows, conversions of kind, and other links."""
    project = Project()
    width: object = "10 in"
    height: object = "10 in"
    for number in range(1, TABS // 4 + 1):
        top, real, framed, bound = (f"{word} {number}" for word in ("Top", "Real", "Framed", "Bound"))
        project = add_tab(project, top, "straight_set", _block(width, height))
        sizes = {"widths": _link(top, "width"), "heights": _link(top, "height")}
        project = add_tab(project, real, "measured_top", sizes)
        project = add_tab(project, framed, "borders", _framed(real))
        sides = {"width": _link(framed, "width"), "height": _link(framed, "height")}
        project = add_tab(project, bound, "binding", {**sides, "strip_width": "2 1/2 in", "tail": "10 in"})
        width, height = _link(bound, "bound_width"), _link(bound, "bound_height")
    return project


def _block(width: object, height: object) -> dict[str, object]:
    return {"block_width": width, "block_height": height, "across": 1, "down": 1}


def _framed(source: str) -> dict[str, object]:
    border = {"name": "Edge", "width": "1/2 in", "corners": "sides first"}
    return {"top_width": _link(source, "width"), "top_height": _link(source, "height"), "borders": [border]}


def _link(tab: str, found: str) -> dict[str, str]:
    return {"from": tab, "take": found}
