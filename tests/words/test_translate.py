"""Sentences in Spanish, from the templates they were made of."""

from __future__ import annotations

import pytest

from seamwright.words import translate
from seamwright.words.template import Template
from seamwright.words.translate import unread


@pytest.mark.parametrize(
    ("english", "spanish"),
    [
        ("give a length greater than zero", "dé una longitud mayor que cero"),
        ("Set panel A.1", "Colocar panel A.1"),
        ("Dry the skins: inner face of storey 1", "Secar las pieles: cara interior de la planta 1"),
        (
            (
                'No stock strip covers this joint on the inner face: it needs 17 1/2" over a span '
                'of 8\'-7 7/16", and the widest strip is 18".'
            ),
            (
                'Ninguna tira en existencia cubre esta junta en la cara interior: necesita 17 1/2" '
                'sobre un desarrollo de 8\'-7 7/16", y la más ancha tiene 18".'
            ),
        ),
        (
            (
                "climate zone 2A (IECC 2021), hot and dry: either face serves; inside for "
                "workmanship and no sun on the strip"
            ),
            (
                "zona climática 2A (IECC 2021), cálido y seco: sirve cualquier cara; interior por "
                "la calidad del trabajo y porque no da el sol en la tira"
            ),
        ),
        ("ridge, 127°, over timber", "cumbrera, 127°, sobre madera"),
    ],
)
def test_sentences_are_found_again(english: str, spanish: str) -> None:
    """Whole sentences, sentences within others, and sentences put together from parts."""
    assert translate(english, "es") == spanish
    assert translate(english, "en") == english
    assert unread(english, "es") == 0


@pytest.mark.parametrize(
    "own",
    ["skin edge scraped in unloading and planed back", "Heron House", "", " ", "M. Okonjo", "12 %"],
)
def test_what_people_wrote_stays(own: str) -> None:
    """Words of a user are nobody's template, even where some of them are terms."""
    assert translate(own, "es") == own


def test_what_stands_in_quotes_stays() -> None:
    """A term in quotes is what somebody wrote."""
    assert translate("there is no panel type ‘ridge’", "es") == "no hay tipo de panel ‘ridge’"


def test_the_reading_with_the_fewest_unread_words_counts() -> None:
    """``panel of ...`` could be read into this too, and would leave a word over."""
    assert translate("Set wall panel A.1", "es") == "Colocar panel de muro A.1"


def test_a_place_may_stand_twice() -> None:
    """Both places of one name hold the same words."""
    template = Template.from_catalog("{a} and {a} of {b}", "{b}: {a}")
    assert template.values("x and x of y") == {"a": "x", "b": "y"}
    assert template.values("x and z of y") is None


def test_long_text_is_read_in_time() -> None:
    """A text of many parts that no catalog knows comes back as it is."""
    text = "; ".join(f"somebody wrote part {n}, and more (of it)" for n in range(60))
    assert translate(text, "es") == text
