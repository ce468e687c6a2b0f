"""The look-ups of the workshop's tables: what may be said to each, word by word, and the sheet that it answers with."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from lapwright.engine.parts import HANDS, LETTERINGS, METALS, OILS, POINTS, SCREW_METALS
from lapwright.errors import NotOneOf, OutOfRange
from lapwright.job.lookup import answers
from lapwright.job.lookup.sheet import Sheet
from lapwright.workshop.drawers import DRAWERS
from lapwright.workshop.gland_cutting import JOINTS
from lapwright.workshop.gland_service import FLUIDS
from lapwright.workshop.holding import LOADS
from lapwright.workshop.packing_choice import MATERIALS
from lapwright.workshop.paint_choice import list_paints
from lapwright.workshop.paint_faults import PAINT_FAULTS
from lapwright.workshop.screws import COEFFICIENTS
from lapwright.workshop.tapping import TARGETS

#: Letters that no word of a question has need of.
LONGEST: Final = 80
#: What a box that is ticked says.
TICKED: Final = "yes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One thing that may be said: a text, one of some `choices` (others too where it `is_open`), or a tick.

    Nothing is answered before what is `needed` was said. What `can_wait` is asked for least. `usual` is taken where
    nothing is said.
    """

    name: str
    choices: tuple[str, ...] = ()
    is_open: bool = False
    is_tick: bool = False
    needed: bool = False
    can_wait: bool = False
    usual: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lookup:
    """One look-up: what may be said, questions to show it by, and what answers."""

    fields: tuple[Field, ...]
    examples: tuple[Mapping[str, str], ...]
    answer: Callable[[Mapping[str, str]], Sheet]

    def settle(self, said: Mapping[str, str]) -> dict[str, str]:
        """Return what was said that means something here: by field, without idle blanks and what is taken anyhow.

        Parameters
        ----------
        said: texts by field; others are passed over

        Raises
        ------
        OutOfRange: a text longer than anything that is written here
        """
        told = {each.name: said[each.name].strip() for each in self.fields if said.get(each.name, "").strip()}
        for text in told.values():
            if len(text) > LONGEST:
                raise OutOfRange(f"{text[:30]}…", "is longer than anything that is asked here", "write it shorter")
        return {each.name: told[each.name] for each in self.fields if told.get(each.name, each.usual) != each.usual}

    def ask(self, said: Mapping[str, str]) -> Sheet | None:
        """Answer a question; None as long as something is wanting to it.

        Parameters
        ----------
        said: as settled

        Raises
        ------
        BadInput: something cannot be read, is not in the tables or cannot be; the sentence says what can
        """
        if any(each.needed and each.name not in said for each in self.fields):
            return None
        return self.answer({**{each.name: each.usual for each in self.fields if each.usual}, **said})


def _text(name: str, *, needed: bool = False, can_wait: bool = False) -> Field:
    return Field(name=name, needed=needed, can_wait=can_wait)


def _metal(name: str, *, usual: str = "") -> Field:
    # A grade does as well as a name.
    return Field(name=name, choices=METALS, is_open=True, usual=usual)


def _choice(name: str, choices: tuple[str, ...], *, usual: str = "", can_wait: bool = False) -> Field:
    return Field(name=name, choices=choices, usual=usual, can_wait=can_wait)


def _tick(name: str, *, can_wait: bool = False) -> Field:
    return Field(name=name, is_tick=True, can_wait=can_wait)


_Q: Final = _text("q", needed=True)

#: In the order in which they are offered.
LOOKUPS: Final[Mapping[str, Lookup]] = {
    "thread": Lookup(
        fields=(_Q, _text("against")),
        examples=({"q": "4BA"}, {"q": "1/4 x 40"}, {"q": "M4"}, {"q": "4BA", "against": "M3.5"}),
        answer=answers.tell_thread,
    ),
    "which": Lookup(
        fields=(_Q, _text("pitch"), _tick("hole")),
        examples=({"q": "3.55 mm", "pitch": "0.66 mm"}, {"q": "1/8 in", "pitch": "40 tpi"}),
        answer=answers.tell_which,
    ),
    "drill": Lookup(
        fields=(
            _Q,
            Field(name="metal", choices=tuple(TARGETS), is_open=True),
            _choice("drawers", tuple(DRAWERS), usual="all"),
            _text("depth", can_wait=True),
        ),
        examples=({"q": "4BA"}, {"q": "M3", "metal": "brass"}, {"q": "No 30"}, {"q": "3.1 mm"}),
        answer=answers.tell_drill,
    ),
    "gland": Lookup(
        fields=(
            _text("rod", needed=True),
            _text("bore", needed=True),
            _text("depth"),
            _choice("fluid", FLUIDS),
            _text("pressure"),
            _text("temperature", can_wait=True),
            _text("nut", can_wait=True),
            _choice("nut_hand", HANDS, usual=HANDS[0], can_wait=True),
            _choice("oil", OILS, can_wait=True),
            Field(name="material", choices=MATERIALS, is_open=True, can_wait=True),
            _choice("joint", tuple(JOINTS), usual="butt", can_wait=True),
        ),
        examples=({"rod": "4 mm", "bore": "8 mm", "depth": "10 mm", "pressure": "3 bar"},),
        answer=answers.tell_gland,
    ),
    "screw": Lookup(
        fields=(
            _Q,
            _choice("screw", SCREW_METALS, usual="steel"),
            _metal("hole", usual="brass"),
            _text("engagement"),
            _choice("thread_is", tuple(COEFFICIENTS), usual="dry"),
            _tick("worn"),
        ),
        examples=({"q": "4BA"}, {"q": "M3", "hole": "aluminium"}, {"q": "5BA", "hole": "cast iron", "worn": TICKED}),
        answer=answers.tell_screw,
    ),
    "grub": Lookup(
        fields=(
            _Q,
            _text("shaft"),
            _text("hold"),
            _choice("load", tuple(LOADS), usual="reversing"),
            _choice("point", POINTS, usual="cup"),
            _metal("hole", usual="brass"),
            _text("engagement", can_wait=True),
            _tick("slotted"),
            _tick("worn"),
        ),
        examples=({"q": "M4", "shaft": "8 mm", "hold": "0.05 N m"}, {"q": "4BA", "slotted": TICKED}),
        answer=answers.tell_grub,
    ),
    "rethread": Lookup(
        fields=(
            _Q,
            _text("to"),
            _metal("metal", usual="brass"),
            _text("depth"),
            _text("wall"),
            _tick("stripped"),
            _tick("into_steam"),
            _tick("keep_screw"),
            _text("torque", can_wait=True),
            _choice("screw", SCREW_METALS, usual="steel", can_wait=True),
            _text("temperature", can_wait=True),
            _tick("grub", can_wait=True),
        ),
        examples=({"q": "4BA"}, {"q": "5BA", "to": "4BA"}, {"q": "M4", "metal": "cast iron", "stripped": TICKED}),
        answer=answers.tell_rethread,
    ),
    "fit": Lookup(
        fields=(_Q, _text("fit"), _text("clearance"), _text("pin")),
        examples=({"q": "6 mm"}, {"q": "1/4 in", "fit": "H7/g6"}, {"q": "4.05 mm", "pin": "3.98 mm"}),
        answer=answers.tell_fit,
    ),
    "finish": Lookup(
        fields=(
            Field(name="metal", choices=METALS, is_open=True, needed=True),
            _text("temperature"),
            _text("surface"),
            Field(name="paint", choices=tuple(paint.name for paint in list_paints()), is_open=True),
            _tick("old_paint"),
            _choice("lettering", LETTERINGS, usual=LETTERINGS[0], can_wait=True),
            _text("bright", can_wait=True),
            _choice("seen", PAINT_FAULTS, can_wait=True),
        ),
        examples=(
            {"metal": "cast iron", "surface": "350 cm2"},
            {"metal": "cast iron", "temperature": "150 degC", "surface": "350 cm2"},
            {"metal": "brass", "bright": "name plate"},
        ),
        answer=answers.tell_finish,
    ),
}


def find_lookup(name: str) -> Lookup:
    """Return a look-up by its name.

    Parameters
    ----------
    name: one of `LOOKUPS`

    Raises
    ------
    NotOneOf: there is none of that name
    """
    if name not in LOOKUPS:
        raise NotOneOf(name[:LONGEST], tuple(LOOKUPS))
    return LOOKUPS[name]
