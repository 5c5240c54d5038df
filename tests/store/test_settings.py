"""How the desk shows things."""

from __future__ import annotations

from seamwright.store.open import Store
from seamwright.store.settings import read_settings, write_settings


def test_settings_change_one_by_one(store: Store) -> None:
    """What is not named stays as it was."""
    assert read_settings(store) == {}
    write_settings(store, {"units": "us", "paper": "a4"})
    write_settings(store, {"units": "metric"})
    write_settings(store, {})
    assert read_settings(store) == {"units": "metric", "paper": "a4"}
