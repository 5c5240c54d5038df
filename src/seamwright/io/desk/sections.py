"""A form put into a plan text that is already there."""

from __future__ import annotations

from seamwright.io.desk.edit import replace_section
from seamwright.io.desk.form import HouseForm
from seamwright.io.desk.form_text import form_sections


def with_sections(text: str, form: HouseForm) -> str:
    """Return the text with the sections of a form put in place of its own.

    Every other section (overrides, decisions, catalog, days ...) stays as it is.
    """
    for name, section in form_sections(form).items():
        text = replace_section(text, name, section)
    return text
