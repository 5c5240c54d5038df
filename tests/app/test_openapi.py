"""The description of the interface that the pages are built against."""

from __future__ import annotations

import json
from pathlib import Path

from seamwright.app.openapi import description

WEB = Path(__file__).parents[2] / "web" / "openapi.json"


def test_the_description_the_pages_use_is_current() -> None:
    """`python -m seamwright.app.openapi > web/openapi.json` would change nothing."""
    assert json.loads(WEB.read_text(encoding="utf-8")) == description()


def test_every_route_tells_its_errors_in_one_shape() -> None:
    """Each operation says that whatever goes wrong comes as a list of problems."""
    for operations in description()["paths"].values():
        for operation in operations.values():
            shape = operation["responses"]["4XX"]["content"]["application/json"]["schema"]
            assert shape == {"$ref": "#/components/schemas/Problems"}
            assert "422" not in operation["responses"]
