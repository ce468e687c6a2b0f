"""The figures of a cover: the joint it gets, what each stud has to bear, and how tight it may be drawn."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.errors import NotOneOf
from lapwright.tables.gaskets import GasketRow
from lapwright.tables.threads import ThreadRow
from lapwright.workshop.covers import (
    PASSES,
    Joint,
    JointLoads,
    StudLoad,
    find_chord,
    find_joint_loads,
    find_widest_joint,
    load_stud,
    load_stud_by_torque,
    order_studs,
)
from lapwright.workshop.gasket_choice import GASKETS, OLD_SHEET, GasketChoice, choose_gaskets
from lapwright.workshop.screws import find_coefficient
from lapwright.workshop.strength import stress_area
from lapwright.workshop.tightening import OF_PROOF, Tightening, find_tightening, torque_from_thrust

#: A thousandth of a thousandth: figures that are reckoned in two ways are not told apart for less [-].
_HAIR = 1e-6
#: A joint narrower than this, in diameters of its screws, has no room for their holes; common practice, no source.
_HOLE_TO_WIDTH = 1.6


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverWish:
    """What is known of a cover; lengths in m.

    `pressure` [Pa, above the atmosphere] is the greatest at which it has to be tight, a test included. `gasket` is one
    of `gasket_choice.GASKETS`, None to have it chosen. `stud_metal` and `condition` are words of `screws`.
    `hole_metal` and `engagement` tell of the threads in the casting, None where not known, and `stud_circle` of the
    circle through the holes. `torque` [N m] is what each was found tightened to, None where nobody knows. `kind` is
    "stud" for studs with nuts, or what else holds the cover down: "screw" or "bolt".
    """

    name: str = "cover"
    joint: Joint
    pressure: float
    fluid: str
    temperature: float
    count: int
    thread: ThreadRow
    gasket: str | None = None
    stud_metal: str = "steel"
    condition: str = "oiled"
    hole_metal: str | None = None
    engagement: float | None = None
    stud_circle: float | None = None
    torque: float | None = None
    kind: str = "stud"

    @property
    def drawn(self) -> str:
        """What is turned: the nuts of studs, or the screws themselves."""
        return "nut" if self.kind == "stud" else "screw"

    @property
    def lies_inside(self) -> bool:
        """Whether the joint is too narrow to hold the screws' holes, so that it lies inside their circle."""
        return self.joint.width < _HOLE_TO_WIDTH * self.thread.major


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverFigures:
    """What the studs of a cover have to bear, and how tight they may be drawn.

    `stud` is each stud as it is needed, `found` as it was found tightened, None where that is not known. `most_torque`
    [N m] is what may be used at most, and `limited_by` what sets it. `passes` [N m] are the torques of the three
    rounds, `chord` [m] the distance between neighbouring holes, None where their circle is not known. `narrower` is the
    widest joint that these studs can bed, None where the one wished for will do or none is narrow enough.
    """

    gasket: str
    row: GasketRow
    objection: str
    loads: JointLoads
    stud: StudLoad
    found: StudLoad | None
    most_torque: float
    limited_by: str
    order: tuple[int, ...]
    chord: float | None
    narrower: Joint | None
    tightening_sources: tuple[str, ...]

    @property
    def torque(self) -> float:
        """What each stud is to be drawn to [N m]: what is needed, and never more than may be."""
        return min(self.stud.torque, self.most_torque)

    @property
    def passes(self) -> tuple[float, ...]:
        """The torques of the rounds, the last one in full [N m]."""
        return tuple(share * self.torque for share in PASSES)

    @property
    def half_width_torque(self) -> float:
        """What each stud would be drawn to by the code's own reckoning, with half the width of the joint [N m]."""
        # A soft sheet under no pressure asks nothing.
        return self.stud.torque * self.loads.half_width / self.loads.needed if self.loads.needed else 0.0

    @property
    def is_enough_by_the_code(self) -> bool:
        """Whether they can give what the code's own reckoning asks, with half the width of the joint."""
        return self.half_width_torque <= self.most_torque * (1 + _HAIR)

    @property
    def is_enough(self) -> bool:
        """Whether the studs can give the joint what it asks without being drawn too tight."""
        return self.stud.torque <= self.most_torque * (1 + _HAIR)

    @property
    def was_overtightened(self) -> bool:
        """Whether they were found drawn tighter than may be."""
        return self.found is not None and self.found.torque > self.most_torque * (1 + _HAIR)


def find_cover_figures(wish: CoverWish) -> CoverFigures:
    """Work out what the studs of a cover have to bear, and how tight they may be drawn.

    Parameters
    ----------
    wish: what is known of the cover

    Raises
    ------
    NotOneOf: a gasket, a metal or a condition that is not known
    DoesNotFit: the table has no seating stress for that gasket
    OutOfRange: no stud, or a pressure under nothing

    Source: asme-viii (loads of the joint); iso-898-1 (stud); machinery-handbook (torque)
    """
    order = order_studs(wish.count)
    choice = choose_gasket(wish)
    loads = find_joint_loads(wish.joint, choice.row, pressure=wish.pressure)
    how = {"metal": wish.stud_metal, "condition": wish.condition}
    stud = load_stud(wish.thread, loads.needed / wish.count, **how)
    found = None if wish.torque is None else load_stud_by_torque(wish.thread, wish.torque, **how)
    most, limited_by, sources = _find_most(wish, stud)
    can_give = wish.count * stud.pull * most / stud.torque if stud.torque else 0.0
    narrower = (
        find_widest_joint(wish.joint.bore, choice.row, pressure=wish.pressure, load=can_give)
        if can_give < loads.needed
        else None
    )
    return CoverFigures(
        gasket=choice.gasket,
        row=choice.row,
        objection="" if choice.fits else choice.why,
        loads=loads,
        stud=stud,
        found=found,
        most_torque=most,
        limited_by=limited_by,
        order=order,
        chord=None if wish.stud_circle is None or wish.count < 2 else find_chord(wish.stud_circle, wish.count),
        narrower=narrower,
        tightening_sources=sources,
    )


def choose_gasket(wish: CoverWish) -> GasketChoice:
    """Choose the joint of a cover: the one that is wished for, or the first that stands the duty; never old sheet.

    Parameters
    ----------
    wish: what is known of the cover

    Raises
    ------
    NotOneOf: a gasket that is not known

    Source: common practice, no source (which is taken first); the limits as each row of the table names them
    """
    choices = choose_gaskets(fluid=wish.fluid, temperature=wish.temperature, pressure=wish.pressure)
    if wish.gasket is None or wish.gasket == OLD_SHEET:
        return next(choice for choice in choices if choice.fits and choice.row.m is not None)
    if wish.gasket not in GASKETS:
        raise NotOneOf(wish.gasket, GASKETS)
    return next(choice for choice in choices if choice.gasket == wish.gasket)


def _find_most(wish: CoverWish, stud: StudLoad) -> tuple[float, str, tuple[str, ...]]:
    """What a stud may be drawn to, what sets that, and the sources of it."""
    if wish.hole_metal is None or wish.engagement is None:
        share = f"{100 * OF_PROOF:.0f} % of the stud's proof stress"
        pull = OF_PROOF * stud.proof * stress_area(wish.thread)
        coefficient = find_coefficient(wish.condition)
        return torque_from_thrust(pull, wish.thread.major, coefficient=coefficient), share, ()
    tightening: Tightening = find_tightening(
        wish.thread,
        hole=wish.hole_metal,
        engagement=wish.engagement,
        screw=wish.stud_metal,
        condition=wish.condition,
    )
    return tightening.torque, f"the {tightening.tightest.part}", tightening.sources
