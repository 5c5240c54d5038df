"""Command line: one command per workflow."""
