"""A cure with figures of the person's own: its steps, its sizes and the cylinder afterwards, made anew for them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from lapwright.cures.action import Action, Remedy
from lapwright.cures.chain import Chain
from lapwright.cures.cure import Cure
from lapwright.cures.limits import forbids
from lapwright.cures.remedies.drive import ANGLE, THROW, give_throw, turn_eccentric_to
from lapwright.cures.remedies.spindle import change_rod_length, move_on_spindle
from lapwright.cures.remedies.valve import make_valve, make_valve_for_expansion, take_metal_off
from lapwright.cures.ways_out import describe_chain
from lapwright.engine.assume import assume_missing
from lapwright.engine.engine import Engine
from lapwright.errors import DoesNotFit
from lapwright.findings.aim import Aim, choose_aim
from lapwright.findings.causes.off_centre import OFFSET
from lapwright.findings.finding import Finding
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words

Changes = Mapping[str, float]
_Remaking = Callable[[Reading, Aim, Changes], list[Action]]
#: Figures that a person chose are no fault's.
_NO_FAULT = ""
#: What counts as the same size [m] or angle [rad].
_SAME = 1e-7


def _tell_nothing(_: Case) -> Words:
    return Words(title="", because="", check_next="")


def _with(remedy: Remedy, *starts: str) -> _Remaking:
    """Make a remedy's actions from the keys that are its own."""

    def remake(reading: Reading, aim: Aim, changes: Changes) -> list[Action]:
        own = {key: value for key, value in changes.items() if key.startswith(starts)}
        return remedy(reading, aim, Suspicion(code=_NO_FAULT, size=None, unit="mm", changes=own, tell=_tell_nothing))

    return remake


_REMAKINGS: Mapping[str, _Remaking] = {
    "turn-eccentric": lambda reading, _, changes: turn_eccentric_to(reading, changes[ANGLE]),
    "new-throw": lambda reading, _, changes: give_throw(reading, changes[THROW]),
    "move-on-spindle": _with(move_on_spindle, OFFSET),
    "change-rod-length": _with(change_rod_length, OFFSET),
    **dict.fromkeys(("shorten-valve", "lengthen-cavity", "cut-valve"), _with(take_metal_off, "valve.")),
    "new-valve": _with(make_valve, "valve."),
    "new-valve-with-lap": _with(make_valve_for_expansion, "valve.", ANGLE, THROW),
}
#: Where the metal that is there sets the limit: a valve that is only cut gets no longer, its cavity no shorter.
CUTS = ("shorten-valve", "lengthen-cavity", "cut-valve")


def takes_figures(cure: Cure) -> bool:
    """Whether a cure can be done with other figures than its own.

    Parameters
    ----------
    cure: one of the engine's
    """
    return all(code in _REMAKINGS for code in cure.code.split("+"))


def remake_cure(engine: Engine, findings: tuple[Finding, ...], cure: Cure, *, changes: Changes) -> Cure:
    """Return a cure with other figures; how it then runs is not worked out.

    Parameters
    ----------
    engine: the engine as its record tells of it
    findings: what was found in it
    cure: one of its cures, which takes figures
    changes: record keys of the cylinder with their new values [SI]; what is left out stays as the cure has it

    Raises
    ------
    DoesNotFit: the rods would not reach round, or metal would have to be put on, or nothing would be left to do
    """
    aim = choose_aim(engine)
    sizes = next(assume_missing(each) for each in engine.cylinders if each.name == cure.cylinder)
    start = Reading(sizes)
    wanted = {key: changes.get(key, value) for key, value in cure.changes.items()}
    if not start.changed(wanted).turns:
        raise DoesNotFit("with these figures it could not be turned over", "bring them nearer to those of the cure")
    chain = Chain(start, (), start)
    for code in cure.code.split("+"):
        for action in _REMAKINGS[code](chain.now, aim, wanted):
            chain = Chain(start, (*chain.actions, action), chain.now.changed(dict(action.changes)))
    _check_reached(chain, wanted)
    own = tuple(finding for finding in findings if finding.cylinder == cure.cylinder)
    return replace(describe_chain(chain, aim, own), code=cure.code)


def find_objection(engine: Engine, cure: Cure) -> str:
    """Return why the geometry speaks against a cure, in words; empty where it does not.

    Parameters
    ----------
    engine: the engine as its record tells of it
    cure: one with the person's own figures
    """
    sizes = next(assume_missing(each) for each in engine.cylinders if each.name == cure.cylinder)
    return forbids(Reading(sizes), Reading(sizes.replacing(cure.changes)))


def _check_reached(chain: Chain, wanted: Changes) -> None:
    there = chain.now.sizes.numbers
    # The valve goes along its spindle as far as the thread's steps allow it, and what remains is told.
    missed = [key for key, value in wanted.items() if key != OFFSET and abs(there.get(key, value) - value) > _SAME]
    if any(key.startswith("valve.") for key in missed):
        raise DoesNotFit(
            "metal would have to be put on the valve that is there", "choose a new valve, or take off less"
        )
    if not chain.actions:
        raise DoesNotFit("with these figures nothing would be done", "move them away from what is there")
