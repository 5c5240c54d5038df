"""Building models (IFC, ISO 16739) in and out. Needs the optional package ifcopenshell."""

from seamwright.io.ifc.read import read_ifc
from seamwright.io.ifc.types import DEFAULTS, IfcReading, PanelDefaults

__all__ = ["DEFAULTS", "IfcReading", "PanelDefaults", "read_ifc"]
