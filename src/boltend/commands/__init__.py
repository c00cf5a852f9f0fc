"""The command line: one module a command; nothing of Textual is imported here."""
