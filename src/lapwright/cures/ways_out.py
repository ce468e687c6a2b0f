"""The way in: the realistic ways out of an engine's findings, best first, each proved on the exact events."""

from __future__ import annotations

from lapwright.cures.alike import cure_difference
from lapwright.cures.chain import Chain, finish_chain, propose_actions, try_action, weigh_chain
from lapwright.cures.cure import WORKS, Cure
from lapwright.cures.ready import list_ready
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

    A way that serves every faulty cylinder is ranked alike in all of them, so that a twin does not get two different
    cures.

    Parameters
    ----------
    engine: the engine as its record tells of it
    findings: what `find_faults` found in it
    """
    aim = choose_aim(engine)
    cylinders = tuple(assume_missing(sizes) for sizes in engine.cylinders)
    by_name = {sizes.name: tuple(f for f in findings if f.cylinder == sizes.name) for sizes in cylinders}
    ways = {
        sizes.name: _list_ways(sizes, aim)
        for sizes in cylinders
        if by_name[sizes.name] and by_name[sizes.name][0].code != "cylinders-differ"
    }
    cures: list[Cure] = []
    for sizes in cylinders:
        if sizes.name in ways:
            cures += _rank(ways, sizes.name, aim, findings=by_name[sizes.name])
        elif by_name[sizes.name]:
            cures += cure_difference(cylinders[0], sizes)
    return tuple(cures)


def _list_ways(sizes: Sizes, aim: Aim) -> dict[tuple[str, ...], Chain]:
    """Every way out of one cylinder's faults that makes it better, by the names of its actions."""
    start = Chain(Reading(sizes), (), Reading(sizes))
    before = add_weights(find_symptoms(start.now, aim))
    chains: dict[tuple[str, ...], Chain] = {}
    for explanation in explain_cylinder(sizes, aim):
        for case in (explanation.first, *explanation.others):
            for action in propose_actions(start.now, aim, case.suspicion):
                begun = try_action(start, action)
                if begun is None:
                    continue
                for chain in (finish_chain(begun, aim), begun):
                    if add_weights(find_symptoms(chain.now, aim)) < before - 0.05:
                        chains.setdefault(_names(chain), chain)
    return _without_detours(chains, aim)


def _rank(
    ways: dict[str, dict[tuple[str, ...], Chain]], name: str, aim: Aim, *, findings: tuple[Finding, ...]
) -> list[Cure]:
    """The cures of one cylinder, best first; a way shared by all is weighed on the mean of all."""

    def weigh(names: tuple[str, ...]) -> float:
        shared = [other[names] for other in ways.values() if names in other]
        chains = shared if len(shared) == len(ways) else [ways[name][names]]
        return sum(weigh_chain(chain, aim) for chain in chains) / len(chains)

    ranked = sorted(ways[name], key=weigh)
    return [describe_chain(ways[name][names], aim, findings) for names in ranked[:MOST]]


def _names(chain: Chain) -> tuple[str, ...]:
    return tuple(sorted(action.code for action in chain.actions))


def _without_detours(chains: dict[tuple[str, ...], Chain], aim: Aim) -> dict[tuple[str, ...], Chain]:
    """Leave out a chain that does all that another does and something more, for nothing."""

    def is_detour(names: tuple[str, ...]) -> bool:
        return any(set(fewer) < set(names) and left[fewer] <= left[names] + 0.02 for fewer in chains)

    left = {names: add_weights(find_symptoms(chain.now, aim)) for names, chain in chains.items()}
    return {names: chain for names, chain in chains.items() if not is_detour(names)}


def describe_chain(chain: Chain, aim: Aim, findings: tuple[Finding, ...]) -> Cure:
    """Return a chain of actions as one cure.

    Parameters
    ----------
    chain: what is done, and the cylinder before and after it
    aim: what counts as right
    findings: what was found in this cylinder
    """
    roots = explain_cylinder(chain.now.sizes, aim)
    left = tuple(dict.fromkeys(root.first.suspicion.code for root in roots))
    changes = {key: value for action in chain.actions for key, value in action.changes.items()}
    # What is made or cut comes before what is set.
    work = sorted(chain.actions, key=lambda action: WORKS.index(action.work), reverse=True)
    told = "; then ".join(_lower(action.title, first=i == 0) for i, action in enumerate(work))
    guessed = _list_guessed(findings)
    return Cure(
        code="+".join(action.code for action in chain.actions),
        cylinder=chain.start.sizes.name,
        title=told if not guessed else f"With {guessed} measured first: {_lower(told, first=False)}",
        answers=tuple(dict.fromkeys(finding.code for finding in findings if finding.code not in left)),
        work=chain.work,
        steps=(*_measure_first(guessed), *(step for action in work for step in action.steps)),
        set={name: value for action in chain.actions for name, value in action.set.items()},
        changes=changes,
        after=chain.now.motion,
        left=left,
        before_you_start=tuple(dict.fromkeys(c for action in chain.actions for c in action.cautions)),
        have_ready=list_ready((action.code for action in chain.actions), chain.now.sizes),
    )


def _list_guessed(findings: tuple[Finding, ...]) -> str:
    """The sizes that nobody gave and on which a cure's figures hang, in words; nothing where there are none."""
    guessed = dict.fromkeys(key for finding in findings for key in finding.rests_on)
    return " and ".join(key.rpartition(".")[2].replace("_", " ") for key in guessed)


def _measure_first(guessed: str) -> tuple[str, ...]:
    """No metal on a guess: what was taken for granted is measured before anything is cut."""
    if not guessed:
        return ()
    return (f"Measure {guessed} first, and examine again: nobody gave them, and every size below hangs on them.",)


def _lower(title: str, *, first: bool) -> str:
    return title if first else title[:1].lower() + title[1:]
