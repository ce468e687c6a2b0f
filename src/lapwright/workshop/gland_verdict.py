"""How it is said whether a packing or a ring suits what it has to live with."""

from __future__ import annotations

from dataclasses import dataclass

SUITS, CARE, UNSUITABLE = "suits", "with care", "unsuitable"


@dataclass(frozen=True, slots=True)
class Judgement:
    """Whether a material suits: `verdict` is "suits", "with care" or "unsuitable", and `reason` says why.

    `limit` is the temperature up to which it does [K], None where none is known.
    """

    material: str
    verdict: str
    reason: str
    limit: float | None
    sources: tuple[str, ...]

    @property
    def suits(self) -> bool:
        """Whether it can be fitted, with care or without."""
        return self.verdict != UNSUITABLE
