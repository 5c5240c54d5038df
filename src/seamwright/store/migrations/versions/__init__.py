"""One file to a step, in order of their numbers."""
