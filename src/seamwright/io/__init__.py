"""Reading and writing: one format, one file."""
