"""What can hurt people at a fan test, printed on every test sheet.

Common practice in the trade, no source; local codes and licensed practice go before.
"""

from __future__ import annotations

COMBUSTION = (
    "Combustion. Before the fan runs, turn off and tag every fuel-burning appliance, also water "
    "heaters and gas fireplaces: drawing air out pulls flue gas and carbon monoxide into the "
    "house. Afterwards somebody qualified relights and checks each one. Keep a CO alarm running."
)
FIRE_AND_ASH = (
    "Fire and ash. No fire in any stove or fireplace for 24 hours before the test; take the ash "
    "out or cover it wet, and close the dampers. The fan lifts embers and soot into the rooms."
)
DUST = (
    "Dust and asbestos. Do not draw air through a building with loose asbestos, lead dust, mold "
    "or droppings: stop and call a licensed professional. On a building site sweep first and wear "
    "a respirator fit for wood and silica dust."
)
LOOSE_THINGS = (
    "Loose things. Tie down or take out covers, boards, film and loose panels; fasten hatches and "
    "doors so that none slams. Set the fan frame tight, keep hands and hair off the blades, and "
    "keep children and animals away."
)
VENTILATION = (
    "Ventilation. Switch off fans, dryers and air handlers, and write down how each opening was "
    "closed. Put everything back afterwards: a house this tight needs its mechanical ventilation "
    "running whenever people are in it."
)
FOG = (
    "Fog. Theatrical fog sets off smoke alarms and may call the fire service: tell neighbors, the "
    "alarm company and the brigade before, cover detectors only while somebody watches, uncover "
    "them after. Keep people with asthma out."
)
FAN_CAUTIONS = (COMBUSTION, FIRE_AND_ASH, DUST, LOOSE_THINGS, VENTILATION, FOG)

FAN_DEFERRAL = (
    "This sheet is arithmetic on the tester's readings. It does not make anybody a licensed or "
    "certified tester, and it is no certificate: the standard itself, the code in force, the "
    "authority having jurisdiction and the appliance maker's instructions go before it. Equations "
    "and limits of the standards were written from memory and are marked so; check them against "
    "the edition you test to."
)
