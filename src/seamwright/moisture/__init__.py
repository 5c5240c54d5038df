"""Heat and moisture in layers and joint sections: steady conduction and monthly condensation.

Arrays and frozen records in SI: metres, W, °C. The room knows nothing of houses: a section comes
as outlines with conductivities, a wall as layers from inside out.
"""
