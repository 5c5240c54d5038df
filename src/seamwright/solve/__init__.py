"""Searching for the best plan of days: the constraint solver, its model, and what it could not."""
