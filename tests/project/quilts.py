"""Hand-written project files for the tests: invented quilts, heavily commented, in several styles."""

from __future__ import annotations

HARBOUR = """\
# Harbour lights, for the guest room
#   second try: the first one was too narrow

boltend = 1   # the format

# a key of somebody else's program
owner.ref = 'A-17'

# ---- the whole quilt ----
[project]
name   =   "Harbour lights"      # aligned by hand
units = "inches"
seam = "1/4 in"
notes = \"\"\"
Two lines of notes,
[tab]   # not a header, not a comment
the last one.\"\"\"
# prewash_along = 3


# ======== fabrics ========

# from the market, 2 yd left
[[fabric]]
name = "Navy dots"
form = "bolt"
usable_width = "42 in"
my_shelf = "B3"          # unknown, stays
price = "11.80 USD / yd"

[[fabric]] # trailing
name = 'Cream "shell"'
one_way = true

# ======== tabs ========

# the middle
# comes first
[[tab]]
name = "Lantern blocks"
calculator = "straight_set"
note = "four by four"

[tab.given]
block_width = "12 in"  # finished
block_height = "12 in"
across = 4
down = 0x4   # odd way to write four
# sash = "1 1/2 in"   might come back
sash_fabric = 'Cream "shell"'

# right above Top as sewn
[[tab]]
  name = "Top as sewn"
  calculator = "measured_top"
  [tab.given]
  widths = [
    "48 1/4 in",  # top edge
    "48 in",      # middle, [pinned]
    "48 1/8 in",
  ]
  heights = ["48 in"]

# a loose remark between two tables

[[fabric]]
name = "Rust"   # a fabric among the tabs: the array is interrupted
colour = "#b5512c"

[[tab]]
name = "Border walk"
calculator = "borders"
aside = false

[tab.given]
top_width = { from = "Lantern blocks", take = "width" }   # linked
top_height = {from="Lantern blocks",take="height"}

# the narrow one
[[tab.given.borders]]
name = "inner"
width = "1 1/2 in"
fabric = "Rust"

[[tab.given.borders]]
name = "outer"
width = { from = "Top as sewn", take = "spread_width" }
fabric = "Navy dots"  # 2 yd left

[sewing_room]   # not ours
lamp = "on"
tab = ["x", "y"]

# last but one
[[tab]]
name = "Edge"
calculator = "binding"
given = { width = "60 in", height = "60 in", fabric = "Navy dots" } # all in one line

# how wide?
[[ladder]]
name = "Strips"
tab = "Edge"
given = "strip_width"
values = ["2 in", "2 1/4 in"]
take = { from = "Edge", take = "length" }

# end of the file
"""

CROWDED = """\
boltend=1
[project]
name="Crowded"
[[tab]]
name="One"
calculator="binding"
[tab.given]
width="1 m"
[[tab]]
name="Two"
calculator="binding"
[tab.given]
width={from="One",take="length"}
# about Three
[[tab]]
name="Three"
calculator="binding"
"""

DOTTED = """\
boltend = 1
project.name = "Dotted by hand"  # dotted
project.seam = "1/4 in"

# about A
[[tab]]
name = "A"
calculator = "binding"
given.width = "60 in"   # dotted too
given.height = "60 in"

[[tab]]
name = "B"
calculator = "binding"
# a link as a table of its own
[tab.given.width]
from = "A"
take = "length"
"""

INLINE_TABS = """\
# everything in one list
boltend = 1
tab = [
  { name = "A", calculator = "binding", given = { width = "60 in" } },  # first
  { name = "B", calculator = "binding" },
]
"""


def crlf(text: str) -> str:
    """The same with Windows line ends."""
    return text.replace("\n", "\r\n")


def mixed(text: str) -> str:
    """The same with every third line ending the Windows way."""
    lines = text.split("\n")
    return (
        "".join(line + ("\r\n" if number % 3 == 0 else "\n") for number, line in enumerate(lines[:-1]))
        + lines[-1]
    )


STYLES = {
    "lf": HARBOUR,
    "crlf": crlf(HARBOUR),
    "mixed": mixed(HARBOUR),
    "bom": "\ufeff" + HARBOUR,
    "bom crlf": "\ufeff" + crlf(HARBOUR),
    "no last line end": HARBOUR.removesuffix("\n"),
    "crowded": CROWDED,
    "crowded crlf": crlf(CROWDED),
    "ends in a table": CROWDED.removesuffix("\n"),
}
