"""Example projects and published reference tables, each with its source."""
