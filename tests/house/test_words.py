"""The Spanish catalog holds every sentence that a page may show, and nothing else."""

from __future__ import annotations

import json
import re
from collections import Counter

import pytest
from tests.house.never_said import NEVER_SAID
from tests.house.templates import NOT_ON_THE_DESK, ROOT, SHOWN, every_template, modules

from seamwright.words.catalog import read_catalog, read_files
from seamwright.words.template import places
from seamwright.words.translate import translate, unread

BY_HAND = {"terms.json", "pieces.json", "library.json"}
"""Single words, pieces of sentences and sentences of libraries: not found by reading the source."""
FOUND = every_template()


def test_every_sentence_has_its_spanish() -> None:
    """`python -m tests.house.templates` prints those that have none, with their module."""
    bare = [t for t in FOUND if t not in read_catalog("es") and t not in NEVER_SAID]
    assert bare == []


def test_nothing_in_the_catalog_is_left_over() -> None:
    """A sentence that the source says no more goes out of the catalog, and out of the list."""
    held = {t for name, file in read_files("es").items() if name not in BY_HAND for t in file}
    assert sorted(held - set(FOUND)) == []
    assert sorted(NEVER_SAID - set(FOUND)) == []


def test_terms_stand_in_the_source() -> None:
    """A word or piece that no module holds any more goes out."""
    source = "\n".join(
        path.read_text(encoding="utf-8") for path in ROOT.rglob("*.py") if "words" not in path.parts
    ).lower()
    flat = re.sub(r"[\"']\s*\n?\s*f?[\"']|_", " ", source)
    gone = []
    for name in ("terms.json", "pieces.json"):
        for template in read_files("es")[name]:
            own = [part.strip(" ,;:.") for part in re.split(r"\{\w+\}", template.lower())]
            words = [word for part in own for word in re.findall(r"[a-z]{3,}", part)]
            gone += [template for word in words if word not in flat]
    assert gone == []


def test_a_template_stands_once() -> None:
    """No two files hold the same template, with the same or other words."""
    counted = Counter(template for file in read_files("es").values() for template in file)
    assert [template for template, count in counted.items() if count > 1] == []


@pytest.mark.parametrize("name", sorted(read_files("es")))
def test_both_languages_fill_the_same_places(name: str) -> None:
    """And nothing is empty, and the blanks at either end are kept."""
    for template, words in read_files("es")[name].items():
        assert sorted(places(template)) == sorted(places(words)), template
        assert words.strip(), template
        ends = [(text[:1] == " ", text[-1:] == " ") for text in (template, words)]
        assert ends[0] == ends[1], template


def test_files_are_in_order() -> None:
    """So that a change shows where it is."""
    for name, file in read_files("es").items():
        assert list(file) == sorted(file, key=str.lower), name


@pytest.mark.parametrize("name", sorted(set(read_files("es")) - BY_HAND))
def test_each_template_is_found_again(name: str) -> None:
    """Filled with names, a sentence is read by its own template, or by one that says the same."""
    wrong = []
    for template, words in read_files("es")[name].items():
        filled = {place: f"X{n}9" for n, place in enumerate(dict.fromkeys(places(template)))}
        english, spanish = (_filled(text, filled) for text in (template, words))
        whole = english.strip() == english
        if unread(english, "es") or (whole and translate(english, "es") != spanish):
            wrong.append(f"{english} | {translate(english, 'es')} | {spanish}")
    assert wrong == []


def test_what_is_left_out_is_there() -> None:
    """Every module or room named as not on the desk, or as shown all the same, exists."""
    gone = [name for name in (*NOT_ON_THE_DESK, *SHOWN) if not (ROOT / name).exists()]
    assert gone == []
    assert len(modules()) > 200


def test_spanish_is_one_kind_of_text() -> None:
    """One word for one thing: the glossary's, not its rivals'."""
    rivals = {
        "vapour", "ordenador", "escritorio", "nudo", "nudos", "concreto", "cemento", "obra negra",
        "teipe", "masilla", "empaque", "sílicon", "vosotros", "vuestro", "utilizar", "taipe",
    }  # fmt: skip
    found = [
        (words, rival)
        for words in read_catalog("es").values()
        for rival in rivals
        if re.search(rf"\b{rival}\b", words.lower())
    ]
    assert found == []


def test_the_pages_use_the_same_words() -> None:
    """Kinds of joints are called alike by the pages and by the sentences."""
    web = json.loads(
        (ROOT.parents[1] / "web" / "src" / "words" / "es.json").read_text(encoding="utf-8")
    )
    for kind in ("ridge", "eave", "sill", "wall_corner", "floor_line", "roof_spline", "rake"):
        assert translate(kind.replace("_", " "), "es") == web[f"kind.{kind}"]


def _filled(template: str, values: dict[str, str]) -> str:
    return re.sub(r"\{(\w+)\}", lambda match: values[match[1]], template)
