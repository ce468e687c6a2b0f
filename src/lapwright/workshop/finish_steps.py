"""In which order a part is painted: clean, cover, prime, coat, letters, uncover, harden, polish.

Source of all of it, where no other is named: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from lapwright.quantities import show_number
from lapwright.workshop.finish_plan import Coat
from lapwright.workshop.heat import show_heat
from lapwright.workshop.paint_choice import Paint
from lapwright.workshop.paint_film import show_micrometres

#: How each family of metals is washed, roughened, and why paint has to follow soon.
_PREPARE: Final[Mapping[str, tuple[str, str, str]]] = {
    "iron": (
        "Wash off oil and grease with white spirit, then again with fresh rag until the rag stays white. A casting "
        "sweats oil from its pores: warm it, let it cool, and wipe it once more.",
        "Take rust off to the metal, and abrade all over until it is evenly dull.",
        "before it rusts",
    ),
    "copper alloy": (
        "Degrease with an alkaline cleaner, gloves and goggles on; rinse with clean water and dry.",
        "Abrade until it is evenly dull, with gloves on still, so that no fingermark is left.",
        "before it tarnishes",
    ),
    "aluminium": (
        "Wash and degrease it with white spirit, with fresh rag until the rag stays white.",
        "Abrade until it is evenly dull, with paper and not with steel wool: bits of steel stay in aluminium and rust.",
        "the sooner the better, for the oxide grows back at once",
    ),
    "stainless": (
        "Degrease it with white spirit, with fresh rag until the rag stays white.",
        "Abrade with coarse paper until no bright spot is left: paint does not hold on polish.",
        "before it is handled",
    ),
}
#: By whether the primer goes on bare metal only, as etch primer does.
_PRIMING: Final = {
    True: "Keep it so thin that the metal shows through: laid on thick it keeps free acid, and the next coat lifts.",
    False: "Brush it well into corners.",
}
_LETTERS: Final[Mapping[str, tuple[str, ...]]] = {
    "none": (),
    "raised": (
        "Raised letters: paint ground and letters alike. While the last coat is still soft, wipe the faces of the "
        "letters clean with a rag stretched over a flat block and barely damp with thinner, in one stroke, with fresh "
        "rag for each; what is left is rubbed off with fine paper on the block once the paint is hard.",
    ),
    "recessed": (
        "Recessed letters: once the ground is hard, or the face is polished, fill them from a fine brush with the "
        "colour of the letters, a paint that stands the same heat. When it begins to set, wipe straight across them, "
        "never along, with a rag stretched over a flat block or with the edge of a card. Fill and wipe again where it "
        "has sunk.",
    ),
}
_BRUSHING: Final = (
    "Each coat: edges, corners, bolt heads and letters first, for paint draws back from them, then the large faces "
    "while the edges are still wet. Turn the part so that the face in hand lies level; on an upright face draw the "
    "last strokes of the brush upwards."
)
_SPRAYING: Final = (
    "Each coat: edges, corners, bolt heads and letters first, for paint draws back from them, then the large faces in "
    "thin passes that begin and end beside the part, each across the one before. Turn the part so that the face in "
    "hand lies level."
)
#: A hundred cm2 [m2].
_PALM: Final = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What the order of work depends on: the part with its family of metals, its coats, and what stays bright.

    `primer` is None where the paint goes on bare metal; `surface` [m2] is None where not known.
    """

    family: str
    paint: Paint
    primer: Paint | None
    coats: tuple[Coat, ...]
    old_paint: bool
    lettering: str
    masked: tuple[str, ...]
    surface: float | None


def list_steps(work: Work) -> tuple[str, ...]:
    """List what to do, in order.

    Parameters
    ----------
    work: the part, its paint and primer, and what has to stay bright

    Source: common practice, no source; films, primers and cures from the rows of the table of paints
    """
    return (
        *_make_ready(work),
        *_cover(work.masked),
        *_prime(work),
        *_coat(work),
        *(_LETTERS[work.lettering] if work.lettering == "raised" else ()),
        *_uncover(work.masked),
        _harden(work.paint),
        *(_LETTERS[work.lettering] if work.lettering == "recessed" else ()),
        *_polish(work.masked),
    )


def list_steps_without_paint(family: str) -> tuple[str, ...]:
    """List what to do with a part that is too hot for any paint.

    Parameters
    ----------
    family: of the metal, one of the values of `FAMILIES`

    Source: common practice, no source
    """
    washed, roughened, _ = _PREPARE[family]
    after = {
        "iron": "Leave it bare: rub it with graphite and a little oil while it is warm, and again when it turns brown.",
    }.get(family, "Leave it bare, and polish it when it has dulled.")
    return (washed, roughened, after)


def _make_ready(work: Work) -> Iterator[str]:
    yield (
        "Take off what comes off, name plates, oil cups and cocks with it. Plug oil holes, threads and bores, and keep "
        "paint off faces where parts meet: it spoils the fit and crushes under a joint."
    )
    washed, roughened, why_soon = _PREPARE[work.family]
    yield washed
    first = work.primer or work.paint
    if work.old_paint and (work.primer is None or first.wants_bare):
        yield f"Take all old paint off, wet, down to the metal: {first.name} goes on bare metal only."
    elif work.old_paint:
        yield (
            "Rub the old paint down wet and take off all that is loose. What is sound may stay if a patch of the new "
            "paint on it has not wrinkled by the next day."
        )
    yield f"{roughened} Wipe the dust off. {'Prime' if work.primer else 'Paint'} the same day, {why_soon}."


def _cover(masked: tuple[str, ...]) -> Iterator[str]:
    if masked:
        yield (
            f"Cover what stays bright ({', '.join(masked)}) with tape, pressed down hard along its edge. Use no grease "
            "for it: grease creeps under the paint beside it."
        )


def _prime(work: Work) -> Iterator[str]:
    if work.primer is None:
        return
    coat = work.coats[0]
    yield (
        f"Prime with {work.primer.name}. {_say_film(coat, work.surface)} {_PRIMING[work.primer.wants_bare]} The next "
        f"coat goes on {coat.recoat}."
    )
    if work.family == "iron" and not work.primer.wants_bare:
        yield (
            "Fill pits and sand marks over the primer with stopper, rub it down flat when it is hard, and prime the "
            "filled places once more."
        )


def _coat(work: Work) -> Iterator[str]:
    own = work.coats[1:] if work.primer else work.coats
    count = {1: "one coat", 2: "two thin coats", 3: "three thin coats"}.get(len(own), f"{len(own)} thin coats")
    yield f"Paint: {count} of {work.paint.name}. {_say_film(own[0], work.surface)}"
    yield _SPRAYING if work.paint.sprayed else _BRUSHING
    if len(own) > 1:
        yield (
            f"The next coat goes on {own[0].recoat}. If the one below is hard, dull it with fine wet paper and wipe it "
            "clean first."
        )


def _say_film(coat: Coat, surface: float | None) -> str:
    if coat.dry_film is None:
        return "As thick as its tin says: the sheet that was read tells no film."
    dry = f"{show_micrometres(coat.dry_film)}{' (from memory)' if coat.from_memory else ''}"
    if coat.wet_film is None:
        return f"{dry} when dry; how thick that is wet its tin has to say, for the sheet that was read does not."
    area, where = (_PALM, "each 100 cm2") if surface is None else (surface, "the part")
    millilitres = show_number(coat.wet_film * area * 1e6, 1)
    return f"{show_micrometres(coat.wet_film)} wet dries to {dry}: that is {millilitres} ml a coat on {where}."


def _uncover(masked: tuple[str, ...]) -> Iterator[str]:
    if masked:
        yield (
            "Draw the tape off while the last coat is still tacky, back on itself and away from the paint: from hard "
            "paint it tears the edge."
        )


def _harden(paint: Paint) -> str:
    if paint.cure_heat is None and paint.wants_bare:
        return (
            f"Before service: it {paint.cure}. Bring it slowly to what the tin asks, in an oven that no food goes "
            "into; packing, joints and soft solder do not stand that."
        )
    if paint.cure_heat is None:
        return f"Before service: it {paint.cure}. Keep oil, heat and vice off it until a thumbnail leaves no mark."
    heat = show_heat(paint.cure_heat)
    start = f"Before service: {paint.cure}. Let it dry in the air until no fingermark stays, then bring it slowly to"
    if paint.hardens_on_engine:
        return (
            f"{start} {heat}: in an oven that no food goes into, or on the engine, warming it through with the drains "
            "open (steam of 4 bar is at 152 degC)."
        )
    return (
        f"{start} {heat}, in an oven that no food goes into: steam of 6 bar is only at 165 degC. Packing and joints "
        "come out first, and nothing on the part may be soft-soldered: tin-lead solder melts from 183 degC."
    )


def _polish(masked: tuple[str, ...]) -> Iterator[str]:
    if masked:
        yield (
            f"Polish what stays bright ({', '.join(masked)}) last, once the paint is hard and with tape over its edge: "
            "polish smeared on bare metal keeps paint from holding. Then oil it."
        )
