"""Whether wood in a joint stays dry enough, judged on hourly series of a place.

`judge` measures a series against `Limits` and gives a `Verdict` with one signed margin;
`largest_leak` turns margins over leakage into the largest leak that stays within limits;
`recommend` compares the faces a strip may go on. All of it is a proposal to the designer.
Temperatures in °C, relative humidity in parts of one, wood moisture in kg per kg dry.
"""
