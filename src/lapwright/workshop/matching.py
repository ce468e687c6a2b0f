"""Which screw goes into which hole, though their threads are not the same, and what that is worth."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import degrees, inf, sin
from typing import Final

from lapwright.quantities import show_mm, show_number, show_share
from lapwright.tables.threads import ThreadRow, list_threads
from lapwright.workshop.forms import FORMS
from lapwright.workshop.identify import is_first_name

#: How much looser than its drawing a pair is on the effective diameter, as pitches and [m]: half of what BS 93 allows
#: screw (normal class) and nut together, with the screw's allowance.
_SLACK_PITCHES: Final = (0.10 + 0.12) / 2
_SLACK_LENGTH: Final = 0.025e-3 + (0.025e-3 + 0.03e-3) / 2
#: Length of thread that is asked for, in diameters of the screw.
LENGTH: Final = 1.0
#: A thread that is in by less of its depth than this is not called one [-].
GRIPS: Final = 0.25
#: A screw that has not gone in so far [turns] has not gone in.
STARTS: Final = 1.5
#: With less play than this a pair goes or does not [m].
_BARELY: Final = 0.02e-3
#: Threads this much apart in diameter are not asked whether they nearly fit, in pitches.
_NEAR: Final = 0.75
_SLACK_SOURCE = (
    "how loose screw and hole are: the middle of what BS 93 allows (normal class), as reprinted in Machinery's "
    "Handbook, 31st edition, p. 2115, taken for all forms; that a pair binds where the play along the screw is used "
    "up by the difference in pitch: derived here"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """A screw in a hole of another thread, or of its own.

    `verdict` is one of "own", "goes", "binds", "jams", "too thick", "slips"; `play` is what it can move along its axis
    at the usual slack [m], negative where the flanks are in each other's way. `turns` [turns] is how far it goes before
    the difference in pitch has used the play up, infinite where the pitches are the same, and `wanted` how many turns a
    length of one diameter has. `depth` is the share of the hole's full depth in which the two overlap [-]. `short`
    is the sentence cut down to a line.
    """

    screw: ThreadRow
    hole: ThreadRow
    verdict: str
    play: float
    turns: float
    wanted: float
    depth: float
    sentence: str
    short: str
    sources: tuple[str, ...]

    @property
    def enters(self) -> bool:
        """Whether the screw takes hold and goes in by more than a turn."""
        return self.verdict in ("own", "goes", "binds")


def match_threads(screw: ThreadRow, hole: ThreadRow) -> Match:
    """Tell whether a screw goes into a hole tapped for another thread, and after how many turns it binds.

    Both are taken at their drawn sizes with the usual slack between them. At every diameter the gap of the hole has to
    be wider than the ridge of the screw; the two widths run straight along the flanks, so the ends of the straight
    flanks decide. What is left is the play along the axis, and the difference in pitch eats it up turn by turn.

    Parameters
    ----------
    screw: thread of the screw
    hole: thread of the hole

    Source: exact geometry; bs-93 (tolerances, from which the slack is taken)

    Example:
    >>> from lapwright.tables.naming import find_thread
    >>> match = match_threads(find_thread("2 BA"), find_thread("M4"))
    >>> match.verdict, match.enters
    ('too thick', False)
    """
    slack = _SLACK_PITCHES * min(screw.pitch, hole.pitch) + _SLACK_LENGTH
    play = _measure_play(screw, hole, slack)
    gap = abs(screw.pitch - hole.pitch)
    turns = inf if gap < 1e-9 * hole.pitch else max(play, 0.0) / gap
    wanted = LENGTH * screw.major / screw.pitch
    overlap = min(screw.major, hole.major) - hole.minor
    depth = max(0.0, min(1.0, overlap / (hole.major - hole.minor)))
    verdict = _judge(screw, hole, slack=slack, play=play, turns=turns, wanted=wanted, depth=depth)
    match = Match(
        screw=screw,
        hole=hole,
        verdict=verdict,
        play=play,
        turns=turns,
        wanted=wanted,
        depth=depth,
        sentence="",
        short="",
        sources=(*dict.fromkeys((screw.source, hole.source)), _SLACK_SOURCE),
    )
    return replace(match, sentence=_tell(match, slack), short=_tell_in_short(match, slack))


def _measure_play(screw: ThreadRow, hole: ThreadRow, slack: float) -> float:
    """The least width of the hole's gap over the screw's ridge [m], where both have straight flanks."""
    slopes = [FORMS[thread.form].half_angle_tangent for thread in (screw, hole)]
    inner = max(screw.minor_external + _round_off(screw), hole.minor + _round_off(hole))
    outer = min(thread.major - _round_off(thread) for thread in (screw, hole))
    plays = (
        (hole.pitch - screw.pitch) / 2 + (at - screw.effective) * slopes[0] - (at - hole.effective) * slopes[1]
        for at in (inner, outer)
    )
    return min(plays) + slack * sum(slopes) / 2


def _round_off(thread: ThreadRow) -> float:
    """How much of the diameter the rounding takes at crest and root [m]: beyond it the flanks are not straight."""
    form = FORMS[thread.form]
    return 2 * form.radius_factor * (1 - sin(form.flank_angle / 2)) * thread.pitch


def _judge(
    screw: ThreadRow, hole: ThreadRow, *, slack: float, play: float, turns: float, wanted: float, depth: float
) -> str:
    if screw.name == hole.name or screw.name in hole.twins:
        return "own"
    if screw.major > hole.major + slack or screw.minor_external > hole.minor + slack:
        return "too thick"
    if depth < GRIPS:
        return "slips"
    if play < 0 or turns < STARTS:
        return "jams"
    return "goes" if turns >= wanted else "binds"


def _tell(match: Match, slack: float) -> str:
    names = f"{match.screw.name} screw in {match.hole.name} hole"
    holds = f"it has {show_share(match.depth)} of the depth to hold by{_tell_flanks(match)}"
    return {
        "own": f"{names}: its own thread.",
        "goes": f"{names}: goes in{_tell_ease(match, slack)}; {holds}.",
        "binds": (
            f"{names}: starts{_tell_ease(match, slack)} and binds after about {show_number(match.turns, 0)} turns, "
            f"where a length of one diameter has {show_number(match.wanted, 0)}; {holds}. Do not force it."
        ),
        "jams": (
            f"{names}: does not go in; the pitches are too far apart, and it binds within a turn or two."
            if match.play > 0
            else f"{names}: does not go in; the flanks are in each other's way from the start."
        ),
        "too thick": f"{names}: does not go in; it is {_tell_thicker(match)}.",
        "slips": f"{names}: finds next to no thread, {show_share(match.depth)} of the depth, and pulls out.",
    }[match.verdict]


def _tell_in_short(match: Match, slack: float) -> str:
    names, ease = f"{match.screw.name} screw in {match.hole.name} hole", _ease(match, slack)
    told = {"goes": f"goes in{ease}", "binds": f"binds after about {show_number(match.turns, 0)} turns"}
    return f"{names} {told[match.verdict]}" if match.verdict in told else match.sentence


def _ease(match: Match, slack: float) -> str:
    if match.play < _BARELY:
        return " only just, if at all"
    return " loosely" if match.hole.effective - match.screw.effective > slack else ""


def _tell_ease(match: Match, slack: float) -> str:
    why = ": it hangs on how loose the two happen to be" if match.play < _BARELY else ""
    return _ease(match, slack) + why


def _tell_thicker(match: Match) -> str:
    screw, hole = match.screw, match.hole
    if screw.major > hole.major:
        return f"{show_mm(screw.major - hole.major)} too thick"
    return f"{show_mm(screw.minor_external - hole.minor)} too thick at the root"


def _tell_flanks(match: Match) -> str:
    angles = [degrees(FORMS[thread.form].flank_angle) for thread in (match.screw, match.hole)]
    if angles[0] == angles[1]:
        return ""
    return f", but the flanks differ ({angles[0]:g} against {angles[1]:g} degrees): they touch along a line and indent"


def list_near(thread: ThreadRow) -> tuple[Match, ...]:
    """List the pairings of a thread with others that go together though they are not the same: to be told apart.

    Parameters
    ----------
    thread: of the tables

    Returns
    -------
    The thread as a screw in holes of others and as a hole for screws of others, nearest sizes first; its twins are not
    among them.

    Source: exact geometry; bs-93 (tolerances, from which the slack is taken)

    Example:
    >>> from lapwright.tables.naming import find_thread
    >>> [(match.screw.name, match.hole.name) for match in list_near(find_thread("0 BA"))][:2]
    [('0 BA', 'M6'), ('M6', '0 BA')]
    """
    others = [row for row in list_threads() if _may_fit(thread, row)]
    pairs = [match for row in others for match in (match_threads(thread, row), match_threads(row, thread))]
    return tuple(sorted((match for match in pairs if match.enters), key=_how_far))


def _may_fit(thread: ThreadRow, other: ThreadRow) -> bool:
    if other.name == thread.name or other.name in thread.twins or not is_first_name(other):
        return False
    return abs(other.major - thread.major) < _NEAR * thread.pitch


def _how_far(match: Match) -> float:
    return abs(match.screw.major - match.hole.major) + abs(match.screw.effective - match.hole.effective)
