"""Proofs: the least that any plan of strips takes, by column generation and integer programs."""
