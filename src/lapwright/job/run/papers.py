"""The run that goes on a card: the engine as found beside the engine after the first cure of each cylinder."""

from __future__ import annotations

from lapwright.cycle.comparing import Ground, tell_gain
from lapwright.errors import CannotRun
from lapwright.job.run.notes import list_cautions
from lapwright.job.visit import Visit
from lapwright.papers.matter import RunSheet


def gather_runs(visit: Visit) -> tuple[RunSheet | None, str]:
    """Return how the engine runs before and after its cures; or None, and the reason why that is not known."""
    if visit.ground is None:
        return None, visit.no_run
    try:
        return _compare(visit, visit.ground), ""
    except CannotRun as error:
        return None, error.message


def _compare(visit: Visit, ground: Ground) -> RunSheet:
    found, cautions = ground.found, list_cautions(ground.conditions.fluid, by_hand=True)
    best = {cure.cylinder: cure for cure in (*reversed(visit.cures), *visit.done)}
    if not best:
        return RunSheet(before=found, starting=found.starting, cautions=cautions)
    # A cure alone has been run already; those of several cylinders have not been run together.
    alone = next(iter(best.values())).run if len(best) == 1 else None
    after = alone or ground.show_changed({name: cure.changes for name, cure in best.items()})
    return RunSheet(
        before=found,
        after=after,
        starting=found.starting,
        starting_after=after.starting,
        gain=tell_gain(found, after),
        cautions=cautions,
    )
