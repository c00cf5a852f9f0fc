"""A project for the calculators of this folder: fabrics, a precut, a tab aside, a tab done, odd names."""

QUILT = """boltend = 1
[project]
name = "Two bags [/x]"
copies = 2
[[fabric]]
name = "Red [/x] [bold]"
price = "12 per yard"
have = "1/4 yd"
[[fabric]]
name = "Right to left שלום"
form = "ten inch square"
price = "30"
[[tab]]
name = "Bag [/x]"
calculator = "sew"
[tab.given]
size = "4 1/2 in"
many = 10
cloth = "Red [/x] [bold]"
edge = "60 in"
edge_cloth = "Red [/x] [bold]"
buttons = 3
[[tab]]
name = "Lining"
calculator = "sew"
[tab.given]
size = "4 1/2 in"
many = 4
cloth = "Right to left שלום"
[[tab]]
name = "\\u202eStrap\\u0007 שלום"
calculator = "sew"
[tab.given]
size = "2 in"
many = 7
[[tab]]
name = "Perhaps"
calculator = "sew"
aside = true
[tab.given]
size = "3 in"
many = 5
[[tab]]
name = "Later"
calculator = "sew"
[tab.given]
size = "3 in"
"""
