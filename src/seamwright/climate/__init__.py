"""Moist air, sun and sky, and what they make of the skins of a shell, hour by hour.

Arrays in, arrays out: temperatures in °C, pressures in Pa, humidity as a part of one, angles in
radians, instants in seconds since 1970-01-01T00:00Z. No file, no clock.
"""
