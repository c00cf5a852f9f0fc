"""Where a person may start who has many fabrics."""

from boltend.plugin import Start

WHICH_GO_TOGETHER = Start(
    question="Which of my fabrics go together in each block?",
    tabs=(
        ("Top", "straight_set", {}),
        ("Fabric mix", "fabric_mix", {"blocks": {"from": "Top", "take": "blocks"}}),
    ),
)
"""The blocks of a top in straight rows; the person types the fabrics, and gives each its colour."""
