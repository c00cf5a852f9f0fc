"""Where a person may start who has a block in mind."""

from boltend.plugin import Start

_CARRIED = {
    "block_width": {"from": "Units", "take": "trim_to"},
    "block_height": {"from": "Units", "take": "trim_to"},
}

NINE_PATCHES = Start(
    question="What do I cut for nine patches, and how large a top do they make?",
    tabs=(("Units", "strip_pieced_grid", {"patches": 3}), ("Top", "straight_set", {**_CARRIED})),
)
"""Strips for a number of nine patches, and the top of them; the person types the size and how many."""

HALF_SQUARES = Start(
    question="What do I cut for half-square triangles, and how large a top do they make?",
    tabs=(("Units", "half_square_triangles", {}), ("Top", "straight_set", {**_CARRIED})),
)
"""Squares for a number of half-square triangles, and the top of them."""
