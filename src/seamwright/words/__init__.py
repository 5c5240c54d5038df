"""Other languages: finished English sentences are turned into them by catalogs of templates.

>>> translate("give a length greater than zero", "es")
'dé una longitud mayor que cero'
"""

from __future__ import annotations

from seamwright.words.catalog import Language, read_catalog
from seamwright.words.translate import translate

__all__ = ["Language", "read_catalog", "translate"]
