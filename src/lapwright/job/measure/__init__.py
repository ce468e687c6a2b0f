"""What the page for measuring tells: every size, how to take it, how well it has to be known, and what is missing."""
