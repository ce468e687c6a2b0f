"""Lands narrower than the ports: at mid-travel each port is open to steam and to exhaust together."""

from __future__ import annotations

from lapwright.engine.cylinder import ENDS
from lapwright.findings.aim import Aim, lap_slack
from lapwright.findings.causes.steam_edges import right_lap
from lapwright.findings.edges import set_exhaust_laps, set_steam_laps
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words
from lapwright.findings.symptoms import Symptom, exhaust_slack
from lapwright.findings.words import say_mm, set_at_mid_travel


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the lands where both their edges fall short of the port."""
    lap, exhaust, throw = reading.lap, reading.exhaust_lap, reading.throw
    if lap is None or exhaust is None or throw is None:
        return []
    below, _ = exhaust_slack(throw, lap)
    if lap >= -lap_slack(throw) or exhaust >= -lap_slack(throw):
        return []
    steam = set_steam_laps(reading, dict.fromkeys(ENDS, right_lap(reading, aim) or 0.0))
    changes = {**steam, **set_exhaust_laps(reading.changed(steam), dict.fromkeys(ENDS, 0.0))}
    return [
        Suspicion(
            code="chest-open-to-exhaust",
            size=_measure(reading),
            unit="mm",
            changes=changes,
            measure=_measure,
            tell=_tell,
            # Exhaust edges within what is usual are no second error, if the steam edges alone can close the way.
            reluctance=-0.6 if exhaust < -below else 0.0,
        )
    ]


def _measure(reading: Reading) -> float | None:
    if reading.lap is None or reading.exhaust_lap is None:
        return None
    return -1e3 * (reading.lap + reading.exhaust_lap)


def _tell(case: Case) -> Words:
    found = case.found
    steam, exhaust = 1e3 * (found.lap or 0.0), 1e3 * (found.exhaust_lap or 0.0)
    return Words(
        title=f"The valve's lands are {say_mm(case.size)} narrower than the ports",
        because=(
            f"at mid-travel each port is open {say_mm(steam)} to steam and {say_mm(exhaust)} to exhaust at the "
            "same time, so the "
            f"chest is open straight to exhaust for {found.motion.chest_to_exhaust_deg or 0.0:.0f} deg of a turn"
        ),
        check_next=(
            f"{set_at_mid_travel(found)}, each land should just hide its port. Measure land and port with the same "
            "calliper: the valve may belong to another engine"
        ),
    )
