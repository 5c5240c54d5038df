"""The published schemas are those of the code, and the built-in houses satisfy them."""

from __future__ import annotations

import json
from importlib import resources

import jsonschema
import pytest
from ruamel.yaml import YAML

from seamwright.io.catalog_model import catalog_schema
from seamwright.io.materials_model import materials_schema
from seamwright.io.plan import builtin_house, builtin_house_names, plan_schema
from seamwright.io.records_model import records_schema

FOLDER = resources.files("seamwright") / "data" / "schema"


@pytest.mark.parametrize(
    ("name", "made"),
    [
        ("plan", plan_schema),
        ("catalog", catalog_schema),
        ("records", records_schema),
        ("materials", materials_schema),
    ],
)
def test_the_stored_schema_is_up_to_date(name: str, made) -> None:
    """The stored schema is the one the models give; write it anew when they change."""
    stored = json.loads((FOLDER / f"{name}.schema.json").read_text(encoding="utf-8"))
    assert stored == made()


@pytest.mark.parametrize("schema", [plan_schema, catalog_schema, records_schema, materials_schema])
def test_the_schema_is_a_schema(schema) -> None:
    """The schema satisfies the draft it names."""
    jsonschema.Draft202012Validator.check_schema(schema())


@pytest.mark.parametrize("name", builtin_house_names())
def test_built_in_houses_satisfy_the_schema(name: str) -> None:
    """A plain YAML loader and the schema agree with the reader on every built-in house."""
    loaded = json.loads(
        json.dumps(YAML(typ="safe", pure=True).load(builtin_house(name)), default=str)
    )
    errors = list(jsonschema.Draft202012Validator(plan_schema()).iter_errors(loaded))
    assert errors == []


@pytest.mark.parametrize(
    "spoiled", [{"roof": 3}, {"colour": "red"}, {"site": {}}, {"openings": [{"id": "W1"}]}]
)
def test_the_schema_refuses_what_the_reader_refuses(spoiled: dict[str, object]) -> None:
    """Wrong types, unknown words and missing words fail the schema too."""
    good = YAML(typ="safe", pure=True).load(builtin_house("first_house"))
    validator = jsonschema.Draft202012Validator(plan_schema())
    assert validator.is_valid(good)
    assert not validator.is_valid({**good, **spoiled})
