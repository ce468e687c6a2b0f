"""Which size is worth measuring again: how much of the answers' doubt comes from each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.motion.spread import Spread, rank_culprits

_EVENTS = {"admission": "admission", "cut_off": "cut-off", "release": "release", "compression": "compression"}
_ENDS = {"head": "head end", "crank": "crank end"}


@dataclass(frozen=True, slots=True)
class DoubtShare:
    """A size's part in the doubt: its rank (1 is worst, 0 for none), and in how many of all doubtful answers it leads.

    `worst` is the event that is most in doubt because of it, with how far it may be out, in words; may be empty.
    """

    rank: int = 0
    count: int = 0
    total: int = 0
    worst: str = ""

    @property
    def percent(self) -> int:
        """Its share [%]."""
        return round(100 * self.count / self.total) if self.total else 0


NO_SHARE = DoubtShare()


def share_doubt(spreads: Mapping[str, Spread]) -> dict[str, DoubtShare]:
    """Return the share of every size that leads in the doubt of any answer, by its key below the cylinder.

    Parameters
    ----------
    spreads: of one cylinder's figures

    Example:
    >>> share_doubt({"head.cut_off.crank_deg": Spread(2.0, "valve.length")})["valve.length"].worst
    'cut-off at the head end ± 2.0 deg'
    """
    ranked = rank_culprits(spreads)
    total = sum(count for _, count in ranked)
    return {
        key: DoubtShare(rank, count, total, _find_worst(spreads, key)) for rank, (key, count) in enumerate(ranked, 1)
    }


def _find_worst(spreads: Mapping[str, Spread], key: str) -> str:
    events = {
        name: spread.half_width
        for name, spread in spreads.items()
        if spread.mostly_from == key and name.endswith(".crank_deg")
    }
    if not events:
        return ""
    name = max(events, key=lambda each: events[each])
    end, event, _ = name.split(".")
    return f"{_EVENTS[event]} at the {_ENDS[end]} ± {events[name]:.1f} deg"
