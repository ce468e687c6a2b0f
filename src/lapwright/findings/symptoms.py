"""What is out of order, whatever the cause: each with how badly.

A weight of 1 is what spoils the running, 5 what stops it; the weights only rank, they are common practice and have no
source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import asin, degrees

from lapwright.engine.cylinder import ENDS, OTHER_END
from lapwright.findings.aim import LATEST_ECONOMICAL, Aim, early_by, lap_slack
from lapwright.findings.reading import Reading

#: Openings, as shares of the steam port, below which the port counts as starved and the exhaust as choked.
#: The published rule for the exhaust is 1 (dole-1914, p. 62); small engines fall a little short.
LEAST_SHARE = 0.70
LEAST_WAY = 0.85
#: How late one end may open when the other makes up for it [deg].
ONE_END_SLACK = 3.0
#: How far cut-off may lie from the one aimed at, share of the stroke.
CUT_OFF_SLACK = 0.03


@dataclass(frozen=True, slots=True)
class Symptom:
    """One thing out of order: a finding code, the end where only one is hit, and its weight."""

    code: str
    end: str | None
    weight: float


def edge_slack(throw: float) -> float:
    """Return the error of an edge or of the valve's place [m] that makes no difference worth mending.

    Source: common practice, no source
    """
    return max(0.05e-3, 0.02 * throw)


def exhaust_slack(throw: float, lap: float) -> tuple[float, float]:
    """Return how far exhaust lap may lie below and above nothing [m]; a valve with lap may have some of it.

    Source: common practice, no source
    """
    return 0.05e-3 + 0.02 * throw, 0.05e-3 + 0.02 * throw + 0.15 * max(lap, 0.0)


def find_symptoms(reading: Reading, aim: Aim) -> tuple[Symptom, ...]:
    """Return all that is out of order in one cylinder, judged against an aim."""
    looks = (
        _look_at_direction,
        _look_at_mean_lead,
        _look_at_each_lead,
        _look_at_straight_way,
        _look_at_exhaust_lap,
        _look_at_ends,
        _look_at_openings,
        _look_at_ways,
        _look_at_overtravel,
        _look_at_walls,
        _look_at_expansion,
    )
    return tuple(symptom for look in looks for symptom in look(reading, aim))


def add_weights(symptoms: tuple[Symptom, ...]) -> float:
    """Return the weight of all symptoms together."""
    return sum(symptom.weight for symptom in symptoms)


def _degrees_of(length: float, throw: float) -> float:
    return degrees(asin(min(abs(length) / throw, 1.0)))


def _look_at_direction(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    if reading.direction < 0:
        yield Symptom("eccentric-reversed", None, 6.0)


def _look_at_mean_lead(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    throw, lap, lead = reading.throw, reading.lap, reading.lead
    if throw is None or lap is None or lead is None or _is_in_time_at_its_one_end(reading, aim):
        return
    early = early_by(throw, lap=lap, lead=lead)
    if aim.target.lead is not None:
        early -= early_by(throw, lap=lap, lead=aim.target.lead)
    if lap >= throw:
        yield Symptom("port-never-opens", None, 10.0 + (lap - throw) / throw)
    elif aim.is_late(throw, lead):
        yield Symptom("late-admission", None, 0.2 + abs(early) / 6)
    elif aim.is_early(throw, lap=lap, lead=lead):
        least = aim.earliest_deg if aim.target.lead is None else 0.0
        yield Symptom("early-admission", None, 0.2 + abs(early - least) / 6)


def _look_at_each_lead(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    """One end against the other: the valve off centre, or the slant of a short eccentric rod left uncorrected."""
    throw, laps, error = reading.throw, reading.steam_laps, reading.offset_error
    if throw is None or laps is None or error is None or aim.target.equal == "cut-off":
        return
    if _is_in_time_at_its_one_end(reading, aim):
        return
    equal = reading.equal_lead_offset or 0.0
    if abs(error) > edge_slack(throw) or (
        aim.target.equal == "leads" and abs(reading.offset - equal) > edge_slack(throw) / 2
    ):
        yield Symptom("valve-off-centre", None, 0.2 + _degrees_of(reading.offset - equal, throw) / 6)
        for end in reading.ends:
            if laps[end] < throw <= laps[end] + abs(reading.offset):
                yield Symptom("port-never-opens", end, 6.0)
        return
    lead = reading.lead
    if lead is None or any(lap >= throw for lap in laps.values()):
        return
    if aim.is_late(throw, lead) or aim.is_early(throw, lap=reading.lap or 0.0, lead=lead):
        return
    yield from _look_at_slant(reading, aim)


def _is_in_time_at_its_one_end(reading: Reading, aim: Aim) -> bool:
    """Whether a single-acting cylinder opens in time: it is set by that end alone, and the other end's lead is idle."""
    throw, laps, own = reading.throw, reading.steam_laps, reading.lead_at("head")
    if len(reading.ends) > 1 or throw is None or laps is None or own is None:
        return False
    # Off centre the valve overlaps this end's port by so much more or less.
    lap = laps["head"] + reading.hand * reading.offset
    return lap < throw and not aim.is_late(throw, own) and not aim.is_early(throw, lap=lap, lead=own)


def _look_at_slant(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    for end in reading.ends:
        own, throw = reading.lead_at(end), reading.throw
        if own is None or throw is None or reading.steam_laps is None:
            continue
        early = early_by(throw, lap=reading.steam_laps[end], lead=own)
        if early < -ONE_END_SLACK:
            yield Symptom("late-admission", end, 0.2 + (-early - ONE_END_SLACK / 2) / 6)
        elif early > aim.earliest_deg + ONE_END_SLACK:
            yield Symptom("early-admission", end, 0.2 + (early - aim.earliest_deg) / 6)


def _look_at_straight_way(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    blow = reading.motion.chest_to_exhaust_deg
    if blow is not None and blow > 0.5:
        yield Symptom("chest-open-to-exhaust", None, 1.0 + blow / 30)
    lap, throw = reading.lap, reading.throw
    if lap is not None and throw is not None and lap < -lap_slack(throw):
        yield Symptom("early-admission", None, 0.2 + _degrees_of(lap, throw) / 6)


def _look_at_exhaust_lap(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    throw, lap = reading.throw, reading.exhaust_lap
    if throw is None or lap is None:
        return
    below, above = exhaust_slack(throw, reading.lap or 0.0)
    if not -below <= lap <= above:
        over = -lap - below if lap < 0 else lap - above
        yield Symptom("exhaust-lap", None, 0.25 + _degrees_of(over, throw) / 8)


def _look_at_ends(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    throw = reading.throw
    if throw is None or len(reading.ends) < 2:
        return
    for laps, weight in ((reading.steam_laps, 6), (reading.exhaust_laps, 8)):
        if laps is not None:
            half = abs(laps["head"] - laps["crank"]) / 2
            if half > edge_slack(throw):
                yield Symptom("ends-unequal", None, 0.2 + _degrees_of(half, throw) / weight)
            for end in ENDS:
                if laps[end] >= throw > laps[OTHER_END[end]]:
                    yield Symptom("port-never-opens", end, 6.0)
    if aim.target.equal == "cut-off":
        shares = cut_offs(reading)
        if len(shares) == 2 and abs(shares[0] - shares[1]) > 0.02:
            yield Symptom("ends-unequal", None, 0.2 + abs(shares[0] - shares[1]) * 5)


def _look_at_openings(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    face = reading.cylinder.face
    if face is None:
        return
    for code, figure in (
        ("port-starved", "greatest_steam_opening_mm"),
        ("exhaust-starved", "greatest_exhaust_opening_mm"),
    ):
        openings = {end: getattr(reading.motion.ends[end], figure) for end in reading.ends}
        if None in openings.values():
            continue
        share = min(openings[end] * 1e-3 / face[end].width for end in reading.ends)
        if share < LEAST_SHARE:
            yield Symptom(code, None, 0.2 + (LEAST_SHARE - share) * 4)


def _look_at_ways(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    share = way_share(reading)
    if share is not None and share < LEAST_WAY:
        yield Symptom("exhaust-choked" if reading.outside else "port-starved", None, 0.2 + (LEAST_WAY - share) * 4)


def way_share(reading: Reading) -> float | None:
    """Return the middle port's narrowest free width as a share of the steam port; None where not known."""
    motion = reading.motion
    way = motion.least_exhaust_way_mm if reading.outside else motion.least_inlet_way_mm
    return None if way is None or reading.port is None else way * 1e-3 / reading.port


def overtravel_by(reading: Reading) -> float:
    """Return how far the valve's end runs past the edge of the middle port or of the far steam port [m]."""
    cylinder, valve = reading.cylinder, reading.moving.valve
    if cylinder.face is None or valve is None:
        return 0.0
    past = [0.0]
    for end, sign in ENDS.items():
        near, far = cylinder.valve[end].outer, cylinder.valve[OTHER_END[end]].outer
        if near is None or far is None:
            continue
        leaves = -valve.low if sign > 0 else valve.high
        comes = valve.high if sign > 0 else -valve.low
        past += [cylinder.face[end].middle - near + leaves, comes - far - cylinder.face[end].inner]
        hole = cylinder.valve[OTHER_END[end]].cavity
        if hole is not None:
            past.append(comes - hole - cylinder.face[end].outer)
    return max(past)


def _look_at_overtravel(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    past = overtravel_by(reading)
    if past > 0.02e-3 and reading.port:
        yield Symptom("overtravel", None, 1.0 + past / reading.port)


def _look_at_walls(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    for end, room in reading.motion.chest_room_mm.items():
        if room is not None and room < -0.01:
            yield Symptom("valve-strikes-chest", end, 5.0 + abs(room) / 10)


def cut_offs(reading: Reading) -> list[float]:
    """Return the cut-off of each working end as a share of the stroke; ends without one cut-off are left out."""
    shares = []
    for end in reading.ends:
        places = reading.motion.ends[end].events["cut_off"].stroke_percent
        if places is not None and len(places) == 1:
            shares.append(places[0] / 100)
    return shares


def _look_at_expansion(reading: Reading, aim: Aim) -> Iterator[Symptom]:
    if misses_expansion(reading, aim):
        yield Symptom("no-expansion-possible", None, 0.6)


def misses_expansion(reading: Reading, aim: Aim) -> bool:
    """Whether lap or cut-off is not what the aim asks for."""
    lap, throw, target = reading.lap, reading.throw, aim.target
    if lap is None or throw is None or lap >= throw:
        return False
    if target.lap is not None and abs(lap - target.lap) > 0.02e-3 + 0.005 * throw:
        return True
    shares = cut_offs(reading)
    if aim.cut_off is None or not shares or reading.direction < 0:
        return False
    mean = sum(shares) / len(shares)
    if target.cut_off is not None:
        return abs(mean - target.cut_off) > CUT_OFF_SLACK
    return mean > LATEST_ECONOMICAL
