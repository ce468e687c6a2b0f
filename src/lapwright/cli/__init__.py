"""The command line: one file per command, printing only."""

from lapwright.cli.app import app, main

__all__ = ["app", "main"]
