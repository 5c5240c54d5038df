"""The addresses of the interface, a file to a noun."""
