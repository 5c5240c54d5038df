"""What is carried while a plan is turned into records: the file, its units, what was found."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from seamwright.errors import Problem
from seamwright.io.explain import nearest, problem_at
from seamwright.io.plan.outline import Outline, Tell
from seamwright.io.yaml_text import YamlText
from seamwright.seals.types import Sentence
from seamwright.units import LengthUnit


@dataclass(kw_only=True, slots=True)
class Reading:
    """One reading of one plan: problems and notes gather here, outlines are kept by path."""

    yaml: YamlText
    units: LengthUnit | None
    problems: list[Problem] = field(default_factory=list)
    notes: list[Sentence] = field(default_factory=list)
    outlines: dict[tuple[str, str], Outline] = field(default_factory=dict)

    def tell(self, section: str, index: int, sentence: str, remedy: str, name: str = "") -> None:
        """Add a problem about entry `index` of a section, or about its field `name`."""
        path = (section, index, name) if name else (section, index)
        self.problems.append(problem_at(self.yaml, path, sentence, remedy, field=name))

    def teller(self, section: str, index: int, name: str = "") -> Tell:
        """Return a function that tells problems about one entry or field."""
        return lambda sentence, remedy: self.tell(section, index, sentence, remedy, name)

    def refer(
        self, place: tuple[str, int, str], given: str | None, known: Iterable[str], *, what: str
    ) -> None:
        """Tell when the field at a place names something that is not there."""
        words = list(known)
        if given is not None and given not in words:
            section, index, name = place
            sentence = f"there is no {what} ‘{given[:40]}’"
            self.tell(section, index, sentence, nearest(given, words), name)

    def note(self, text: str, **lengths: Fraction) -> None:
        """Add a sentence about something assumed; lengths stay numbers. [m]"""
        values = {name: float(length) for name, length in lengths.items()}
        self.notes.append(Sentence(text=text, lengths=values))
