"""One template: find it again in a finished sentence, and say it in other words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

_PLACE = re.compile(r"\{(\w+)\}")
_WORD = re.compile(r"[^\W\d_]{2,}")
_QUOTES = (("‘", "’"), ("'", "'"))
_BEGINS, _ENDS = " ,;", " "
_KEY, _KEYWORDS = "key_", "keywords"
"""The places for names and for words of the plan's own language, which no other changes."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Template:
    """A sentence with places to fill, and the same in another language."""

    source: str
    words: str

    @classmethod
    def from_catalog(cls, source: str, words: str) -> Template:
        """Return the template of an entry; a piece that others stand before or after, with them."""
        if source[:1] in _BEGINS:
            source, words = f"{{before_}}{source}", f"{{before_}}{words}"
        if source[-1:] in _ENDS:
            source, words = f"{source}{{after_}}", f"{words}{{after_}}"
        return cls(source=source, words=words)

    @property
    def names(self) -> list[str]:
        """Return the names of the places, in order."""
        return places(self.source)

    @property
    def weight(self) -> int:
        """Return how many letters of the sentence are its own."""
        return len(_PLACE.sub("", self.source))

    @property
    def token(self) -> str:
        """Return the longest word that every sentence of this template holds; "" when none."""
        whole = _PLACE.sub("\0", self.source)
        found = [
            match[0]
            for match in _WORD.finditer(whole)
            if "\0" not in whole[max(match.start() - 1, 0) : match.end() + 1]
        ]
        return max(found, key=len, default="").lower()

    @property
    def quoted(self) -> frozenset[str]:
        """Return the places in single quotes, and of keys: what is filled in there stays."""
        return _quoted(self.source)

    def values(self, sentence: str) -> Mapping[str, str] | None:
        """Return what is filled into the places of a finished sentence, None if it is another."""
        match = _pattern(self.source).fullmatch(sentence)
        return None if match is None else match.groupdict()

    def said(self, values: Mapping[str, str]) -> str:
        """Return the sentence in its other words."""
        return _PLACE.sub(lambda match: values[match[1]], self.words)


def places(template: str) -> list[str]:
    """Return the names of the places of a template, in order."""
    return _PLACE.findall(template)


def words_of(sentence: str) -> set[str]:
    """Return the words of a sentence, in small letters."""
    return {word.lower() for word in _WORD.findall(sentence)}


@cache
def _pattern(source: str) -> re.Pattern[str]:
    shape, seen = "", set[str]()
    for number, part in enumerate(_PLACE.split(source)):
        if number % 2 == 0:
            shape += re.escape(part)
        else:
            wanted = r"[^\s:,;]+" if part == _KEY else ".*?"
            shape += f"(?P={part})" if part in seen else f"(?P<{part}>{wanted})"
            seen.add(part)
    return re.compile(shape, re.DOTALL)


@cache
def _quoted(source: str) -> frozenset[str]:
    return frozenset(
        name
        for name in places(source)
        if name in {_KEY, _KEYWORDS}
        or any(f"{left}{{{name}}}{right}" in source for left, right in _QUOTES)
    )
