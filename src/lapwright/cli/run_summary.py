"""A run as it is read in a terminal: one calm page."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import pi
from textwrap import fill
from typing import TYPE_CHECKING

from lapwright.cli.cards import LEGEND, draw_cards
from lapwright.cli.run_tables import (
    lay_table,
    list_comparison,
    list_ends,
    list_losses,
    list_uses,
    set_side_by_side,
)
from lapwright.job.run.figures import find_free_air
from lapwright.job.run.notes import tell_racing
from lapwright.job.showing import show_power, show_supply, show_torque
from lapwright.quantities.temperature import FREEZING

if TYPE_CHECKING:
    from lapwright.job.run.stand import Stand
    from lapwright.job.run.trial import Trial

WIDTH = 80
#: The spaces within a figure with its unit, and what holds them together while lines are broken.
_UNIT, _TIE = re.compile(r"(?<=\d) (?=[%\w])|(?<=N) (?=m\b)"), "\xa0"
#: Cylinders whose mean effective pressures differ by less than this share have one card drawn for all.
_ALIKE = 0.02


def summarise_run(trial: Trial, *, gain: str, cautions: tuple[str, ...], with_cards: bool) -> str:
    """Return a trial as text, at most `WIDTH` columns wide.

    Parameters
    ----------
    trial: the run, and perhaps the run after a cure
    gain: what the cure gains, in words
    cautions: what goes with putting an engine on air or steam
    with_cards: whether the terminal can show the cards
    """
    last = trial if trial.after is None else trial.after
    # Before any figure, and once: a speed that only the sums reach is a danger at the bench.
    racing = tuple(tell_racing(last.stand, last.run)) or tuple(tell_racing(trial.stand, trial.run))
    parts = [write_title(trial.name, trial.stand, run_at=_show_speed(trial)), *map(wrap, racing)]
    if trial.after is None:
        parts.append(wrap(" ".join(_tell_answer(trial))))
        parts.append("\n".join(list_ends(trial)))
        if with_cards:
            parts.extend(_draw_all(trial))
        parts.append(set_side_by_side(list_losses(trial.run), list_uses(trial.run)))
    else:
        parts.extend(_compare(trial, trial.after, gain=gain, with_cards=with_cards))
    notes = write_notes(tuple(note for note in last.notes if note not in racing))
    parts.append(notes if trial.after is None else "Afterwards:\n" + notes)
    parts.append(write_assumed(trial.stand))
    parts.append(wrap(" ".join(cautions)))
    return "\n\n".join(part for part in parts if part)


def write_title(name: str, stand: Stand, *, run_at: str) -> str:
    """Return the headline: which engine, on what, at what speed."""
    conditions = stand.conditions
    on = f"{name} on {conditions.fluid} at {stand.show(conditions.supply)}"
    if conditions.fluid == "steam":
        temperature = conditions.supply_temperature
        dryness = f"{conditions.dryness:.2f} dry" if temperature is None else f"{temperature - FREEZING:.0f} degC"
        on += f", {dryness}"
    if stand.show(conditions.exhaust) != stand.show(101_325.0):
        on += f", exhausting into {stand.show(conditions.exhaust)}"
    title = on + run_at + (", without leaks, wall heat and friction" if conditions.ideal else "")
    return fill(title, WIDTH) + "\n" + "=" * min(max(len(title), 3), WIDTH)


def wrap(text: str, *, indent: str = "", bullet: str = "") -> str:
    """Return a text in lines, the first after its bullet; a figure and its unit stay together."""
    tied = _UNIT.sub(_TIE, text)
    lines = fill(tied, WIDTH, initial_indent=indent + bullet, subsequent_indent=indent + " " * len(bullet))
    return lines.replace(_TIE, " ")


def _show_speed(trial: Trial) -> str:
    speed = f"{trial.run.conditions.speed * 30 / pi:.0f} rpm"
    if not trial.stand.is_loaded:
        taken = any(assumed.key == "speed" for assumed in trial.stand.assumed)
        return f", {speed}" + (", an easy speed for the stroke" if taken else "")
    power, torque = trial.stand.load_power, trial.stand.load_torque
    return f", driving {show_power(power) if power else show_torque(torque) if torque else 'nothing'}"


def _tell_answer(trial: Trial) -> Iterator[str]:
    run = trial.run
    flow = show_supply(abs(run.supplied), per_kilogram=find_free_air(run))
    flow += " of free air" if run.conditions.fluid == "air" else " of steam"
    taken = f"takes {flow}" if run.supplied >= 0 else f"pushes {flow} back into the supply"
    speed = f"{run.conditions.speed * 30 / pi:.0f} rpm"
    if trial.stand.is_loaded and trial.stand.load_torque == trial.stand.load_power == 0:
        yield f"It settles at {speed}, and {taken}."
    elif trial.stand.is_loaded:
        yield f"It settles at {speed}, giving {show_power(run.brake_power)}, and {taken}."
    elif run.brake_power > 0:
        yield f"It gives {show_power(run.brake_power)} at the shaft, {show_torque(run.mean_torque)} on the mean,"
        yield f"and {taken}."
    else:
        yield f"It gives nothing at the shaft, and {taken}."
    if trial.least_pressure is not None:
        yield f"It turns over from {trial.stand.show(trial.least_pressure)} on."


def _draw_all(trial: Trial) -> Iterator[str]:
    """The cards of every cylinder under steam or air, those alike drawn once."""
    drawn: dict[str, list[str]] = {}
    means: dict[str, list[float]] = {}
    span = trial.run.conditions.supply - trial.run.conditions.exhaust
    for cylinder in trial.run.cylinders:
        if cylinder.name in trial.stand.plant.dead:
            continue
        own = [end.mean_effective_pressure for end in cylinder.ends.values()]
        for name, other in means.items():
            pairs = zip(own, other, strict=False)
            if len(own) == len(other) and all(abs(a - b) < _ALIKE * span for a, b in pairs):
                drawn[name].append(cylinder.name)
                break
        else:
            means[cylinder.name], drawn[cylinder.name] = own, [cylinder.name]
    many = len(trial.run.cylinders) > 1
    cards = [draw_cards(trial, name, heading=" and ".join(names) if many else "") for name, names in drawn.items()]
    yield "\n".join([*cards, LEGEND])


def _compare(found: Trial, after: Trial, *, gain: str, with_cards: bool) -> Iterator[str]:
    titles: dict[str, list[str]] = {}
    for cure in after.cures:
        titles.setdefault(cure.title, []).append(cure.cylinder)
    many = len(found.run.cylinders) > 1
    done = [f"{title} ({', '.join(names)})" if many else title for title, names in titles.items()]
    yield wrap(f"After: {'; '.join(done)}.") + "\n" + wrap(f"{gain[:1].upper()}{gain[1:]}.")
    rows = [("", "as found", "after"), *list_comparison(found, after)]
    yield "\n".join(lay_table(rows, first=36, others=18))
    if with_cards:
        name = after.cures[0].cylinder
        pictures = [draw_cards(trial, name, heading=word) for trial, word in ((found, "as found"), (after, "after"))]
        yield "\n".join([*pictures, LEGEND])
    yield set_side_by_side(list_losses(found.run, after.run), list_uses(found.run, after.run))


def write_notes(notes: tuple[str, ...]) -> str:
    """Return sentences as a list."""
    return "\n".join(wrap(note, bullet="- ") for note in notes)


def write_assumed(stand: Stand) -> str:
    """Return what was taken for want of better, key and value; what is taken as nothing is left off."""
    told = []
    for assumed in stand.assumed:
        if not assumed.value.startswith("0.00 mm"):
            told.append(f"{assumed.words} {assumed.value}")
    if not told:
        return ""
    return wrap(f"Taken where the record is silent: {'; '.join(dict.fromkeys(told))}.")
