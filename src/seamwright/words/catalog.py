"""The catalogs: for each language a folder of JSON files, from English template to its words.

A template is a sentence with a ``{name}`` where something is filled in, as the source writes it.
The files stand by what they are about, so that a translator reads one subject at a time; they count
as one catalog, and a template stands in it once.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Literal, TypeAlias, get_args

Language: TypeAlias = Literal["en", "es"]
LANGUAGES: tuple[Language, ...] = get_args(Language)


@cache
def read_catalog(language: Language) -> Mapping[str, str]:
    """Return every template of a language with its words; English has none, it is the source."""
    return {
        template: words
        for file in read_files(language).values()
        for template, words in file.items()
    }


@cache
def read_files(language: Language) -> Mapping[str, Mapping[str, str]]:
    """Return the catalog file by file, by name."""
    folder = resources.files("seamwright") / "data" / "words" / language
    if not folder.is_dir():
        return {}
    files = sorted(folder.iterdir(), key=lambda file: file.name)
    return {file.name: json.loads(file.read_text(encoding="utf-8")) for file in files}
