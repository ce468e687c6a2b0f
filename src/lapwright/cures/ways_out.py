"""The way in: the realistic ways out of an engine's findings, best first, each proved on the exact events."""

from __future__ import annotations

from lapwright.cures.alike import cure_difference
from lapwright.cures.chain import Chain, finish_chain, propose_actions, try_action, weigh_chain
from lapwright.cures.cure import Cure
from lapwright.engine.assume import assume_missing
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Sizes
from lapwright.findings.aim import Aim, choose_aim
from lapwright.findings.finding import Finding
from lapwright.findings.reading import Reading
from lapwright.findings.search import explain_cylinder
from lapwright.findings.symptoms import add_weights, find_symptoms

#: The most cures shown for one cylinder.
MOST = 5


def find_cures(engine: Engine, findings: tuple[Finding, ...]) -> tuple[Cure, ...]:
    """Return the ways out of an engine's findings, each cylinder's best first.

    Parameters
    ----------
    engine: the engine as its record tells of it
    findings: what `find_faults` found in it
    """
    aim = choose_aim(engine)
    cylinders = tuple(assume_missing(sizes) for sizes in engine.cylinders)
    cures: list[Cure] = []
    for sizes in cylinders:
        own = tuple(finding for finding in findings if finding.cylinder == sizes.name)
        if any(finding.code == "cylinders-differ" for finding in own):
            cures += cure_difference(cylinders[0], sizes)
        elif own:
            cures += find_cures_of_cylinder(sizes, aim, findings=own)
    return tuple(cures)


def find_cures_of_cylinder(sizes: Sizes, aim: Aim, *, findings: tuple[Finding, ...]) -> list[Cure]:
    """Return the ways out of one cylinder's findings, best first."""
    start = Chain(Reading(sizes), (), Reading(sizes))
    before = add_weights(find_symptoms(start.now, aim))
    chains: dict[tuple[str, ...], Chain] = {}
    for explanation in explain_cylinder(sizes, aim):
        for case in (explanation.first, *explanation.others):
            for action in propose_actions(start.now, aim, case.suspicion):
                begun = try_action(start, action)
                if begun is None:
                    continue
                chain = finish_chain(begun, aim)
                if add_weights(find_symptoms(chain.now, aim)) < before - 0.05:
                    chains.setdefault(_names(chain), chain)
    ranked = sorted(_without_detours(list(chains.values())), key=lambda chain: weigh_chain(chain, aim))
    return [_describe(chain, aim, findings) for chain in ranked[:MOST]]


def _names(chain: Chain) -> tuple[str, ...]:
    return tuple(sorted(action.code for action in chain.actions))


def _without_detours(chains: list[Chain]) -> list[Chain]:
    """Leave out a chain that does all that another does and something more."""
    sets = [set(_names(chain)) for chain in chains]
    return [
        chain
        for chain, own in zip(chains, sets, strict=True)
        if not any(other < own and _left(chains[i]) <= _left(chain) for i, other in enumerate(sets))
    ]


def _left(chain: Chain) -> float:
    """What a chain leaves of offset error, as a plain measure for comparing detours."""
    return abs(chain.now.offset_error or 0.0)


def _describe(chain: Chain, aim: Aim, findings: tuple[Finding, ...]) -> Cure:
    roots = explain_cylinder(chain.now.sizes, aim)
    left = tuple(dict.fromkeys(root.first.suspicion.code for root in roots))
    changes = {key: value for action in chain.actions for key, value in action.changes.items()}
    return Cure(
        code="+".join(action.code for action in chain.actions),
        cylinder=chain.start.sizes.name,
        title="; then ".join(_lower(action.title, first=i == 0) for i, action in enumerate(chain.actions)),
        answers=tuple(dict.fromkeys(finding.code for finding in findings if finding.code not in left)),
        work=chain.work,
        steps=tuple(step for action in chain.actions for step in action.steps),
        set={name: value for action in chain.actions for name, value in action.set.items()},
        changes=changes,
        after=chain.now.motion,
        left=left,
        before_you_start=tuple(dict.fromkeys(c for action in chain.actions for c in action.cautions)),
    )


def _lower(title: str, *, first: bool) -> str:
    return title if first else title[:1].lower() + title[1:]
