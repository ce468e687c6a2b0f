"""What counts as right: the purpose or the target in the record, or what is usual where the record is silent."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, degrees

from lapwright.engine.engine import PURPOSES, Engine, Target

STEADY, AIR, ECONOMICAL = PURPOSES

#: What the purposes are called in a sentence.
IN_WORDS = {STEADY: STEADY, AIR: AIR, ECONOMICAL: "economy on steam"}
#: How far before dead centre the ports may open [deg]. Common practice, no source.
EARLIEST = {STEADY: 8.0, AIR: 8.0, ECONOMICAL: 12.0}
#: Lead as a share of the throw, for a valve with lap. The published leads run from nothing to 14 % (molesworth);
#: a small engine at moderate speed wants little.
LEAD_SHARE = {STEADY: 0.04, AIR: 0.0, ECONOMICAL: 0.06}
#: Latest cut-off that still deserves to be called economical, share of the stroke.
LATEST_ECONOMICAL = 0.85
#: Cut-off aimed at where economy is wanted: what lap of 0.22 of the travel gives (molesworth, p. 501).
ECONOMICAL_CUT_OFF = 0.74


@dataclass(frozen=True, slots=True)
class Aim:
    """What the engine is judged against. Lengths in m, angles in deg, shares 0 to 1.

    `purpose_given` tells whether the record says what the engine is for; `target` is what it asks for in figures.
    """

    purpose: str
    purpose_given: bool
    target: Target

    @property
    def earliest_deg(self) -> float:
        """How far before dead centre admission may lie [deg]."""
        return EARLIEST[self.purpose]

    @property
    def cut_off(self) -> float | None:
        """Cut-off aimed at, share of the stroke; None where any usual one will do."""
        if self.target.cut_off is not None:
            return self.target.cut_off
        return ECONOMICAL_CUT_OFF if self.purpose == ECONOMICAL else None

    def lead(self, throw: float, lap: float) -> float:
        """Lead aimed at [m] for a throw and a steam lap [m]; a valve without lap gets none."""
        if self.target.lead is not None:
            return self.target.lead
        return LEAD_SHARE[self.purpose] * throw if lap > lap_slack(throw) else 0.0

    def is_late(self, throw: float, lead: float) -> bool:
        """Whether a mean lead [m] is too small: negative, or short of the target."""
        wanted = 0.0 if self.target.lead is None else self.target.lead
        return lead < wanted - lap_slack(throw) - (0.0 if self.target.lead is None else 0.01 * throw)

    def is_early(self, throw: float, *, lap: float, lead: float) -> bool:
        """Whether a mean lead [m] is too large: opening too far before dead centre, or beyond the target."""
        if self.target.lead is not None:
            return lead > self.target.lead + lap_slack(throw) + 0.01 * throw
        return early_by(throw, lap=lap, lead=lead) > self.earliest_deg


def lap_slack(throw: float) -> float:
    """Return the lap or lead [m] that nobody would call a fault at a throw [m].

    Source: common practice, no source (what a rule and a feeler can tell apart)
    """
    return 0.02e-3 + 0.001 * throw


def early_by(throw: float, *, lap: float, lead: float) -> float:
    """Return how far before dead centre a port opens [deg], negative for after, 90 late where it never opens.

    Parameters
    ----------
    throw, lap, lead: [m]; the lead may be negative

    Source: exact geometry (for rods long against the throw)
    """
    if lap >= throw:
        return -90.0
    return degrees(asin(_within((lap + lead) / throw)) - asin(_within(lap / throw)))


def _within(ratio: float) -> float:
    return min(max(ratio, -1.0), 1.0)


def choose_aim(engine: Engine) -> Aim:
    """Return what the engine is judged against: the record's purpose and target, or steady running."""
    return Aim(engine.purpose or STEADY, engine.purpose is not None, engine.target)


def describe_aim(aim: Aim) -> tuple[str, ...]:
    """Say in sentences what counts as right, and which of it was taken for granted."""
    told = "" if aim.purpose_given else " (not given in the record: taken as usual)"
    lines = [f"Judged for {IN_WORDS[aim.purpose]}{told}."]
    target = aim.target
    if target.lead is None:
        lines.append(f"Ports should open at dead centre or up to {aim.earliest_deg:.0f} deg before it (usual).")
    else:
        lines.append(f"Lead wanted: {target.lead * 1e3:.2f} mm at each end.")
    if target.lap is not None:
        lines.append(f"Steam lap wanted: {target.lap * 1e3:.2f} mm.")
    if aim.cut_off is not None:
        usual = "" if target.cut_off is not None else " (usual for economy)"
        lines.append(f"Cut-off wanted: {aim.cut_off * 100:.0f} % of the stroke{usual}.")
    if target.equal is not None:
        lines.append(f"The ends should have equal {'leads' if target.equal == 'leads' else 'cut-off'}.")
    return tuple(lines)
