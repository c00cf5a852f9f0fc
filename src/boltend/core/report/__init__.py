"""A worked project as text, Markdown and JSON."""
