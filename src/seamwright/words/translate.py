"""A finished English sentence in another language.

The rooms that make sentences know one language and pass plain text on; results lie finished in the
store. So the edge finds the templates that a sentence was made from, takes out what was filled in
(which may be made from templates itself), and fills it into the other language's words. Where a
sentence can be read in several ways, that reading counts which leaves the fewest words unread;
among these the one of the fewest templates, with the most letters of their own.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from seamwright.words.catalog import Language, read_catalog
from seamwright.words.template import Template, words_of

_MARKS = re.compile(r"(?:[.;:,] | \(|\) | \+ | · |, and | and | or )")
"""Where sentences are put together from parts that have a template each."""
_OWN = re.compile(r"(?<![\w.:_’'-])(?:[A-Za-z]?[a-z]{2,}|[A-Z]{5,})(?![\w-]*[\d_])(?!\w)")
"""A word that somebody may have to read: no id, no unit, no number."""
_QUOTED = re.compile(r"‘[^’]*’")
_HELD = 60_000
_DEEP = 7
_MOST_PARTS = 14


@dataclass(frozen=True, kw_only=True, slots=True)
class _Reading:
    """A text in other words: words of it left unread, templates it took, their own letters."""

    words: str
    unread: int
    pieces: int = 0
    sure: int = 0

    @property
    def rank(self) -> tuple[int, int, int]:
        return (self.unread, self.pieces, -self.sure)


def translate(text: str, language: Language) -> str:
    """Return the text in a language; what no catalog holds stays as it is.

    A text of which less than half is known is the user's own and stays whole.

    >>> translate("Set panel A.1", "es")
    'Colocar panel A.1'
    >>> translate("Grandmother's note", "es")
    "Grandmother's note"
    """
    if language == "en":
        return text
    read = _read(text, language, 0)
    return text if 2 * read.unread > _own_words(text) else read.words


def unread(text: str, language: Language) -> int:
    """Return how many words of a text no catalog holds; names count among them."""
    return 0 if language == "en" else _read(text, language, 0).unread


@lru_cache(maxsize=_HELD)
def _read(text: str, language: Language, depth: int) -> _Reading:
    """Return the best reading of a text; what a catalog holds as it stands is read at once."""
    whole = read_catalog(language).get(text)
    if whole is not None:
        return _Reading(words=whole, unread=0, pieces=1, sure=len(text))
    plain = _Reading(words=text, unread=_own_words(text))
    if plain.unread == 0 and len(text) < 2:
        return plain
    best = min((plain, *_by_template(text, language, depth)), key=lambda one: one.rank)
    if best.unread and depth < _DEEP:
        parted = (*_in_form(text, language, depth), *_by_parts(text, language, depth))
        best = min((best, *parted), key=lambda one: one.rank)
    return best


def _own_words(text: str) -> int:
    """Return how many words of a text somebody may have to read; what is quoted is the user's."""
    return len(_OWN.findall(_QUOTED.sub("", text)))


def _by_template(text: str, language: Language, depth: int) -> Iterator[_Reading]:
    """Return the readings of a text as one sentence."""
    if depth >= _DEEP:
        return
    for template in _candidates(text, language):
        values = template.values(text)
        if values is None:
            continue
        read = {
            name: _Reading(words=value, unread=0)
            if name in template.quoted
            else _read(value, language, depth + 1)
            for name, value in values.items()
        }
        yield _Reading(
            words=template.said({name: one.words for name, one in read.items()}),
            unread=sum(one.unread for one in read.values()),
            pieces=1 + sum(one.pieces for one in read.values()),
            sure=template.weight + sum(one.sure for one in read.values()),
        )


def _in_form(text: str, language: Language, depth: int) -> Iterator[_Reading]:
    """Return the readings of a text without its full stop, blanks or great first letter."""
    bare = text.strip(" ")
    if bare != text:
        at = text.index(bare) if bare else 0
        yield _around(text[:at], _read(bare, language, depth + 1), text[at + len(bare) :])
    elif text[-1:] in {".", ":", ",", ";"}:
        yield _around("", _read(text[:-1], language, depth + 1), text[-1])
    elif text[:1].isupper() and text[1:2].islower():
        read = _read(text[:1].lower() + text[1:], language, depth + 1)
        yield replace(read, words=read.words[:1].upper() + read.words[1:], sure=read.sure - 1)


def _around(before: str, read: _Reading, after: str) -> _Reading:
    return replace(read, words=f"{before}{read.words}{after}")


def _by_parts(text: str, language: Language, depth: int) -> Iterator[_Reading]:
    """Return the readings of a text as two parts with a mark between them."""
    for match in list(_MARKS.finditer(text))[:_MOST_PARTS]:
        head = _read(text[: match.start()], language, depth + 1)
        tail = _read(text[match.end() :], language, depth + 1)
        word = match[0].strip(" ,")
        mark = match[0].replace(word, read_catalog(language).get(word, word))
        yield _Reading(
            words=f"{head.words}{mark}{tail.words}",
            unread=head.unread + tail.unread,
            pieces=head.pieces + tail.pieces,
            sure=head.sure + tail.sure,
        )
    if text.endswith(")") and " (" not in text and "(" not in text:
        yield _around("", _read(text[:-1], language, depth + 1), ")")


def _candidates(text: str, language: Language) -> list[Template]:
    """Return the templates that share their longest word with the text, the surest first."""
    index = _index(language)
    found = [one for word in ("", *words_of(text)) for one in index.get(word, ())]
    return sorted(found, key=lambda one: (-one.weight, one.source))


@cache
def _index(language: Language) -> dict[str, tuple[Template, ...]]:
    held: defaultdict[str, list[Template]] = defaultdict(list)
    for source, words in read_catalog(language).items():
        template = Template.from_catalog(source, words)
        if template.names:
            held[template.token].append(template)
    return {word: tuple(templates) for word, templates in held.items()}
