"""Boltend: quilt arithmetic, from the fabric in hand to the last eighth of a yard to buy."""

__version__ = "0.1.0"
