"""What goes over the wire: every body and answer as a typed record, SI with the unit in the key."""
