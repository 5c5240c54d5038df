"""Documents to PDF."""
