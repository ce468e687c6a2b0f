"""One thing done after another until the cylinder is right: actions tried out, and what they leave."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.cures.action import Action
from lapwright.cures.cure import WORKS
from lapwright.cures.limits import forbids, opening_share
from lapwright.cures.remedies import REMEDIES
from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.search import explain_cylinder
from lapwright.findings.suspicion import Suspicion
from lapwright.findings.symptoms import add_weights, find_symptoms

#: The most things done in one cure.
LONGEST = 5
#: What a kind of work counts against a cure, beside what it leaves undone.
COST = {"minutes": 0.0, "an evening": 0.3, "a new part": 0.6}


@dataclass(frozen=True, slots=True)
class Chain:
    """A cylinder as found, the actions so far, and the cylinder after them."""

    start: Reading
    actions: tuple[Action, ...]
    now: Reading

    @property
    def work(self) -> str:
        """The heaviest work in the chain."""
        return max((action.work for action in self.actions), key=WORKS.index)


def try_action(chain: Chain, action: Action) -> Chain | None:
    """Return the chain with one action more, or None where the geometry forbids it."""
    after = chain.now.changed(dict(action.changes))
    return None if not after.turns or forbids(chain.now, after) else Chain(chain.start, (*chain.actions, action), after)


def propose_actions(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Return everything that can be done about one suspected fault."""
    return [action for remedy in REMEDIES.get(suspicion.code, ()) for action in remedy(reading, aim, suspicion)]


def finish_chain(chain: Chain, aim: Aim) -> Chain:
    """Go on with the likeliest cure of whatever is still out of order, as long as each step makes it better."""
    while len(chain.actions) < LONGEST:
        best, weight = None, add_weights(find_symptoms(chain.now, aim)) - 0.05
        for explanation in explain_cylinder(chain.now.sizes, aim)[:1]:
            for action in propose_actions(chain.now, aim, explanation.first.suspicion):
                tried = try_action(chain, action)
                if tried is not None and (cost := weigh_chain(tried, aim)) < weight + COST[action.work]:
                    best, weight = tried, cost - COST[action.work]
        if best is None:
            return chain
        chain = best
    return chain


def weigh_chain(chain: Chain, aim: Aim) -> float:
    """Return how good a chain is, small is good: what it leaves out of order, the work, and the opening it costs."""
    share = opening_share(chain.now)
    lost = 0.0 if share is None else max(0.0, 1.0 - share) * 0.8
    work = sum(COST[action.work] for action in chain.actions) + 0.02 * len(chain.actions)
    return add_weights(find_symptoms(chain.now, aim)) * 2 + work + lost
