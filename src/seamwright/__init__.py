"""Seamwright: every joint of a panel-built house, the seal it needs, and what to buy for it."""

__version__ = "0.1.0"
