"""Results turned into documents as data."""
