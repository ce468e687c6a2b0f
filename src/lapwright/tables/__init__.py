"""Handbook data as printed, a source on every row, read on first use."""
