"""One engine's visit: opens a record, computes on demand; the one front door for every way of using the program."""
