"""Threads, drills, glands, pins, fits, covers and paint: small calculations over the tables."""
