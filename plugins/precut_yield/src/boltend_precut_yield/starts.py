"""Where a person may start who counts what there is."""

from collections.abc import Mapping

from boltend.plugin import Start

Tabs = tuple[tuple[str, str, Mapping[str, object]], ...]

THIS_IS_ALL = Start(
    question="This is all I have: how large, and what for borders and binding?",
    tabs=(
        ("Blocks in hand", "fabric_in_hand", {}),
        (
            "Setting",
            "straight_set",
            {
                "block_width": {"from": "Blocks in hand", "take": "block_width"},
                "block_height": {"from": "Blocks in hand", "take": "block_height"},
                "across": {"from": "Blocks in hand", "take": "across"},
                "down": {"from": "Blocks in hand", "take": "down"},
            },
        ),
        (
            "Borders",
            "borders",
            {
                "top_width": {"from": "Setting", "take": "width"},
                "top_height": {"from": "Setting", "take": "height"},
                "borders": [{"name": "Border 1", "fabric": "Border 1"}],
            },
        ),
        (
            "Binding",
            "binding",
            {
                "width": {"from": "Borders", "take": "width"},
                "height": {"from": "Borders", "take": "height"},
                "fabric": "Binding",
            },
        ),
    ),
)
"""Blocks in hand, in straight rows, bordered and bound; one types the blocks, then sash and borders."""

FROM_BLOCKS = Start(
    question="So many blocks of one size: how large, and what for two borders and binding?",
    tabs=(
        ("Blocks", "fabric_in_hand", {}),
        (
            "Borders",
            "borders",
            {
                "top_width": {"from": "Blocks", "take": "top_width"},
                "top_height": {"from": "Blocks", "take": "top_height"},
                "borders": [
                    {"name": "inner", "fabric": "Inner border"},
                    {"name": "outer", "fabric": "Outer border"},
                ],
            },
        ),
        (
            "Binding",
            "binding",
            {
                "width": {"from": "Borders", "take": "width"},
                "height": {"from": "Borders", "take": "height"},
                "fabric": "Binding",
            },
        ),
    ),
)
"""Blocks without a sash, so that the size that they make is the top's: the block is typed once, then the
width of each border. A border that is allowed for with the blocks is none of the top's, and so never counts
twice. The fabrics are named, so that To buy tells them apart."""

OUT_OF_PRECUTS = Start(
    question="How many blocks do my precuts make, and which quilts?",
    tabs=(
        ("Out of one precut", "precut_plan", {}),
        ("Blocks in hand", "fabric_in_hand", {"blocks": {"from": "Out of one precut", "take": "blocks"}}),
    ),
)
"""From precuts to blocks to the size of a quilt; the person types the precut and the pieces of a block."""

_OF_PLAIN_SQUARES: Tabs = (
    ("Squares", "pieces_in_hand", {}),
    (
        "Quilt",
        "fabric_in_hand",
        {
            "blocks": {"from": "Squares", "take": "pieces"},
            "block_width": {"from": "Squares", "take": "piece_width"},
            "block_height": {"from": "Squares", "take": "piece_height"},
        },
    ),
)

FROM_YARDS = Start(
    question="I have these yards of fabric: how large a quilt of squares?", tabs=_OF_PLAIN_SQUARES
)
"""From yards and fat quarters to plain squares to every quilt that they make; one types the yards and the
square. Its size is a cut one, and the link to the quilt takes the seams off."""

SQUARES_AS_BLOCKS = Start(
    question="My precut squares are the blocks, left whole: which quilts do they make?",
    tabs=_OF_PLAIN_SQUARES,
)
"""The same from packs of squares: nothing is cut, each square is a block. A sash is typed in the quilt."""
