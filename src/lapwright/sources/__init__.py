"""The bibliography: one entry per book, standard or paper, one key each."""

from lapwright.sources.citing import Source, UnknownSource, cite
from lapwright.sources.shelf import SOURCES

__all__ = ["SOURCES", "Source", "UnknownSource", "cite"]
