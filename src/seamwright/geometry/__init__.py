"""Points, planes, polygons, intervals and spatial search; no building words here."""
