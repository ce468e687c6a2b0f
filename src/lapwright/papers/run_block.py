"""How the engine runs, before and after: what was taken for it, the figures, the pressure cards, torque, starting."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from lapwright.papers.blocks import Block, Cautions, Heading, Paragraph, Pictures, Table
from lapwright.papers.drawing import Drawing
from lapwright.papers.lettering import join_words, show_number
from lapwright.papers.matter import CardMatter, RunSheet
from lapwright.papers.pressure_picture import Turn, draw_pressure_card, fit_scale
from lapwright.papers.run_lettering import BAR, show_figures, show_power, show_pressure, show_speed
from lapwright.papers.torque_picture import draw_starting, draw_torque
from lapwright.quantities.pressure import ATMOSPHERE

if TYPE_CHECKING:
    from lapwright.cycle.comparing import Showing

#: Room between two cards side by side [mm].
GUTTER = 6.0
ALIKE = 0.02e5
_READING = (
    "The area within a pressure card is the work done on the piston. The dots are where the valve opens and shuts the "
    "port: admission, cut-off, release, compression."
)
_AT_REST = (
    "While an engine stands, a closed end leaks down, or up to the supply. The curve is the torque that is there "
    "either way."
)


def lay_runs(matter: CardMatter, *, width: float) -> Iterator[Block]:
    """Yield how the engine runs before and after its cures; nothing where it was not run.

    Parameters
    ----------
    matter: what is told
    width: room for pictures from edge to edge of the text [mm]
    """
    sheet = matter.runs
    if sheet is None:
        return
    yield Heading("How it runs" if sheet.after is None else "How it runs, before and after", fresh=True)
    yield Cautions(sheet.cautions)
    for line in _say_run(sheet):
        yield Paragraph(line)
    yield list_figures(sheet)
    yield Paragraph(_READING)
    yield from _lay_cards(matter, sheet, width=width)
    yield Pictures((draw_torque(sheet.before.run, sheet.after.run if sheet.after else None, width=width),))
    if sheet.starting is not None:
        yield Paragraph(_AT_REST)
        yield Pictures((draw_starting(sheet.starting, sheet.starting_after, width=width),))


def _say_run(sheet: RunSheet) -> Iterator[str]:
    run, on = sheet.before.run, sheet.before.run.conditions
    exhaust = show_pressure(on.exhaust - ATMOSPHERE)
    away = "to the open air" if abs(on.exhaust - ATMOSPHERE) < ALIKE else f"against {exhaust}"
    supply = show_pressure(on.supply - ATMOSPHERE)
    yield f"Worked out on {on.fluid} at {supply} and {show_speed(on.speed)}, exhausting {away}; not measured."
    if sheet.gain:
        yield f"{sheet.gain[:1].upper()}{sheet.gain[1:]}."
    for name, showing in (("As found", sheet.before), ("After the cure", sheet.after)):
        if showing is not None and not showing.runs:
            yield f"{name} it does not keep turning on this: its card is that of an engine driven from outside."
        if showing is not None and not showing.run.settled:
            yield f"{name} one turn does not quite repeat the one before, and the figures are that uncertain."
    # At a given speed no load is taken: what is left for one is the answer.
    told = (each for each in run.assumed if each.key != "running.load")
    taken = dict.fromkeys(f"{each.words} {each.value}" for each in told)
    if taken:
        yield f"Taken, since not given: {join_words(list(taken))}. The reasons stand under Assumed, not measured."


def list_figures(sheet: RunSheet) -> Table:
    """List the figures of each state, and a blank for what the engine does when it is tried.

    Parameters
    ----------
    sheet: how it runs before and after
    """
    states = [sheet.before] if sheet.after is None else [sheet.before, sheet.after]
    on = sheet.before.run.conditions
    rows: list[tuple[str, Callable[[Showing], str], str]] = [
        ("Turns over slowly at", lambda state: _show_least(state.least_pressure), ""),
        ("Starts by itself from", lambda state: f"{show_number(100 * state.starting_share, 0)} % of the turn", ""),
        ("Starts from any angle at", lambda state: _show_least(state.starting_pressure), ""),
        (f"Power at {show_speed(on.speed)}", _show_brake, ""),
        ("Free air for it" if on.fluid == "air" else "Steam for it", _show_supplied, ""),
        ("Leaked, or straight to exhaust", _show_waste, "–"),
        *_list_means(sheet.before),
    ]
    header = ("", "as found", "after the cure", "as tried")
    return Table(
        header if sheet.after else (*header[:2], header[3]),
        tuple((words, *(show(state) for state in states), tried) for words, show, tried in rows),
        blanks=(len(states) + 1,),
    )


def _list_means(showing: Showing) -> Iterator[tuple[str, Callable[[Showing], str], str]]:
    """A row to each cylinder: few engines on a bench take an indicator, so there is nothing to write in."""
    many = len(showing.run.cylinders) > 1
    for place, cylinder in enumerate(showing.run.cylinders):
        ends = " / ".join(cylinder.ends) if len(cylinder.ends) > 1 else "head end"

        def show(state: Showing, place: int = place) -> str:
            means = (end.mean_effective_pressure for end in state.run.cylinders[place].ends.values())
            return f"{' / '.join(show_number(mean / BAR, 2) for mean in means)} bar"

        yield f"Mean effective pressure{f' {cylinder.name}' if many else ''}, {ends}", show, "–"


def _show_least(pressure: float | None) -> str:
    return "never" if pressure is None else show_pressure(pressure - ATMOSPHERE)


def _show_brake(showing: Showing) -> str:
    return show_power(showing.run.brake_power) if showing.run.brake_power > 0 else "none"


def _show_supplied(showing: Showing) -> str:
    if showing.run.brake_power <= 0:
        return "–"
    if showing.run.conditions.fluid == "air":
        return f"{show_figures(showing.run.free_air * 60_000)} L/min"
    return f"{show_figures(showing.run.supplied * 60_000)} g/min"


def _show_waste(showing: Showing) -> str:
    """The share that leaks away or goes straight to exhaust."""
    uses = showing.run.uses
    total = sum(uses.values())
    return f"{show_number(100 * (1 - uses['worked'] / total), 0)} %" if total > 0 else "–"


def _lay_cards(matter: CardMatter, sheet: RunSheet, *, width: float) -> Iterator[Block]:
    names = [cylinder.name for cylinder in sheet.before.run.cylinders]
    for name in names:
        if len(names) > 1:
            yield Heading(f"Cylinder {name}", 2)
        yield Pictures(draw_cards(matter, sheet, name, width=width))


def draw_cards(matter: CardMatter, sheet: RunSheet, name: str, *, width: float) -> tuple[Drawing, ...]:
    """Draw the pressure cards of one cylinder, an end each, as found and after the cure; all cylinders in one scale.

    Parameters
    ----------
    matter: what is told
    sheet: how the engine runs
    name: the cylinder
    width: room for all of them side by side [mm]
    """
    states = [sheet.before.run.cylinders, *([sheet.after.run.cylinders] if sheet.after else [])]
    scale = fit_scale([run for runs in states for run in runs])
    runs = [next(run for run in runs if run.name == name) for runs in states]
    cure = next((cure for cure in matter.cures if cure.cylinder == name), None)
    found = Turn(runs[0], matter.before[name])
    cured = None if cure is None or len(runs) == 1 else Turn(runs[1], cure.after)
    half = (width - GUTTER) / 2
    return tuple(draw_pressure_card(found, cured, end=end, scale=scale, width=half) for end in runs[0].ends)
