"""Films and strips."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError
from seamwright.moisture.films import (
    Film,
    perms_of_sd,
    sd_of_films,
    sd_of_permeance_si,
    strip_cautions,
)


def test_an_unknown_film_names_those_that_are_known() -> None:
    """The message lists the films of the table."""
    with pytest.raises(InputError, match=r"no film called ‘cling film’.*breather membrane"):
        sd_of_films("cling film")


@pytest.mark.parametrize("value", [0.0, -1.0])
def test_nothing_resists_nothing(value: float) -> None:
    """An sd or a permeance of zero or less is refused."""
    with pytest.raises(InputError, match=r"sd .* is not above zero"):
        perms_of_sd(value)
    with pytest.raises(InputError, match=r"permeance .* is not above zero"):
        sd_of_permeance_si(value)


def test_a_film_knows_its_class() -> None:
    """0.2 m of still air is an open film, 35 m a class I."""
    open_, tight = (Film(id="f", name="f", sd=sd, source="") for sd in (0.2, 35.0))
    assert (open_.retarder, tight.retarder) == ("open", "I")
    assert open_.perms == pytest.approx(17.48, abs=0.01)


def test_cautions_go_with_face_climate_and_permeance() -> None:
    """Tight inside is told in hot humid zones, tight outside in cold ones, and nothing else."""
    assert "bars" in strip_cautions("inner", 0.1, "2A")[0]
    assert "closes the line" in strip_cautions("outer", 0.3, "4C")[0]
    assert strip_cautions("inner", 0.1, "6A") == ()
    assert strip_cautions("outer", 0.1, "2A") == ()
    assert strip_cautions("outer", 10.0, "7") == ()
    assert strip_cautions("inner", 5.0, "1A") == ()
