"""Textbook mechanics on plain numpy arrays; imports nothing else of the package."""
