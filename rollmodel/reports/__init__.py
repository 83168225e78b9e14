"""What the commands print: JSON and text."""
