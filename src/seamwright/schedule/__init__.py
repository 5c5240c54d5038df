"""What must be done before it is hidden, in which order, and on which day."""
