"""Heat, air and moisture through a section hour by hour, after EN 15026 with air leakage added.

A section comes as control volumes with links (`Mesh`), its weather as hourly airs, its leaks as
ways of air through the volumes. Frozen records in SI: metres, kg, W, Pa, °C; humidity in parts of
one. Everything is per metre of joint.
"""
