"""`python -m boltend`."""

from boltend.commands.main import run

run()
