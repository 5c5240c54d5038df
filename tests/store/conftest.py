"""A store in a folder of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from seamwright.store.open import Store, open_store


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """Return a new store."""
    store = open_store(tmp_path)
    yield store
    store.close()
