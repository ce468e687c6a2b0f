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

    @property
    def is_over(self) -> bool:
        return not self.value <= self.most

    def __str__(self) -> str:
        mark = "   OVER" if self.is_over else ""
        return f"{self.what:<62} {self.value:6.2f}{self.unit:<3} at most {self.most:g}{self.unit}{mark}"
