"""A plan in any of the forms it may come in, made into the one text that counts."""

from __future__ import annotations

from dataclasses import dataclass

from seamwright.app.contract.house import FromCsv, FromExample, FromForm, PlanSource
from seamwright.io.desk.form import HouseForm
from seamwright.io.desk.form_text import form_text
from seamwright.io.desk.panels import with_panel_list
from seamwright.io.desk.sections import with_sections
from seamwright.io.plan import builtin_house
from seamwright.store.revisions import NewRevision, Revision


@dataclass(frozen=True, kw_only=True, slots=True)
class Taken:
    """A plan text, what it came from, and the form where it came from one."""

    text: str
    origin: str
    origin_name: str = ""
    form: HouseForm | None = None

    def revision(self, author: str, note: str) -> NewRevision:
        """Return the plan as a revision to keep."""
        form = None if self.form is None else self.form.model_dump_json()
        return NewRevision(
            plan_text=self.text, origin=self.origin, origin_name=self.origin_name,
            author=author.strip(), note=note.strip(), form=form,
        )  # fmt: skip


def form_of(row: Revision) -> HouseForm | None:
    """Return the form a revision can be redrawn with.

    A correction or a signature is written into sections that no form fills, so the form of the
    revision before it still draws the same house.
    """
    return None if row.form is None else HouseForm.model_validate_json(row.form)


def put_back(row: Revision) -> Taken:
    """Return an earlier revision as the plan to put in force again, letter by letter."""
    return Taken(text=row.plan_text, origin="back", origin_name=str(row.number), form=form_of(row))


def take(source: PlanSource, *, before: str | None = None) -> Taken:
    """Return the plan text of what was sent.

    `before` is the text that a form was opened on: sections that a form does not fill (overrides,
    decisions, catalog ...) stay as they were there.

    Raises
    ------
    InputError
        When a list or an example cannot be read.
    """
    if isinstance(source, FromForm):
        text = form_text(source.form) if before is None else with_sections(before, source.form)
        return Taken(text=text, origin="form", form=source.form)
    if isinstance(source, FromExample):
        return Taken(text=builtin_house(source.name), origin="example", origin_name=source.name)
    if isinstance(source, FromCsv):
        text = with_panel_list(source.types, source.text, name=source.name)
        return Taken(text=text, origin="csv", origin_name=source.name)
    return Taken(text=source.text, origin="yaml", origin_name=source.name)
