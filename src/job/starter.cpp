#include "job/read.hpp"

namespace stringwright::job {

std::string starter() {
  return R"toml(# A small array: two strings of three modules on a rack, brought together in one combiner box, and a
# run of conduit to a charge controller for a 48 V battery. Change it to yours, then check it again.
#
# Every quantity is a text with its unit: "36 m", "120 ft", "-25 °C". What you do not know, leave out:
# the check then says what it could not tell. What you want chosen for you, write as "choose".
format = 1

[job]
name    = "My array"
edition = "nec_2023"          # the code edition in force where the array stands
units   = "metric"            # metric or us: what the papers show first
date    = "2031-05-02"        # printed on the papers; nothing reads a clock

[site]
t_min       = "-25 °C"        # lowest temperature to expect, the mean of the yearly lows
t_hot       = "35 °C"         # hot design temperature of the air
rise        = "30 K"          # cells above air in full sun: about 30 K on an open rack
place       = "ground"        # ground, roof or pole
dwelling    = true            # for a one- or two-family home
on_building = false

[grounding]
scheme     = "functional"     # functional, solid or ungrounded: ask the controller's manual
pole       = "minus"          # the grounded pole
bond       = "CC1"            # the one place where it is bonded to ground
devices_in = "plus"           # poles that have a breaker or fuse

# The module: copy its label and data sheet.
[module.M400]
p_max      = "400 W"
v_oc       = "45.0 V"
v_mp       = "37.5 V"
i_sc       = "11.30 A"
i_mp       = "10.67 A"
b_voc      = "-0.28 %/K"      # change of V_oc with temperature: mind the minus and the unit
g_pmp      = "-0.35 %/K"
a_isc      = "0.05 %/K"
fuse_max   = "20 A"           # "maximum series fuse" on the label
v_sys      = "1000 V"         # "maximum system voltage" on the label
cells      = 66               # in series; two parallel halves of half-cut cells count once
bypass     = 3
noct       = "45 °C"
size       = ["1.80 m", "1.10 m"]
lead_plus  = "1.2 m"
lead_minus = "1.2 m"
family     = "K1"             # your own name for the connectors; unlike families never mate

# Things you buy. Torques and wire ranges stand on their markings; left out, papers say "by marking".
[part.box-4]
kind        = "box"
title       = "four-slot combiner box"
outline     = ["250 mm", "200 mm"]
slots       = 4               # places for breakers
minus_holes = 6
earth_holes = 4
bus_rating  = "100 A"
v_dc        = "300 V"
minus       = { wire_min = "14 AWG", wire_max = "6 AWG", wires = 1, rated = "75 °C", torque = "2.5 N·m" }
minus_out   = { wire_min = "8 AWG", wire_max = "1/0 AWG", wires = 1, rated = "75 °C", torque = "5 N·m" }
bus_out     = { wire_min = "8 AWG", wire_max = "1/0 AWG", wires = 1, rated = "75 °C", torque = "5 N·m" }
earth       = { wire_min = "14 AWG", wire_max = "6 AWG", wires = 1, rated = "75 °C", torque = "2.5 N·m" }

[part.breaker-20A]
kind       = "breaker"
rating     = "20 A"
v_dc_pole  = "250 V"          # d.c. volts that one pole can break
poles      = 1
polarised  = false            # true: has + and - marks and breaks one way only
load_break = true
interrupt  = "10 kA"
line       = { wire_min = "14 AWG", wire_max = "6 AWG", wires = 1, rated = "75 °C", torque = "2.8 N·m" }
load       = { rated = "75 °C", torque = "2.8 N·m" }

[part.breaker-40A]
kind       = "breaker"
rating     = "40 A"
v_dc_pole  = "250 V"
poles      = 1
polarised  = false
load_break = true
interrupt  = "10 kA"
line       = { wire_min = "14 AWG", wire_max = "2 AWG", wires = 1, rated = "75 °C" }
load       = { wire_min = "14 AWG", wire_max = "2 AWG", wires = 1, rated = "75 °C" }

[surface.rack]
tilt    = "40 °"
azimuth = "180 °"             # the way it faces, clockwise from north: south is 180 °

# Rows of modules on the rack, their places counted from the left. Positions are those of the first
# module's lower left corner: to the right, then up the slope.
[row.R1]
on     = "rack"
module = "M400"
count  = 3
at     = ["0 m", "0 m"]
set    = "portrait"
pitch  = "1.12 m"

[row.R2]
on     = "rack"
module = "M400"
count  = 3
at     = ["0 m", "2 m"]
set    = "portrait"
pitch  = "1.12 m"

# Strings: the modules from the minus end to the plus end, and the slot of the box. The two lengths
# are the way from the string's end plug to the box.
[string.S1]
walk      = "R1.3-R1.1"
lands     = "A1.1"
plus_end  = "1.5 m"
minus_end = "5 m"

[string.S2]
walk      = "R2.1-R2.3"
lands     = "A1.2"
plus_end  = "6 m"
minus_end = "2.5 m"

[box.A1]
part     = "box-4"
at       = { on = "rack", x = "-0.5 m", y = "1 m" }
slot     = { device = "breaker-20A", poles = 1 }
home_run = { wire = "10 AWG Cu PV", tail = "0.8 m", segment = [{ in = "free-air" }] }
out      = "OUT"

# The run from the box to the controller, in stretches of one kind: conduit, size, length, where it lies.
[run.OUT]
from = "A1"
to   = "CC1.PV1"
wire = { poles = "6 AWG Cu XHHW-2", egc = "choose" }
segment = [
  { in = "PVC40", size = "1 in", length = "30 m", buried = "0.6 m", bends = ["90 °", "90 °"] },
  { in = "PVC40", size = "1 in", length = "2 m", ambient = "35 °C" },
]

[equipment.CC1]
kind           = "mppt-controller"
blocks_reverse = true         # only if its manual says that no current flows from battery to array
battery        = { v_max = "58 V", fault_current = "5 kA" }

[equipment.CC1.input.PV1]
v_max     = "250 V"
v_start   = "5 V"
isc_max   = "50 A"
terminals = "75 °C"
device    = "breaker-40A"     # the breaker or disconnect at the controller
poles     = 1
)toml";
}

}  // namespace stringwright::job
