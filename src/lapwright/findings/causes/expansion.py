"""No lap to cut the steam off with, where expansion is wanted."""

from __future__ import annotations

from lapwright.engine.cylinder import ENDS
from lapwright.findings.aim import Aim, lap_slack
from lapwright.findings.edges import set_exhaust_laps, set_steam_laps
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words, codes_of
from lapwright.findings.symptoms import Symptom, cut_offs
from lapwright.findings.words import say_lap, say_mm
from lapwright.motion.solve import find_zero

THROW = "valve_drive.throw"
#: Share of the port that the valve should still open when it has lap.
OPEN_SHARE = 0.85


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the lap where the cut-off is not the one aimed at, though the ports open in time."""
    if "no-expansion-possible" not in codes_of(symptoms) or reading.lap is None or reading.throw is None:
        return []
    if codes_of(symptoms) & {"late-admission", "early-admission", "eccentric-reversed"}:
        return []
    lap = right_lap_for_cut_off(reading, aim)
    if lap is None:
        return []
    changes = _change_all(reading, aim, lap=lap)
    if not changes:
        return []
    more = 2e3 * (reading.lap - (reading.changed(changes).lap or 0.0))
    none = reading.lap <= lap_slack(reading.throw) and more < 0
    code = "no-expansion-possible" if none else _edge_code(reading, more)
    return [Suspicion(code=code, size=abs(more), unit="mm", changes=changes, tell=_tell, reluctance=0.3)]


def _change_all(reading: Reading, aim: Aim, *, lap: float) -> dict[str, float]:
    """Lap and advance together, and more throw where the lap would leave too little of it to open the port."""
    throw, port = reading.throw or 0.0, reading.port or 0.0
    more = max(1.0, OPEN_SHARE * port / (throw - lap))
    if aim.target.lap is not None:
        more = max(1.0, (lap + OPEN_SHARE * port) / throw)
    else:
        lap *= more
    wider = {} if more == 1.0 else {THROW: reading.sizes.numbers[THROW] * more}
    driven = reading.changed(wider)
    if not driven.turns:
        return {}
    advance = driven.solve_advance(aim.lead(throw * more, lap), lap)
    if advance is None:
        return {}
    edges = set_steam_laps(reading, dict.fromkeys(ENDS, lap))
    if reading.exhaust_lap is not None:
        # A new valve does not copy a cavity that is off its middle.
        edges |= set_exhaust_laps(reading.changed(edges), dict.fromkeys(ENDS, max(reading.exhaust_lap, 0.0)))
    return {**edges, **driven.turned_to(advance), **wider}


def right_lap_for_cut_off(reading: Reading, aim: Aim) -> float | None:
    """Return the steam lap [m] that, with the eccentric set to suit, gives the target's lap or the cut-off aimed at."""
    if aim.target.lap is not None:
        return aim.target.lap
    wanted, throw = aim.cut_off, reading.throw
    if wanted is None or throw is None:
        return None

    def over(lap: float) -> float:
        advance = reading.solve_advance(aim.lead(throw, lap), lap)
        if advance is None:
            return -1.0
        level = set_steam_laps(reading, dict.fromkeys(("head", "crank"), lap))
        shares = cut_offs(reading.changed({**level, **reading.turned_to(advance)}))
        return (sum(shares) / len(shares) if shares else 1.0) - wanted

    return find_zero(over, 0.0, 0.9 * throw, steps=25)


def _edge_code(reading: Reading, more: float) -> str:
    if reading.outside:
        return "valve-too-long" if more > 0 else "valve-too-short"
    return "cavity-too-short" if more > 0 else "cavity-too-long"


def _tell(case: Case) -> Words:
    now, then = cut_offs(case.found), cut_offs(case.mended)
    cut, aimed = 100 * sum(now) / max(len(now), 1), 100 * sum(then) / max(len(then), 1)
    lap, wanted = 1e3 * (case.found.lap or 0.0), 1e3 * (case.mended.lap or 0.0)
    none = case.suspicion.code == "no-expansion-possible"
    return Words(
        title="There is no lap to cut the steam off with"
        if none
        else f"The steam lap is {say_mm(case.size / 2)} too {'large' if lap > wanted else 'small'}",
        because=(
            f"with {say_lap(lap)} steam is cut off at {cut:.0f} % of the stroke; {say_mm(wanted)} of lap, "
            "with the eccentric "
            f"moved on to suit, cuts it off at {aimed:.0f} %"
        ),
        check_next=(
            "decide first whether the engine is to work on steam at all: on air for show, full stroke runs sweetest"
        ),
    )
