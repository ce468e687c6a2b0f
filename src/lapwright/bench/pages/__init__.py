"""One module for each page of the bench: its addresses and what it answers."""
