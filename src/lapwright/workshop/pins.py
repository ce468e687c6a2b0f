"""Pins on which something turns: shear, bending, and why a thread is no bearing."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import Final

from lapwright.errors import DoesNotFit, OutOfRange
from lapwright.quantities import show_mm
from lapwright.tables.materials import find_metal

#: How much longer than the part that turns on it a plain shank is made [m].
SHANK_PLAY: Final = (0.05e-3, 0.10e-3)
#: Why a thread must not run as a bearing.
THREAD_REASONS: Final = (
    "It touches on its crests and flanks only, a fraction of the surface that a plain shank has, so it wears fast.",
    "A thread fits its hole with 0.05 to 0.15 mm of slack: the joint knocks from the first day.",
    "The helix pumps the oil out, and the rocking turns the screw, so it works loose.",
    "Its sharp crests cut into the hole and leave their mark in it.",
)
SHANK_SOURCE: Final = "A shank 0.05 to 0.1 mm longer than the moving part: common practice, no source."
#: A thousandth of a mm is beyond the rule: what was worked out from round sizes is not called short for it [m].
_HAIR: Final = 1e-6
#: The load turns round twice in a turn of the engine, so only this share of the strength is used [-].
REVERSING_SHARE: Final = 0.2
REVERSING_SOURCE: Final = (
    "A fifth of the breaking strength for a load that turns round at every stroke: common practice, no source."
)


@dataclass(frozen=True, slots=True)
class ShankVerdict:
    """Whether a pin bears on plain shank along the whole moving part.

    `thread_inside` [m] is how much of the moving part runs on thread; `wanted` [m] the least and the greatest length of
    shank to make instead.
    """

    plain_length: float
    moving_part: float
    thread_inside: float
    wanted: tuple[float, float]
    sentence: str
    reasons: tuple[str, ...]
    sources: tuple[str, ...] = (SHANK_SOURCE,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """How a pin is held, in m: its diameter, the part that turns on it, the gap beside that, the cheek that holds it.

    `cheek` is 0 where it is not known: the load is then taken up at the face of the cheek. `planes` is 2 for a pin held
    at both sides of the moving part, 1 for one that stands out from one.
    """

    diameter: float
    moving_part: float
    gap: float = 0.0
    cheek: float = 0.0
    planes: int = 2

    def __post_init__(self) -> None:
        """Refuse what is no pin."""
        if self.planes not in (1, 2):
            raise DoesNotFit(f"a pin cannot be held at {self.planes} sides", "it is held at 1 or 2")
        if self.diameter <= 0 or self.moving_part <= 0:
            raise OutOfRange(show_mm(min(self.diameter, self.moving_part)), "is no size of a pin", "measure it again")
        if self.gap < 0 or self.cheek < 0:
            raise DoesNotFit(
                "the moving part is wider than the fork",
                "measure both again: the gap beside it cannot be under nothing",
            )

    @property
    def arm(self) -> float:
        """The arm at which the load bends the pin [m], for a load spread evenly along the part and along the cheek."""
        if self.planes == 2:
            return (self.cheek / 2 + self.gap + self.moving_part / 4) / 2
        return self.gap + self.moving_part / 2


def find_shear_stress(load: float, *, diameter: float, planes: int = 2) -> float:
    """Work out the shear stress in a pin [Pa]: F / (planes pi d^2 / 4).

    Parameters
    ----------
    load: on the moving part [N]
    diameter: of the pin [m]
    planes: across how many sections it would shear: 2 for a pin held at both sides, 1 for one that stands out

    Source: exact geometry

    Example:
    >>> [round(find_shear_stress(100, diameter=2.5e-3, planes=planes) / 1e6, 2) for planes in (2, 1)]
    [10.19, 20.37]
    """
    return 4 * load / (planes * pi * diameter**2)


def find_bending_stress(load: float, span: Span) -> float:
    """Work out the greatest bending stress in a pin [Pa]: 32 F arm / (pi d^3).

    Held at both sides it bends most in the middle, with an arm of (cheek/2 + gap + part/4)/2; standing out from one
    side it bends most at the face that holds it, with an arm of gap + part/2.

    Parameters
    ----------
    load: on the moving part [N]
    span: how the pin is held

    Source: exact geometry (a beam, loads spread evenly)

    Example:
    >>> round(find_bending_stress(100, Span(diameter=2.5e-3, moving_part=4e-3, cheek=2e-3)) / 1e6, 1)
    65.2
    """
    return 32 * load * span.arm / (pi * span.diameter**3)


def find_shank(moving_part: float) -> tuple[float, float]:
    """Work out the least and the greatest length of plain shank for a moving part [m].

    Parameters
    ----------
    moving_part: its length along the pin [m]

    Source: common practice, no source

    Example:
    >>> [round(1e3 * length, 2) for length in find_shank(4e-3)]
    [4.05, 4.1]
    """
    return moving_part + SHANK_PLAY[0], moving_part + SHANK_PLAY[1]


def judge_thread_in_bearing(plain_length: float, moving_part: float) -> ShankVerdict:
    """Judge whether a moving part runs on plain shank, or on the thread of a bolt used as a pin.

    Parameters
    ----------
    plain_length: the shank without thread, from where the moving part begins [m]; 0 for a screw threaded to the head
    moving_part: the length of the part that turns on it [m], more than 0

    Raises
    ------
    OutOfRange: a length under nothing, or a moving part of nothing

    Source: common practice, no source (how much longer); exact geometry (how much runs on thread)

    Example:
    >>> round(1e3 * judge_thread_in_bearing(2.5e-3, 4e-3).thread_inside, 2)
    1.5
    """
    if moving_part <= 0 or plain_length < 0:
        raise OutOfRange(show_mm(min(plain_length, moving_part)), "is no length of a pin", "measure it again")
    inside = moving_part - plain_length if moving_part - plain_length > _HAIR else 0.0
    wanted = find_shank(moving_part)
    return ShankVerdict(
        plain_length=plain_length,
        moving_part=moving_part,
        thread_inside=inside,
        wanted=wanted,
        sentence=_say_shank(plain_length, moving_part, wanted=wanted),
        reasons=THREAD_REASONS if inside > 0 else (),
    )


def _say_shank(plain_length: float, moving_part: float, *, wanted: tuple[float, float]) -> str:
    play, sizes = plain_length - moving_part, f"{1e3 * wanted[0]:.2f} to {show_mm(wanted[1])} long"
    if plain_length <= _HAIR:
        return f"The moving part runs on nothing but thread, which is no bearing: give it a plain shank {sizes}."
    if play < -_HAIR:
        part = f"{show_mm(-play)} of the moving part ({-100 * play / moving_part:.0f} %)"
        return f"{part} runs on thread, which is no bearing: make the plain shank {sizes}, not {show_mm(plain_length)}."
    if play < SHANK_PLAY[0] - _HAIR:
        longer = "no longer" if play <= _HAIR else f"only {show_mm(play)} longer"
        return f"The plain shank is {longer} than the moving part, and the nut pinches it: make it {sizes}."
    right = f"The moving part runs on plain shank all along, with {show_mm(play)} of play beside it"
    return (
        f"{right}."
        if play <= SHANK_PLAY[1] + _HAIR
        else f"{right}: a washer takes up what is over {show_mm(SHANK_PLAY[1])}."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class PinStrength:
    """How a pin bears its load: the stresses [Pa], and the share of the breaking strength that each uses [-]."""

    load: float
    span: Span
    metal: str
    shear: float
    bending: float
    shear_share: float
    bending_share: float
    sentence: str
    sources: tuple[str, ...]

    @property
    def governs(self) -> str:
        """Which of the two uses up more of its strength: "shear" or "bending"."""
        return "bending" if self.bending_share > self.shear_share else "shear"

    @property
    def share(self) -> float:
        """The larger of the two shares [-]."""
        return max(self.shear_share, self.bending_share)


def judge_pin(load: float, span: Span, *, metal: str = "steel") -> PinStrength:
    """Judge whether a pin is strong enough in shear and in bending for a load that turns round at every stroke.

    Parameters
    ----------
    load: the greatest on the moving part, whichever way it points [N]
    span: how the pin is held
    metal: of the pin: a metal of the tables

    Raises
    ------
    NotOneOf: there is no such metal

    Source: exact geometry (stresses); common practice, no source (a fifth of the strength)
    """
    strengths = find_metal(metal)
    load = abs(load)
    shear = find_shear_stress(load, diameter=span.diameter, planes=span.planes)
    bending = find_bending_stress(load, span)
    shares = shear / strengths.shear.value, bending / strengths.ultimate.value
    return PinStrength(
        load=load,
        span=span,
        metal=strengths.name,
        shear=shear,
        bending=bending,
        shear_share=shares[0],
        bending_share=shares[1],
        sentence=_say_strength(load, shares),
        sources=(
            f"Shear strength of {strengths.name}: {strengths.shear.source}.",
            f"Tensile strength of {strengths.name}: {strengths.ultimate.source}.",
            REVERSING_SOURCE,
        ),
    )


def _say_strength(load: float, shares: tuple[float, float]) -> str:
    way = "bending" if shares[1] > shares[0] else "shear"
    share = max(shares)
    used = f"{load:.0f} N uses {100 * share:.1f} % of its strength in {way}"
    fifth = f"{100 * REVERSING_SHARE:.0f} %"
    return f"{used}, {'under' if share <= REVERSING_SHARE else 'more than'} the {fifth} that may be used."
