"""Which size is worth measuring again: how much of the answers' doubt comes from each."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass

from lapwright.engine.assume import AFFECTS, list_assumed, list_unbounded
from lapwright.engine.sizes import Sizes
from lapwright.motion.spread import Spread, rank_culprits

_EVENTS = {"admission": "admission", "cut_off": "cut-off", "release": "release", "compression": "compression"}
_ENDS = {"head": "head end", "crank": "crank end"}
#: What the answers that may rest on a size are in words, by the end of their names.
_RESTING = {
    "crank_deg": "when the ports open and close",
    "stroke_percent": "where the piston stands then",
    "lead_mm": "the leads",
    "steam_opening_mm": "the openings to steam",
    "exhaust_opening_mm": "the openings to exhaust",
    "chest_to_exhaust_deg": "whether the chest is ever open to exhaust",
    "valve_travel_mm": "the valve's travel",
    "exhaust_way_mm": "the way out under the valve",
}
#: Rods bend the timing only a little; a line or a valve that is taken as central is how engines are meant.
_USUAL = ("connecting_rod", "valve_drive.eccentric_rod")


@dataclass(frozen=True, slots=True)
class DoubtShare:
    """A size's part in the doubt: its rank (1 is worst, 0 for none), and in how many of all doubtful answers it leads.

    `worst` is the event that is most in doubt because of it, with how far it may be out, in words; may be empty.
    A size that was not measured and may be anything comes before all that were.
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


@dataclass(frozen=True, slots=True)
class OnlyTaken:
    """A size that is only taken for now: its key below the cylinder, its value, and the answers that rest on it.

    `count` is how many answers, `words` says which; `is_open` that it may be anything and is to be measured first.
    """

    key: str
    value: str
    count: int
    words: str
    is_open: bool


def list_taken(sizes: Sizes, answers: Container[str]) -> tuple[OnlyTaken, ...]:
    """Return the sizes of a cylinder that are only taken, and that answers rest on, those that may be anything first.

    Parameters
    ----------
    sizes: with what was assumed filled in
    answers: names of all figures that are known of the cylinder

    Example:
    >>> sizes = Sizes("A", {"valve_drive.eccentric_angle": 1.6}, assumed={"valve_drive.eccentric_angle": "not given"})
    >>> list_taken(sizes, ["head.lead_mm", "head.cut_off.crank_deg", "valve_travel_mm"])[0].words
    'when the ports open and close, the leads'
    """
    values = {assumed.key: assumed.value for assumed in list_assumed(sizes)}
    taken = []
    for key in (*(opened := list_unbounded(sizes)), *_USUAL):
        if key not in values:
            continue
        names = (path.removeprefix("ends.").replace(".events.", ".") for path in AFFECTS[key])
        known = [name for name in names if name in answers]
        words = [words for ending, words in _RESTING.items() if any(name.endswith(ending) for name in known)]
        if known:
            taken.append(OnlyTaken(key, values[key], len(known), ", ".join(words), key in opened))
    return tuple(taken)


def share_doubt(spreads: Mapping[str, Spread], taken: tuple[OnlyTaken, ...] = ()) -> dict[str, DoubtShare]:
    """Return the share of every size that leads in the doubt of any answer, by its key below the cylinder.

    Parameters
    ----------
    spreads: of one cylinder's figures
    taken: its sizes that are only taken; those that may be anything lead the ranks

    Example:
    >>> share_doubt({"head.cut_off.crank_deg": Spread(2.0, "valve.length")})["valve.length"].worst
    'cut-off at the head end ± 2.0 deg'
    """
    ranked = rank_culprits(spreads)
    total = sum(count for _, count in ranked)
    first = {one.key: DoubtShare(rank) for rank, one in enumerate((one for one in taken if one.is_open), 1)}
    return first | {
        key: DoubtShare(rank, count, total, _find_worst(spreads, key))
        for rank, (key, count) in enumerate(ranked, len(first) + 1)
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
