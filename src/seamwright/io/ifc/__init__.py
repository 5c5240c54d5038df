"""Building models (IFC, ISO 16739) in and out. Needs the optional package ifcopenshell."""

from seamwright.io.ifc.ids import global_id
from seamwright.io.ifc.read import read_ifc
from seamwright.io.ifc.types import DEFAULTS, IfcReading, PanelDefaults
from seamwright.io.ifc.write import write_ifc

__all__ = ["DEFAULTS", "IfcReading", "PanelDefaults", "global_id", "read_ifc", "write_ifc"]
