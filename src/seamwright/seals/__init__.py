"""The seal of each joint: face, strip, beads, dams, stage."""
