"""From seals to pieces, cuts and an order; every line points to its parts."""
