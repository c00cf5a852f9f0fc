"""The plugins here are strangers: their own tests run where they are installed, and not in this tree."""

collect_ignore_glob = ["*/tests/*", "*/src/*"]
