"""One figure of a benchmark: a ratio and the most it may be."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Ratio:
    """What was compared, the ratio found, and its limit."""

    what: str
    value: float
    most: float
    unit: str = ""

    def __str__(self) -> str:
        mark = "" if self.value <= self.most else "   OVER"
        return f"{self.what:<62} {self.value:6.2f}{self.unit:<3} at most {self.most:g}{self.unit}{mark}"
