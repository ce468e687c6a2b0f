"""Questions to the tables in a person's words, and their answers on a sheet."""
