"""What to cut or set; each cure predicts the engine after it."""

from lapwright.cures.cure import WORKS, Cure
from lapwright.cures.ways_out import find_cures

__all__ = ["WORKS", "Cure", "find_cures"]
