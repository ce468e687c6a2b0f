"""Many settings of one engine worked through, in one process, in several, or on a cluster."""
