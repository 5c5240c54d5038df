"""The register of standards, papers and handbooks that figures and methods rest on.

Three marks say how far a number can be trusted: a source of this register, ``common practice, no
source`` for a fact of the trade, and ``from memory`` where nobody here has seen it in print.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from seamwright.sources.air import AIR
from seamwright.sources.building import BUILDING
from seamwright.sources.climate import CLIMATE
from seamwright.sources.moisture import MOISTURE
from seamwright.sources.record import Source
from seamwright.sources.schedule import SCHEDULE

COMMON_PRACTICE = "common practice, no source"
FROM_MEMORY = "from memory"

_ALL = (*BUILDING, *AIR, *CLIMATE, *MOISTURE, *SCHEDULE)

SOURCES: Mapping[str, Source] = MappingProxyType({source.key: source for source in _ALL})


def cited(keys: Iterable[str]) -> tuple[Source, ...]:
    """Return the sources with these keys, each once, in the order of the register.

    Raises KeyError for a key that is not in the register: a citation must lead somewhere.
    """
    wanted = set(keys)
    unknown = wanted - set(SOURCES)
    if unknown:
        raise KeyError(", ".join(sorted(unknown)))
    return tuple(source for source in _ALL if source.key in wanted)
