"""Move the valve along its spindle, in the steps that the thread and the fork allow, or lengthen the eccentric rod."""

from __future__ import annotations

from lapwright.cures.action import OPENING_UP, Action
from lapwright.findings.aim import Aim
from lapwright.findings.causes.off_centre import OFFSET, spindle_step
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Suspicion
from lapwright.quantities.showing import show_length_both
from lapwright.workshop.cautions import OLD_PACKING


def move_on_spindle(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Propose the whole number of steps that brings the valve nearest to its place."""
    wanted = suspicion.changes.get(OFFSET)
    if wanted is None:
        return []
    step = spindle_step(reading.sizes)
    if step is None:
        return [_move_freely(reading, wanted)]
    count = round((wanted - reading.offset) / step)
    return [] if count == 0 else [_move_by_steps(reading, wanted, count=count)]


def _move_freely(reading: Reading, wanted: float) -> Action:
    move = wanted - reading.offset
    return Action(
        code="move-on-spindle",
        title=f"Move the valve {show_length_both(abs(move))} towards the {_side(move)} on its spindle",
        work="minutes",
        changes={OFFSET: wanted},
        set={"valve_offset_mm": wanted * 1e3, "move_mm": move * 1e3},
        steps=(
            f"Move the valve {show_length_both(abs(move))} towards the {_side(move)} on its spindle. The record "
            "does not say "
            "in what steps the thread and the fork allow it: come as near as they do.",
            *_MEASURE,
        ),
        cautions=(OPENING_UP, OLD_PACKING),
    )


def _move_by_steps(reading: Reading, wanted: float, *, count: int) -> Action:
    pitch = reading.sizes.numbers["valve_drive.spindle_thread"]
    turns = count * reading.sizes.numbers["valve_drive.spindle_step"]
    move = turns * pitch
    left = wanted - reading.offset - move
    return Action(
        code="move-on-spindle",
        title=f"Move the valve {_say_turns(turns)} of its spindle thread towards the {_side(move)}",
        work="minutes",
        changes={OFFSET: reading.offset + move},
        set={
            "spindle_turns": turns,
            "valve_offset_mm": (reading.offset + move) * 1e3,
            "remaining_error_mm": left * 1e3,
        },
        steps=(
            f"Give the spindle {_say_turns(turns)} in its nut or fork, so that the valve goes "
            f"{show_length_both(abs(move))} "
            f"towards the {_side(move)} ({pitch * 1e3:.3f} mm to the turn); {abs(left) * 1e3:.2f} mm of error "
            "remain, which the "
            "thread cannot reach.",
            *_MEASURE,
        ),
        cautions=(OPENING_UP, OLD_PACKING),
    )


def change_rod_length(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Propose to alter the eccentric rod's length, which moves the valve by any amount.

    Source: ahrons, p. 104 (the rod moves both leads oppositely, by the full amount)
    """
    wanted = suspicion.changes.get(OFFSET)
    if wanted is None or "valve_drive.eccentric_rod" not in reading.sizes.numbers:
        return []
    move = wanted - reading.offset
    sign = 1 if reading.sizes.rocker == "none" else -1
    change = "longer" if move * sign > 0 else "shorter"
    where = "with a shim at its joint to the strap" if change == "longer" else "off its joint to the strap"
    return [
        Action(
            code="change-rod-length",
            title=f"Make the eccentric rod {show_length_both(abs(move))} {change}",
            work="an evening",
            changes={OFFSET: wanted},
            set={"valve_offset_mm": wanted * 1e3, "eccentric_rod_change_mm": move * sign * 1e3},
            steps=(
                f"Make the eccentric rod {show_length_both(abs(move))} {change} between centres, {where}: the valve "
                f"then goes as far towards the {_side(move)}, to the place that no step of the thread gives.",
                *_MEASURE,
            ),
            cautions=(OPENING_UP,),
        )
    ]


_MEASURE = (
    "Take up the slack in the running direction, put the crank on each dead centre and measure both leads: they "
    "should differ "
    "by no more than twice what remains.",
)


def _side(move: float) -> str:
    return "head end" if move >= 0 else "crank end"


def _say_turns(turns: float) -> str:
    whole, rest = divmod(abs(turns), 1.0)
    names = {0.5: "1/2", 0.25: "1/4", 0.75: "3/4"}
    part = names.get(round(rest, 6), "" if rest < 1e-9 else f"{rest:.3f}"[1:])
    if whole < 1:
        return f"{part} turn"
    text = f"{whole:.0f}" + (f" {part}" if part.count("/") else part)
    return f"{text} turn" if text == "1" else f"{text} turns"
