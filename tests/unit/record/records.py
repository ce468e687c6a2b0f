"""Sound records for the tests: a double-acting twin in mixed units, the same after bench tests, a half-known single."""

TWIN = """\
format = 1

[engine]
name = "Tern"                     # required
notes = ""
rotation = "clockwise"            # seen from the flywheel end
fluid = "air"
supply_pressure = "2 bar"         # gauge
exhaust_pressure = "1 bar abs"
purpose = "steady"

[[cylinder]]
name = "A"
crank_phase = "0 deg"
bore = "3/4 in"
stroke = '3/4"'
connecting_rod = "45 mm"          # centre to centre
piston_rod = "3.2 mm"
cylinder_offset = "0 mm"
clearance_head = "0.8 mm"
clearance_crank = "8 ± 1 %"

[cylinder.port_face]
steam_port = "2.0 ± 0.05 mm"      # along the valve line
bridge = "2.0 +0.02 -0.01 mm"
exhaust_port = "4.0 mm"
port_length = "8 mm"
chest_head = "11 mm"
chest_crank = "11 mm"

[cylinder.valve]
kind = "slide"
admission = "outside"
length = "14.0 mm"                # over the outer edges ...
cavity = "8.0 mm"
width = "11 mm"

[cylinder.valve_drive]
throw = "3.0 mm"
eccentric_rod = "60 mm"
eccentric_angle = "90 ± 1 deg"
valve_line_offset = "0 mm"
valve_offset = "-0.1 mm"
spindle_thread = "7BA"
spindle_step = "1/2 turn"

[[cylinder]]
crank_phase = "90 deg"
bore = "3/4 in"
stroke = "3/4 in"

[cylinder.port_face]
edges = [
  "2.0 mm",  # a comment in a list
  "4.0 mm", "6.0 mm", "10.0 mm", "12.0 mm",
  "14.0 mm",
]

[cylinder.valve]
edges = ["0 mm", "3.1 mm", "10.9 mm", "14.0 mm"]

[target]
cut_off = "75 %"
lead = "0.1 mm"
equal = "leads"

[running]
discharge_coefficient = 0.65      # a plain number
friction_pressure = "0.3 ± 0.1 bar"
ring_gap = "4 ± 2 µm"
valve_face_gap = "2 um"
gland_gap = "0.2 thou"
wall_heat = "usual"
supply_temperature = "18 °C"
steam_dryness = "98 %"
load = "30 mN m"
flywheel_inertia = "3.0 kg cm²"
supply_bore = "4 mm"
exhaust_bore = "3/16 in"
passage_bore = "3.5 mm"
valve_friction = "0.08 ± 0.03"
"""

HALF_KNOWN = """\
format = 1
engine = { name = "Dunlin", fluid = "steam" }
[[cylinder]]
bore = "25 mm"
valve.length = "1/2 in"  # dotted
valve_drive = { throw = "1/8 in" }
"""

BENCH = """\

[[bench_test]]
supply_pressure = "0.8 ± 0.05 bar"
speed = "420 ± 10 rpm"            # read at the flywheel
load = "3 mN m"
air_flow = "14 ± 1 L/min"
dead = "B"
note = "oil cups full"

[[bench_test]]
run_down_from = "400 rpm"
run_down_time = "8.5 ± 0.5 s"
decay_from = "30 psi"
decay_to = "2 bar abs"
decay_time = "40 s"
decay_volume = "1.5 in3"

[[bench_test]]
fluid = "steam"
supply_pressure = "2 bar"
exhaust_pressure = "0.1 bar"
speed = "10 rev/s"
load = "5 ± 0.2 W"
"""
TESTED = TWIN + BENCH

#: The twin with parts that somebody else has worked on.
PARTED = (
    TWIN[: TWIN.index("[[cylinder]]\ncrank_phase")]
    + """\
[[cylinder.gland]]
box_bore = "6.4 mm"
box_depth = "8 mm"
nut_thread = "3/8 x 32"
packed_with = "nothing"

[[cylinder.gland]]
on = "valve spindle"
rod = "3/32 in"
box_bore = "3/16 in"
packed_with = "ptfe yarn"
packing_section = "1.2 mm"
rings = 3
oil = "mineral"

"""
    + TWIN[TWIN.index("[[cylinder]]\ncrank_phase") :]
    + """
[[fastener]]
name = "eccentric screw"
holds = "eccentric"
kind = "grub screw"
thread = "7BA"
screw = "8BA"
hole_material = "brass"
engagement = "3 mm"
state = "stripped"
shaft = "5 mm"

[[fastener]]
cylinder = "B"
holds = "cover"
kind = "stud"
thread = "7BA"
count = "6"
torque = "0.4 N m"
gasket = "oiled paper"
joint_outside = "30 mm"

[[pin]]
joint = "valve fork"
kind = "bolt"
thread = "7BA"
plain_length = "0 mm"
moving_part = "4 mm"

[finish]
metal = "cast iron"
surface = "600 cm2"
old_paint = "yes"
bright = "flanges, cover edge"
"""
)
