"""The register of sources."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from seamwright.sources import SOURCES, cited

ROOT = Path(__file__).parents[2]


def test_cited_returns_each_source_once_in_register_order() -> None:
    """A citation list has no repeats and keeps the order of the register."""
    keys = list(SOURCES)
    assert [s.key for s in cited([keys[2], keys[0], keys[2]])] == [keys[0], keys[2]]


def test_an_unknown_key_is_refused() -> None:
    """A citation must lead somewhere."""
    with pytest.raises(KeyError, match="no-such-source"):
        cited(["no-such-source"])


def test_published_checks_cite_the_register() -> None:
    """Every file of published checks names its source in the register."""
    missing = []
    for path in (ROOT / "tests" / "published").glob("test_*.py"):
        keys = re.findall(r"mark\.source\(\s*\"([^\"]+)\"", path.read_text())
        if not keys or not set(keys) <= set(SOURCES):
            missing.append((path.name, keys))
    assert missing == []
