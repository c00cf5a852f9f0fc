"""Where a person may start who wants to know what lies under the top."""

from boltend.plugin import Start

_TOP = {
    "width": {"from": "Top", "take": "width"},
    "height": {"from": "Top", "take": "height"},
}

UNDER_MY_TOP = Start(
    question="How much backing, and which batting?",
    tabs=(
        ("Top", "measured_top", {}),
        ("Backing", "backing", {**_TOP, "fabric": "Backing"}),
        ("Batting", "batting", {**_TOP}),
    ),
)
"""The person types what the top measures; the width of the cloth is the project's unless typed."""

PRINTED_BACKING = Start(
    question="Is the yardage that is printed for my backing enough?",
    tabs=(("Backing", "backing", {"fabric": "Backing"}),),
)
"""The person types the size of the quilt and what is printed; the tab compares it, and so does To buy."""
