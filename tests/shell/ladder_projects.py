"""Projects that keep ladders, and one whose answers come late."""

BAGS = """boltend = 1
[project]
name = "Bags [/x]"
[[fabric]]
name = "Red [/x] [bold]"
price = "12 per yard"
[[tab]]
name = "Sheet [/x]"
calculator = "patch"
[tab.given]
size = "4 in"
across = 5
[[tab]]
name = "Bag"
calculator = "sew"
[tab.given]
size = "4 1/2 in"
many = { from = "Sheet [/x]", take = "patches" }
cloth = "Red [/x] [bold]"
buttons = 3
"""
KEPT = (
    BAGS
    + """[[ladder]]
name = "How many [/x]"
tab = "Sheet [/x]"
given = "across"
values = [4, 5, "many", 8]
take = ["width", { from = "Bag", take = "squares" }, "to buy"]
[[ladder]]
name = "Lost"
tab = "Gone"
given = "across"
values = [4]
"""
)
SLOW = """boltend = 1
[[tab]]
name = "Twice"
calculator = "slow"
[[ladder]]
name = "Slowly"
tab = "Twice"
given = "many"
values = [1, 2, 3]
take = "twice"
"""
