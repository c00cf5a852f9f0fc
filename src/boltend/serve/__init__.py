"""`boltend serve`: the shell in a browser. The optional extra `web` brings what it needs."""
