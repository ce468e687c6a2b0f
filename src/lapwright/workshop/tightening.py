"""How tight a screw may be drawn: what its shank, the two threads and the key each bear, and which gives way first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lapwright.errors import DoesNotFit
from lapwright.quantities import show_mm, show_number
from lapwright.tables.materials import shear_strength
from lapwright.workshop.screws import GRUB, PUBLISHED, ScrewMetal, find_coefficient, find_screw, is_past_proof
from lapwright.workshop.strength import (
    USEFUL,
    hole_strip_force,
    refuse_pipe_thread,
    screw_strip_force,
    stress_area,
    useful_engagement,
)

if TYPE_CHECKING:
    from lapwright.tables.set_screws import KeyRow
    from lapwright.tables.threads import ThreadRow

#: What is used of each limit [-]: three quarters of the proof load; half of a drawn thread; the key's whole yield.
OF_PROOF, OF_THREAD, OF_KEY = 0.75, 0.5, 1.0
#: A length of thread that would just do is doubled.
DOUBLED = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One thing that can give way: at which torque [N m] and thrust [N], and what may be used of it.

    `breaks` is the torque at which it breaks after it has given way [N m]; None where that is not told.
    """

    part: str
    how: str
    torque: float
    thrust: float
    share: float
    breaks: float | None = None

    @property
    def safe(self) -> float:
        """The torque that may be used [N m]."""
        return self.share * self.torque


@dataclass(frozen=True, slots=True, kw_only=True)
class Tightening:
    """How tight one screw in one hole may be drawn.

    `limits` stand with what gives way first at the head; `torque` [N m] is the safe one and `thrust` [N] what it clamps
    or presses with. `bare_engagement` [m] would just hold what the shank may be drawn to (what the torque gives, for a
    grub screw) in the weaker of the two threads; `needed_engagement` is twice that.
    """

    row: ThreadRow
    screw: str
    hole: str
    engagement: float
    condition: str
    coefficient: float
    worn: bool
    limits: tuple[Limit, ...]
    torque: float
    thrust: float
    tightest: Limit
    bare_engagement: float
    needed_engagement: float
    published: tuple[float, float] | None
    notes: tuple[str, ...]
    sources: tuple[str, ...]

    @property
    def first(self) -> Limit:
        """What gives way first if it is simply drawn tighter and tighter."""
        return self.limits[0]


def torque_from_thrust(thrust: float, diameter: float, *, coefficient: float) -> float:
    """Work out the torque that gives a screw a thrust [N.m]: T = K d F.

    Parameters
    ----------
    thrust: pull or push of the screw [N]
    diameter: its major diameter [m]
    coefficient: one of `COEFFICIENTS` [-]

    Source: machinery-handbook; the coefficients as published bolting tables have them, right to about a third

    Example:
    >>> round(torque_from_thrust(849, 0.003, coefficient=0.20), 2)
    0.51
    """
    return coefficient * diameter * thrust


def thrust_from_torque(torque: float, diameter: float, *, coefficient: float) -> float:
    """Work out the thrust that a torque gives a screw [N]: F = T / (K d).

    Parameters
    ----------
    torque: what it is tightened with [N.m]
    diameter: its major diameter [m]
    coefficient: one of `COEFFICIENTS` [-]

    Source: machinery-handbook

    Example:
    >>> round(thrust_from_torque(2.2, 0.004, coefficient=0.20))
    2750
    """
    return torque / (coefficient * diameter)


def say_torque(torque: float) -> str:
    """Write a tightening torque in N m, to the figures that a torque driver has.

    Parameters
    ----------
    torque: what it is tightened with [N.m]

    Example:
    >>> say_torque(0.5093), say_torque(0.0312), say_torque(12.34)
    ('0.51 N m', '0.031 N m', '12.3 N m')
    """
    return f"{show_number(torque, 3 if torque < 0.0995 else 2 if torque < 9.95 else 1)} N m"


def find_key(across_flats: float) -> KeyRow:
    """Return the hex key of the table that fits a socket.

    Parameters
    ----------
    across_flats: nominal size of the socket [m]

    Raises
    ------
    DoesNotFit: no key of the table is within a twentieth of that size

    Source: set-screw-chart
    """
    # The tables of keys and sockets are read where a grub screw is asked for.
    from lapwright.tables.set_screws import list_keys

    nearest = min(list_keys(), key=lambda key: abs(key.across_flats - across_flats))
    if abs(nearest.across_flats - across_flats) > across_flats / 20:
        sizes = ", ".join(f"{1000 * key.across_flats:.3g}" for key in list_keys())
        raise DoesNotFit(f"no hex key of {1000 * across_flats:.3g} mm is in the table", f"it holds {sizes} mm")
    return nearest


def find_socket(row: ThreadRow) -> tuple[float, str] | None:
    """Return the hexagon socket of a grub screw [m across flats] and what that rests on.

    The table holds metric ones; another screw is given the socket of the next smaller metric one, and None where
    nothing near is known.

    Parameters
    ----------
    row: the grub screw's thread
    """
    from lapwright.tables.set_screws import list_sockets

    fitting = [socket for socket in list_sockets() if socket.diameter <= row.major * (1 + 1e-9)]
    if not fitting:
        return None
    socket = max(fitting, key=lambda socket: socket.diameter)
    if row.major > 1.35 * socket.diameter:
        return None
    same = abs(socket.diameter - row.major) < 1e-6
    told = "" if same else f"; taken for {row.name}, whose own socket is not in the table: measure it"
    return socket.across_flats, f"socket of an {socket.size} grub screw, {1000 * socket.across_flats:g} mm{told}"


def find_tightening(
    row: ThreadRow,
    *,
    hole: str,
    engagement: float,
    screw: str = "steel",
    condition: str = "dry",
    worn: bool = False,
    grub: bool = False,
    bore: float | None = None,
) -> Tightening:
    """Work out how tight a screw may be drawn, and what gives way first.

    Parameters
    ----------
    row: the thread
    hole: the metal of the hole, one of the tables' metals
    engagement: length of thread in the hole [m]
    screw: one of `SCREWS`; a grub screw is of alloy steel
    condition: one of `COEFFICIENTS`
    worn: whether the thread of the hole is worn
    grub: whether it is a socket grub screw, which is turned by a hex key and pushes
    bore: as wide as the hole is between its ridges [m]; left out, the tapping drill of the tables

    Raises
    ------
    NotOneOf: a metal or a condition that is not known
    DoesNotFit: no length of thread at all, or a pipe thread

    Source: fed-std-h28 (threads); iso-898-1 (proof); set-screw-chart (keys)
    """
    refuse_pipe_thread(row)
    if engagement <= 0:
        raise DoesNotFit("no length of thread is in the hole", 'give the length engaged, like "4 mm"')
    metal = GRUB if grub else find_screw(screw)
    strength = shear_strength(hole)
    coefficient = find_coefficient(condition)
    fit = _Fit(
        row=row,
        metal=metal,
        engagement=engagement,
        shear=strength.value,
        coefficient=coefficient,
        worn=worn,
        bore=bore or row.tapping_drill,
    )
    limits = _list_limits(fit, grub=grub)
    tightest = min(limits, key=lambda limit: limit.safe)
    wanted = next((OF_PROOF * limit.thrust for limit in limits if limit.part == "screw shank"), None)
    torque = tightest.safe
    thrust = thrust_from_torque(torque, row.major, coefficient=coefficient)
    bare = bare_length(limits, wanted or thrust, engagement=useful_engagement(row, engagement))
    return Tightening(
        row=row,
        screw=metal.name,
        hole=hole,
        engagement=engagement,
        condition=condition,
        coefficient=coefficient,
        worn=worn,
        limits=tuple(sorted(limits, key=lambda limit: limit.torque)),
        torque=torque,
        thrust=thrust,
        tightest=tightest,
        bare_engagement=bare,
        needed_engagement=DOUBLED * bare,
        published=None if grub or screw != "steel" else PUBLISHED.get(row.name),
        notes=tuple(_list_notes(row, limits, engagement=engagement, needed=DOUBLED * bare)),
        sources=(metal.source, f"shear strength of {hole}: {strength.source}", *_SOURCES),
    )


_SOURCES = (
    "threads: shear areas of FED-STD-H28 at the basic sizes, of which half is used (from memory)",
    "torque = coefficient x diameter x thrust; coefficients from published bolting tables, right to about a third",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fit:
    """A screw in its hole, as far as the two threads are concerned."""

    row: ThreadRow
    metal: ScrewMetal
    engagement: float
    shear: float
    coefficient: float
    worn: bool
    bore: float | None


def _list_limits(fit: _Fit, *, grub: bool) -> list[Limit]:
    """What can give way; a grub screw has no shank that is pulled, but a key that twists."""
    in_hole = hole_strip_force(fit.row, fit.engagement, shear=fit.shear, worn=fit.worn)
    on_screw = screw_strip_force(fit.row, fit.engagement, shear=fit.metal.shear, bore=fit.bore, worn=fit.worn)
    limits = [
        _limit(fit, "hole thread", "strips", thrust=in_hole, share=OF_THREAD),
        _limit(fit, "screw thread", "strips", thrust=on_screw, share=OF_THREAD),
    ]
    if not grub:
        stretched = fit.metal.proof * stress_area(fit.row)
        return [*limits, _limit(fit, "screw shank", "stretches", thrust=stretched, share=OF_PROOF)]
    socket = find_socket(fit.row)
    if socket:
        key = find_key(socket[0])
        thrust = thrust_from_torque(key.yield_torque, fit.row.major, coefficient=fit.coefficient)
        recalled = " (from memory)" if key.from_memory else ""
        limit = _limit(fit, "hex key", f"twists{recalled}", thrust=thrust, share=OF_KEY)
        limits.append(replace(limit, breaks=key.ultimate_torque))
    return limits


def _limit(fit: _Fit, part: str, how: str, *, thrust: float, share: float) -> Limit:
    torque = torque_from_thrust(thrust, fit.row.major, coefficient=fit.coefficient)
    return Limit(part=part, how=how, torque=torque, thrust=thrust, share=share)


def bare_length(limits: Iterable[Limit], thrust: float, *, engagement: float) -> float:
    """Work out the length of thread that just bears a thrust in the weaker of the two threads [m].

    Parameters
    ----------
    limits: of the screw in its hole
    thrust: what the screw pulls or pushes with [N]
    engagement: the length of thread that those limits are for [m]

    Source: fed-std-h28
    """
    weaker = min(limit.thrust for limit in limits if limit.part.endswith("thread"))
    return engagement * thrust / weaker


def _list_notes(row: ThreadRow, limits: list[Limit], *, engagement: float, needed: float) -> Iterator[str]:
    used = useful_engagement(row, engagement)
    if used < engagement:
        yield (
            f"Of {show_mm(engagement, 1)} of thread only {show_mm(used, 1)} is counted ({USEFUL} diameters): the first "
            "turns carry most of the load (common practice, no source)."
        )
    shank = next((limit for limit in limits if limit.part == "screw shank"), None)
    if shank and needed > used:
        yield _say_short(row, needed)
    if shank and row.name in PUBLISHED and is_past_proof(row):
        yield "The upper figure of the lists draws a screw of class 4.8 past its proof load."


def _say_short(row: ThreadRow, needed: float) -> str:
    if needed > USEFUL * row.major:
        return (
            f"Here the thread decides, not the screw. The screw would want {show_mm(needed, 1)}, more than can be "
            "counted: a nut, an insert or a larger screw is the way."
        )
    return f"Here the thread decides, not the screw: {show_mm(needed, 1)} of thread would bear all that the screw does."
