"""Hostile input by the hundred thousand, outside the default run: see DEVELOPERS.md."""
