"""The house as planes, members and openings, and how it splits into panels."""
