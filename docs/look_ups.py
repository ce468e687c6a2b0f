"""What the fields of the look-ups' JSON mean, and how names and figures of the look-ups are to be read."""

from __future__ import annotations

_FORMAT = ("", "1; nothing here changes its meaning without a new number, but fields may be added")

#: How one screw goes into one hole of another thread.
_MATCH = {
    "screw": ("", "thread of the screw"),
    "hole": ("", "thread of the hole"),
    "verdict": ("", "`own`, `goes`, `binds`, `jams`, `too thick` or `slips`"),
    "enters": ("", "whether it takes hold and goes in by more than a turn"),
    "play_mm": (
        "mm",
        "what it can move along its axis at the usual slack; negative: the flanks are in the way",
    ),
    "turns_before_it_binds": ("turns", "until the difference in pitch has used the play up; null: never, one pitch"),
    "turns_in_one_diameter": ("turns", "that a length of one diameter has"),
    "depth_percent": ("%", "of the hole's full depth of thread in which the two overlap"),
    "sentence": ("", "the same in words"),
}
_LAST = {"notes[]": ("", "what to know besides, in sentences"), "sources[]": ("", "what the figures rest on")}
_WORK = {
    "steps[]": ("", "what to do, in order"),
    "cautions[]": ("", "what can hurt"),
    "have_ready[].shelf": ("", "`tools`, `taps and dies`, `drills`, `screws`, `packing`, ...: where it lies"),
    "have_ready[].name": ("", "what to have ready, with its size"),
    "have_ready[].count": ("", "how many"),
    "have_ready[].amount": ("", "how much of what is not counted, with its unit; empty for what is counted"),
}

#: Every field of `lapwright thread THREAD --json`.
THREAD = {
    "format": _FORMAT,
    "thread": ("", "the thread, as the tables call it"),
    "series": ("", "its series, see above"),
    "form": ("", "shape of its thread: `BA`, `Whitworth`, `ISO metric` or `Unified`"),
    "form_angle_deg": ("deg", "between the flanks"),
    "major_mm": ("mm", "major diameter: over the crests of the screw"),
    "pitch_mm": ("mm", "from one thread to the next"),
    "threads_per_inch": ("per inch", "the same counted along an inch"),
    "effective_mm": ("mm", "effective diameter: half-way up the flanks"),
    "minor_mm": ("mm", "minor diameter of the hole"),
    "minor_of_screw_mm": ("mm", "over the roots of the screw"),
    "stress_area_mm2": ("mm²", "of the screw, as it counts when it is pulled"),
    "spanner_mm": ("mm", "across the flats of a BA nut; null of other series"),
    "tapping_drill_mm": ("mm", "the hole that is drilled before the tap; null where the tables list none"),
    "tapping_drill": ("", "the drill of that size by its name; null where there is none"),
    "engagement_percent": ("%", "depth of thread that this hole leaves, of the form's own full depth"),
    "engagement_american_percent": ("%", "the same on the American basis, see above; null where it is not counted so"),
    "clearance_mm.NAME": ("mm", "hole that the screw passes through: `close`, `medium`, `free`"),
    "twins[]": ("", "the same thread under other names"),
    **{f"near[].{name}": told for name, told in _MATCH.items()},
    "source": ("", "what its sizes rest on"),
    "drill_source": ("", "what the tapping drill rests on; empty where none is listed"),
    "clearance_source": ("", "what the holes to clear it rest on"),
    **_LAST,
}
#: Every field of `lapwright thread THREAD --against THREAD --json`, both ways round.
AGAINST = {
    "format": _FORMAT,
    **{f"pairs[].{name}": told for name, told in _MATCH.items()},
    "sources[]": _LAST["sources[]"],
}

#: Every field of `lapwright thread --measured SIZE --json`.
MEASURED = {
    "format": _FORMAT,
    "measured.major_mm": ("mm", "over the crests of a screw, as measured"),
    "measured.bore_mm": ("mm", "with `--hole` instead: inside the crests of a tapped hole"),
    "measured.diameter_doubt_mm": ("mm", "how far it may be out, 95 % half-width; of a caliper where none was given"),
    "measured.pitch_mm": ("mm", "its pitch; null where it was not measured"),
    "measured.pitch_doubt_mm": ("mm", "how far that may be out; null where it was not measured"),
    "candidates[].thread": ("", "a thread that it may be, the likeliest first"),
    "candidates[].twins[]": ("", "the same thread under other names"),
    "candidates[].distance_sd": ("standard deviations", "how far off it is; beyond 3 hardly the one"),
    "candidates[].diameter_off_mm": ("mm", "what was measured less what the tables say"),
    "candidates[].pitch_off_mm": ("mm", "the same of the pitch; null where it was not measured"),
    "tell_apart[]": ("", "what would tell the first two apart"),
    **_LAST,
}

#: What is told of a hole before it is tapped.
_HOLE = {
    "drill": ("", "the drill by its name; null where no drill has that size"),
    "diameter_mm": ("mm", "its size"),
    "engagement_percent": ("%", "depth of thread that it leaves, of the form's own full depth"),
    "engagement_american_percent": ("%", "the same on the American basis; null where it is not counted so"),
    "really_percent[]": ("%", "least and most that are left because a drill cuts larger than itself; own full depth"),
    "source": ("", "what the size rests on"),
}
_HOLES = {
    "advised": "the drill to take; null where the drawers hold none that would do",
    "under": "the next drill under the ideal hole; null beyond the end of the drawers",
    "over": "the next drill over it; null beyond the end of the drawers",
    "listed": "the drill that the handbooks list; null where they list none",
}

#: Every field of `lapwright drill THREAD --json`.
DRILL_THREAD = {
    "format": _FORMAT,
    "thread": ("", "the thread, as the tables call it"),
    "metal": ("", "what is tapped; null where it was not told"),
    "drawers": ("", "where drills were looked for"),
    "wanted_percent[]": ("%", "least and most depth of thread wanted; the same twice with `--engagement`"),
    "wanted_basis": ("", "what that is counted on: `own` or `american`, see above"),
    "ideal_mm": ("mm", "the hole that leaves the middle of it"),
    **{
        f"{which}.{name}": (unit, f"{what}: {meaning}" if name == "drill" else f"the same: {meaning}")
        for which, what in _HOLES.items()
        for name, (unit, meaning) in _HOLE.items()
    },
    "clearance[].fit": ("", "how freely the screw passes: `close`, `medium` or `free`"),
    "clearance[].diameter_mm": ("mm", "the hole for it"),
    "clearance[].drill": ("", "a drill of the drawers that makes it; null where there is none"),
    "clearance[].drill_mm": ("mm", "size of that drill"),
    **_LAST,
}

#: Every field of `lapwright drill DRILL --json`.
DRILL_USE = {
    "format": _FORMAT,
    "diameter_mm": ("mm", "size of the drill"),
    "drills[]": ("", "its names; empty where no drill has that size"),
    "neighbours[].drawers": ("", "`metric`, `number-letter` or `fraction`"),
    "neighbours[].under": ("", "the next smaller drill there; null where there is none"),
    "neighbours[].under_mm": ("mm", "its size"),
    "neighbours[].over": ("", "the next larger drill there; null where there is none"),
    "neighbours[].over_mm": ("mm", "its size"),
    "tapping[].thread": ("", "a thread that it is a tapping drill for, the best first, eight at most"),
    "tapping[].engagement_percent": ("%", "depth of thread that it leaves, of the form's own full depth"),
    "tapping[].engagement_american_percent": ("%", "the same on the American basis; null where it is not counted so"),
    "tapping[].listed": ("", "whether the handbooks list this drill for it"),
    "clearing[].thread": ("", "a screw that passes through the hole, eight at most"),
    "clearing[].fit": ("", "how freely: `close`, `medium` or `free`"),
    **_LAST,
}

#: Whether a packing or a ring lives with what it meets.
_JUDGED = {
    "name": ("", "one of the packings and rings above"),
    "verdict": ("", "`suits`, `with care` or `unsuitable`"),
    "reason": ("", "why"),
    "limit_degc": ("degC", "up to which it does; null where none is known"),
}

#: Every field of `lapwright gland --json`.
GLAND = {
    "format": _FORMAT,
    "answer": ("", "`packing`, or `O-ring` where one was asked for that suits and goes in"),
    "rod_mm": ("mm", "diameter of the rod"),
    "bore_mm": ("mm", "bore of the stuffing box"),
    "depth_mm": ("mm", "depth of the box; null where it was not given"),
    "section_mm": ("mm", "section of the packing: the space between rod and box"),
    "section_doubt_mm": ("mm", "how far that may be out; null where neither size was given with its doubt"),
    "packing": ("", "packing to buy, by its section"),
    "packing_fit": ("", "`fits`, `roll down` or `braid down`"),
    "strands_percent": ("%", "of its strands to keep where it is braided down"),
    "rings": ("", "how many rings"),
    "spacer_mm": ("mm", "spacer to fill a deep box; 0: none"),
    "joint": ("", "how the ends of a ring meet: `butt` or `skive`"),
    "stagger_deg": ("deg", "how far each joint is turned on from that of the ring below"),
    "cut_length_mm": ("mm", "length of one ring, on its middle line"),
    "total_length_mm": ("mm", "packing to buy, with a ring to spare"),
    "wound_length_mm": ("mm", "string, where it has to be one length"),
    "winding": ("", "how that is wound from the bottom, seen from the nut: `clockwise` or `anticlockwise`"),
    "nut": ("", "thread of the gland nut; null where it was not given"),
    "nut_hand": ("", "its hand, `right` or `left`"),
    "nut_eighth_turn_mm": ("mm", "what an eighth of a turn moves the gland; null without the thread"),
    "nut_flat_mm": ("mm", "what one flat of a hexagon moves it; null without the thread"),
    "fluid": ("", "what the packing is judged for: `steam`, `air` or `water`"),
    "oil": ("", "oil that reaches it: `mineral` or `none`"),
    "pressure_kpa": ("kPa gauge", "pressure to hold; null where it was not given"),
    "temperature_degc": ("degC", "how hot it is there; null where not known"),
    "holding_kpa": ("kPa gauge", "pressure for which the gland's load is told; 100 where none was given"),
    "seating_pressure_kpa": ("kPa", "with which the gland has to press on the packing to hold that"),
    "gland_thrust_n": ("N", "the same as a force"),
    "friction_n": ("N", "on the rod, with the gland just tight"),
    "friction_least_n": ("N", "the same with the least coefficient of friction of the packing"),
    "friction_most_n": ("N", "the same with the most"),
    "friction_twice_n": ("N", "with the gland pressed twice as hard"),
    "friction_without_decay_n": ("N", "just tight, by the plain formula that presses alike all along the box"),
    **{f"asked.{name}": (unit, f"what was asked for: {told}") for name, (unit, told) in _JUDGED.items()},
    **{
        f"material.{name}": (unit, f"what it is packed with, or would be: {told}")
        for name, (unit, told) in _JUDGED.items()
    },
    **{f"others[].{name}": (unit, f"another: {told}") for name, (unit, told) in _JUDGED.items()},
    "orings[].standard": ("", "an O-ring that could take its place: standard; the list is empty where none is near"),
    "orings[].code": ("", "its code there"),
    "orings[].inside_mm": ("mm", "its inside diameter"),
    "orings[].section_mm": ("mm", "its section"),
    "orings[].section_on_rod_mm": ("mm", "its section as the rod stretches it"),
    "orings[].tolerance_taken": ("", "whether no tolerance of its section is printed and that of AS568 is taken"),
    "orings[].stretch_percent": ("%", "how far the rod stretches it; negative: it is loose"),
    "orings[].groove_diameter_mm[]": ("mm", "least and most diameter of the groove"),
    "orings[].groove_depth_mm[]": ("mm", "least and most depth of the groove"),
    "orings[].groove_width_mm": ("mm", "width of the groove"),
    "orings[].clearance_most_mm": ("mm", "most clearance of the rod beside it"),
    "orings[].squeeze_percent": ("%", "how far its section is squeezed, in the middle of all limits"),
    "orings[].squeeze_least_percent": ("%", "the least of it"),
    "orings[].squeeze_most_percent": ("%", "the most of it"),
    "orings[].squeeze_listed_percent[]": ("%", "least and most that makers list for its section"),
    "orings[].fill_percent": ("%", "how full it makes the groove"),
    "orings[].fill_most_percent": ("%", "the most of it"),
    "orings[].way": (
        "",
        "`box as it stands`, `bush`, `lightly squeezed` (in the box as it stands), `box bored out` or `too shallow`",
    ),
    "orings[].fits": ("", "whether there is room for it in this box"),
    "orings[].how": ("", "how it is fitted, or why not"),
    "orings[].source": ("", "what its sizes rest on"),
    "packing_steps[]": ("", "how it is packed, also where the answer is an O-ring"),
    **_WORK,
    **_LAST,
}

#: What is left of a larger thread cut in an old hole.
_UP = {
    "to": ("", "the larger thread"),
    "worst_engagement_percent": ("%", "thread left in the worst place with the tap put straight in"),
    "mean_engagement_percent": ("%", "thread left on the whole with the tap put straight in"),
    "counted_engagement_percent": ("%", "which of the two may be relied on"),
    "cleans_up": ("", "whether its tapping drill takes the old thread away"),
    "tapping_drill_mm": ("mm", "tapping drill of the larger thread"),
    "tapping_drill_source": ("", "what that rests on"),
    "drilled_worst_engagement_percent": ("%", "thread left in the worst place where the hole is drilled first"),
    "drilled_mean_engagement_percent": ("%", "thread left on the whole where the hole is drilled first"),
    "beat_mm": ("mm", "length in which the two threads pass each other once; null: they have one pitch"),
    "shorter_than_beat": ("", "whether the hole is shorter than that; null where its depth was not given"),
    "same_pitch": ("", "whether the tap can fall into the old thread and follow it"),
    "wall_left_mm": ("mm", "metal left beside the new thread; null where the wall was not given"),
    "wall_allows": ("", "whether that is enough; null where the wall was not given"),
    "notes[]": _LAST["notes[]"],
}
_PLAN = {
    "choice": ("", "the way out: `straight in`, `drill and tap out`, `insert`, `bush` or `fresh hole`"),
    "title": ("", "it in a line"),
    "reasons[]": ("", "why"),
    "screw": ("", "thread of the screw that goes in afterwards"),
    "drill": ("", "drill for it"),
    "drill_mm": ("mm", "its size"),
    "tap": ("", "tap for it"),
    "torque_nm": ("N m", "what the screw is drawn to"),
    "needed_depth_mm": ("mm", "thread in the hole that this wants"),
    "lubricant": ("", "what goes on the tap"),
    **_WORK,
    **_LAST,
}

#: Every field of `lapwright rethread THREAD --json`.
RETHREAD = {
    "format": _FORMAT,
    "from": ("", "the thread in the hole"),
    "percent_basis": ("", "what every percentage is counted on: always `own`, see above"),
    **{f"choices[].{name}": told for name, told in _UP.items()},
    **{f"plan.{name}": told for name, told in _PLAN.items()},
}

#: Every field of `lapwright rethread THREAD THREAD --json`.
RETHREAD_TO = {
    "format": _FORMAT,
    "from": ("", "the thread in the hole"),
    "percent_basis": ("", "what every percentage is counted on: always `own`, see above"),
    **_UP,
    **{f"plan.{name}": told for name, told in _PLAN.items()},
}

_LIMITS = {
    "gives_way_first": ("", "what gives way first: `screw shank`, `screw thread`, `hole thread` or `hex key`"),
    "limits[].part": ("", "what can give way, the first first"),
    "limits[].how": ("", "how: it stretches, strips or twists"),
    "limits[].torque_nm": ("N m", "at which torque"),
    "limits[].breaks_nm": ("N m", "at which torque it breaks after that; null where that is not told"),
    "limits[].thrust_n": ("N", "at which pull or thrust"),
    "limits[].safe_torque_nm": ("N m", "how much of that torque may be used"),
}

#: Every field of `lapwright torque THREAD --json`.
TORQUE = {
    "format": _FORMAT,
    "thread": ("", "the screw"),
    "kind": ("", "`screw`"),
    "screw": ("", "metal of the screw"),
    "hole": ("", "metal round the hole"),
    "engagement_mm": ("mm", "thread in the hole"),
    "thread_is": ("", "how the thread is: `dry`, `oiled`, ..."),
    "worn": ("", "whether the thread in the hole is worn"),
    "coefficient": ("", "torque over diameter times thrust"),
    "torque_nm": ("N m", "to tighten to"),
    "thrust_n": ("N", "what it clamps with then"),
    "torque_if_nm.NAME": ("N m", "the same thrust with the thread otherwise: `dry`, `oiled`"),
    **_LIMITS,
    "bare_engagement_mm": ("mm", "thread that would just hold what the screw may be drawn to"),
    "needed_engagement_mm": ("mm", "thread that it wants: twice that"),
    "breaking_engagement_mm": (
        "mm",
        "thread from which on the screw breaks before the threads strip; null where no length that counts does that",
    ),
    "published_nm": ("N m", "least and most torque that tables print for it; null where none was found"),
    **_LAST,
}

#: Every field of `lapwright torque THREAD --grub --json`.
GRUB = {
    "format": _FORMAT,
    "thread": ("", "the screw"),
    "kind": ("", "`grub screw`"),
    "hole": ("", "metal of the part that it holds"),
    "engagement_mm": ("mm", "thread in that part"),
    "shaft_mm": ("mm", "diameter of the shaft"),
    "point": ("", "its point: `cup`, `cone`, `flat`, `dog` or `oval`"),
    "slotted": ("", "whether it is of plain steel with a slot, and not a socket screw"),
    "worn": ("", "whether the thread is worn"),
    "torque_nm": ("N m", "to seat it to"),
    "limited_by": ("", "what forbids more: `screw`, `hole thread`, `screw thread` or `hex key`"),
    **_LIMITS,
    "full_seating_torque_nm": ("N m", "seating torque that makers print for it"),
    "stainless_seating_torque_nm": ("N m", "what they print for a stainless one; null where they print none"),
    "test_torque_nm": ("N m", "what the standard has it stand; null where it has none"),
    "thrust_n": ("N", "what it presses on the shaft with"),
    "axial_hold_n": ("N", "what it holds along the shaft"),
    "holds_nm": ("N m", "what it holds round the shaft"),
    "estimated": ("", "whether no published load was found and the figure is an estimate of this program"),
    "to_hold_nm": ("N m", "with `--hold`, as all that follow: what it has to hold"),
    "factor": ("", "how many times that is wanted"),
    "needed_nm": ("N m", "the two multiplied"),
    "needed_force_n": ("N", "the same along the shaft's surface"),
    "enough": ("", "whether it holds that on the plain shaft"),
    "ways[].way": ("", "a way to hold more"),
    "ways[].holds_nm": ("N m", "what it holds then; null where it cannot slip"),
    "ways[].enough": ("", "whether that is enough; null where it cannot slip"),
    "larger_screw": ("", "larger screw that would be enough; null where none is needed or none would"),
    **_WORK,
    **_LAST,
}

#: Every field of `lapwright fit SIZE --json`.
FIT = {
    "format": _FORMAT,
    "size_mm": ("mm", "nominal size; with `--pin` the one that hole and pin were most likely made to"),
    "fits[].fit": ("", "a fit: hole and shaft"),
    "fits[].hole_mm[]": ("mm", "least and most of the hole"),
    "fits[].shaft_mm[]": ("mm", "least and most of the shaft"),
    "fits[].least_clearance_um": ("µm", "largest shaft in the smallest hole; negative: it is tight"),
    "fits[].most_clearance_um": ("µm", "smallest shaft in the largest hole"),
    "fits[].kind": ("", "how it goes together"),
    "fits[].purpose": ("", "what it is for"),
    "fits[].source": ("", "what the limits rest on"),
    "measured.hole_mm": ("mm", "with `--pin`, as all under it: the hole as measured"),
    "measured.pin_mm": ("mm", "the pin as measured"),
    "measured.hole_inside[]": ("", "limits that the hole is inside of: `H7`, `H8`"),
    "measured.pin_inside[]": ("", "limits that the pin is inside of: `h6`, `g6`, `f7`, `p6`"),
    "clearance.clearance_um": (
        "µm",
        "with `--clearance` or `--pin`, as all under it: the clearance that was given; negative: it is tight",
    ),
    "clearance.verdict": (
        "",
        "as that of a plain bearing: `press fit`, `too tight`, `fine`, `at the limit` or `worn`",
    ),
    "clearance.sentence": ("", "the verdict in words, with what it rests on"),
    "clearance.wanted_um": ("µm", "what a bearing of that size wants"),
    "clearance.least_um": ("µm", "under which it is too tight"),
    "clearance.most_um": ("µm", "over which it is worn"),
    "clearance.given_by[]": ("", "fits that can give that clearance, the likeliest first"),
    "clearance.rules[].rule": ("", "a rule for the clearance of a bearing, in words"),
    "clearance.rules[].clearance_um": ("µm", "what it gives here"),
    "clearance.rules[].is_used": ("", "whether it is the one used"),
    "clearance.rules[].source": ("", "where it is from"),
    **_LAST,
}

#: The look-ups as they are asked, each with all the fields of its answer.
LOOK_UPS = {
    "thread THREAD": THREAD,
    "thread THREAD --against THREAD": AGAINST,
    "thread --measured SIZE": MEASURED,
    "drill THREAD": DRILL_THREAD,
    "drill DRILL": DRILL_USE,
    "gland": GLAND,
    "rethread FROM": RETHREAD,
    "rethread FROM TO": RETHREAD_TO,
    "torque THREAD": TORQUE,
    "torque THREAD --grub": GRUB,
    "fit SIZE": FIT,
}

#: How to read the answers: heading and paragraphs. A word in pointed brackets stands for a list of the program's own.
READING = {
    "How the name of a thread is understood": (
        "Write it as it stands on the drawing: `7BA`, `no 7 BA`, `1/4 Whit`, `1/4 BSF`, `1/4 x 40`, `M3`, `M3x0.5`, "
        "`#5-40`, `5-40 UNC`, `G1/8`, `1/8 BSP`. Capitals, spaces, dots and a class of fit such as `6H` do not matter.",
        "A size and a number of threads to the inch can fit threads of two forms: 1/4 inch with 20 to the inch is BSW "
        "and UNC. Then the mark between them decides. With an x (`1/4 x 20`) the British series come first: brass, "
        "model engineer's, BSW, BSF. With a dash (`1/4-20`) the Unified come first. A note in the answer names the "
        "other. With the series in words (`1/4 UNC`) there is nothing to decide.",
        "A metric size without a pitch is the coarse one. A size alone, such as `1/4`, fits several threads and is "
        "asked back, and so is a thread that there is not: the sentence names the nearest. Taper pipe threads are not "
        "in the tables.",
        "<series>",
    ),
    "The two bases of a percentage": (
        "How much thread a hole has left is told as a share of the full depth. Two depths are customary. The first is "
        "the form's own: for BA and Whitworth threads the depth of their standard, for metric and Unified "
        "ones that of the standard's nut, 1.083 x pitch on the diameter. The second, the American basis, counts "
        "threads of 60 degrees on 1.299 x pitch. So one drill has 6/5 of its American percentage on the first basis: "
        "75 % there is 90 % here.",
        "Percentages of BA and Whitworth threads are told on their own depth only. Of metric and Unified threads both "
        "are told, and what is wanted is counted on the American one, as tapping charts do. `--engagement` always "
        "means the form's own depth.",
    ),
    "What the words about sources mean": (
        "Every answer ends with what its figures rest on. **From memory** means that nobody working on this program "
        "read the figure in a source: it was recalled, and wants checking where much hangs on it. **Common practice, "
        "no source** is a rule of the trade that is handed down without anything to cite. **Derived here** was worked "
        "out from the figures named beside it. **Our estimate** is just that. Where lists disagree, the answer "
        "says what the other has and which is followed.",
    ),
    "Metals": (
        "<metals>",
        "Strength is that of the condition in the table, the lowest where sources differ. `drill`, `torque` and "
        "`rethread` take the other names as well.",
        "What is tapped, after `drill --in`: <tapped>. What a screw is of: <screws>. How its thread is: <conditions>.",
    ),
    "Drawers": ("`--drawers` says which drills there are to choose from: <drawers>. What is in them: <drills>.",),
    "Packings and rings": (
        "`gland --material` understands <count> names: <packings>. Plain words such as hemp, PTFE, nitrile or FPM lead "
        "to one of them. Old string is what is found in an old box and never put into one: take it for asbestos "
        "until it has been tested.",
        "What is asked for is judged in any case. A soft packing that suits is used, and otherwise graphite yarn.",
    ),
    "Paint": (
        "Painting is no look-up of its own: `[finish]` in the record asks for it, and the answer stands under `finish` "
        "in the [results](results.md) of `examine`. How much of each paint it takes is only told where `surface` is "
        "given; without it the paints are listed without an amount.",
    ),
}
