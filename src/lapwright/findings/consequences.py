"""What a fault does to the running, said once for every kind of symptom, and how bad it is."""

from __future__ import annotations

from lapwright.findings.suspicion import Case

#: Symptoms that are no finding codes of their own, by the code under which they are told.
TOLD_AS = {"exhaust-starved": "exhaust-choked", "exhaust-lap": "", "valve-off-centre": "ends-unequal"}

_PHRASES = {
    "port-never-opens": "an end whose port never opens does no work",
    "eccentric-reversed": "it will not run in the wanted direction, and runs backwards if pushed",
    "late-admission": "the piston leaves before the steam comes: weak, uneven beat, poor starting, more air or "
    "steam for the work",
    "early-admission": "steam meets the piston before it has finished its stroke: it may knock, and go unwillingly at "
    "low speed",
    "ends-unequal": "the two ends do unequal work: it limps, and may stop on one dead centre",
    "exhaust-choked": "the exhaust cannot get away: back pressure grows with speed",
    "port-starved": "the steam is wire-drawn: it will not pull at speed",
    "overtravel": "a port is uncovered that should stay shut",
    "valve-strikes-chest": "it cannot be turned over without bending the spindle",
    "no-expansion-possible": "steam is used at full pressure to the end of the stroke and thrown away",
    "exhaust-lap": "the exhaust is opened or shut at the wrong time: back pressure, or cushioning that robs power",
}


def name_effects(case: Case) -> tuple[str, ...]:
    """Return the codes of the faults that follow from a cause, the cause's own left out."""
    names = dict.fromkeys(TOLD_AS.get(symptom.code, symptom.code) for symptom in case.cleared)
    return tuple(name for name in names if name and name != case.suspicion.code)


def describe_effect(case: Case) -> str:
    """Say what the fault does to the running."""
    parts = []
    blow = case.found.motion.chest_to_exhaust_deg or 0.0
    codes = dict.fromkeys(symptom.code for symptom in case.cleared)
    if "chest-open-to-exhaust" in codes:
        parts.append(f"live steam or air blows straight to exhaust for {blow:.0f} deg of every turn, at any load")
    # With one working end there is no other to be unequal to: its steam and its exhaust only come at the wrong time.
    instead = "ends-unequal" if len(case.found.ends) > 1 else "exhaust-lap"
    codes = {(instead if code == "valve-off-centre" else code): None for code in codes}
    parts += [_PHRASES[code] for code in codes if code in _PHRASES][: 3 - len(parts)]
    if not parts:
        parts = ["hardly felt in the running"]
    return "; ".join(parts)


def judge_severity(case: Case, doubt: float | None, *, assumed: bool = False) -> str:
    """Return how bad a fault is, from what mending it alone would clear; the doubt is in its unit [mm or deg].

    One within its own doubt is a note; one that hangs on an assumed size is never more than worth doing.
    """
    weight = sum(symptom.weight for symptom in case.cleared)
    if doubt is not None and case.suspicion.size is not None and case.size <= doubt:
        return "note"
    if assumed:
        return "worth-doing" if weight >= 0.5 else "note"
    if case.suspicion.code == "valve-strikes-chest" or weight >= 5:
        return "stops-it"
    if weight >= 1:
        return "spoils-it"
    return "worth-doing" if weight >= 0.5 else "note"
