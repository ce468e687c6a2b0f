"""What each look-up answers to what was said, word by word."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.job.lookup.drill_answer import answer_drill
from lapwright.job.lookup.drill_sheet import lay_drill
from lapwright.job.lookup.fit_answer import answer_fit
from lapwright.job.lookup.fit_sheet import lay_fit
from lapwright.job.lookup.gland_answer import GlandAsked, answer_gland
from lapwright.job.lookup.gland_sheet import lay_gland
from lapwright.job.lookup.paint_answer import PaintAsked, answer_paint
from lapwright.job.lookup.paint_sheet import lay_paint
from lapwright.job.lookup.rethread_answer import RethreadAsked, answer_rethread
from lapwright.job.lookup.rethread_sheet import lay_rethread
from lapwright.job.lookup.sheet import Sheet
from lapwright.job.lookup.thread_answer import answer_against, answer_measured, answer_thread
from lapwright.job.lookup.thread_sheet import lay_against, lay_measured, lay_thread
from lapwright.job.lookup.torque_answer import TorqueAsked, answer_torque
from lapwright.job.lookup.torque_sheet import lay_torque
from lapwright.workshop.packing_choice import USUAL_CURE

Said = Mapping[str, str]


def tell_thread(said: Said) -> Sheet:
    """Tell a thread, or two held against each other."""
    if "against" in said:
        return lay_against(answer_against(said["q"], said["against"]))
    return lay_thread(answer_thread(said["q"]))


def tell_which(said: Said) -> Sheet:
    """Tell which thread was measured."""
    return lay_measured(answer_measured(said["q"], pitch=said.get("pitch"), is_hole="hole" in said))


def tell_drill(said: Said) -> Sheet:
    """Tell the drills for a thread, or what a drill is good for."""
    answer = answer_drill(said["q"], metal=said.get("metal"), engagement=said.get("depth"), drawers=said["drawers"])
    return lay_drill(answer)


def tell_gland(said: Said) -> Sheet:
    """Tell how a gland is packed."""
    asked = GlandAsked(
        rod=said["rod"],
        bore=said["bore"],
        depth=said.get("depth"),
        nut=said.get("nut"),
        nut_hand=said["nut_hand"],
        fluid=said.get("fluid"),
        pressure=said.get("pressure"),
        temperature=said.get("temperature"),
        oil=said.get("oil"),
        material=said.get("material", USUAL_CURE),
        joint=said["joint"],
    )
    return lay_gland(answer_gland(asked))


def tell_screw(said: Said) -> Sheet:
    """Tell how tight a screw may be drawn."""
    asked = TorqueAsked(
        thread=said["q"],
        screw=said["screw"],
        hole=said["hole"],
        engagement=said.get("engagement"),
        condition=said["thread_is"],
        worn="worn" in said,
    )
    return lay_torque(answer_torque(asked))


def tell_grub(said: Said) -> Sheet:
    """Tell what a grub screw holds on its shaft."""
    asked = TorqueAsked(
        thread=said["q"],
        hole=said["hole"],
        engagement=said.get("engagement"),
        worn="worn" in said,
        grub=True,
        slotted="slotted" in said,
        point=said["point"],
        shaft=said.get("shaft"),
        hold=said.get("hold"),
        load=said["load"],
    )
    return lay_torque(answer_torque(asked))


def tell_rethread(said: Said) -> Sheet:
    """Tell what a worn hole can be cut to."""
    asked = RethreadAsked(
        old=said["q"],
        new=said.get("to"),
        metal=said["metal"],
        depth=said.get("depth"),
        wall=said.get("wall"),
        stripped="stripped" in said,
        into_steam="into_steam" in said,
        temperature=said.get("temperature"),
        keep_screw="keep_screw" in said,
        screw=said["screw"],
        grub="grub" in said,
        torque=said.get("torque"),
    )
    return lay_rethread(answer_rethread(asked))


def tell_fit(said: Said) -> Sheet:
    """Tell the limits of hole and shaft, and how a clearance stands."""
    return lay_fit(answer_fit(said["q"], said.get("fit"), clearance=said.get("clearance"), pin=said.get("pin")))


def tell_finish(said: Said) -> Sheet:
    """Tell how a part is painted."""
    asked = PaintAsked(
        metal=said["metal"],
        temperature=said.get("temperature"),
        surface=said.get("surface"),
        paint=said.get("paint"),
        old_paint="old_paint" in said,
        lettering=said["lettering"],
        bright=said.get("bright"),
        seen=said.get("seen"),
    )
    return lay_paint(answer_paint(asked))
