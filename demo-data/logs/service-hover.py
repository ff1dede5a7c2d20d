#!/usr/bin/env python3
"""Invents the log that a recorder wrote of the season's first hover at service speed, 19 June.

    python3 demo-data/logs/service-hover.py > demo-data/logs/service-hover.csv

Nothing in it was measured. It is what the aircraft on paper of season.toml would do: one lump of heat for each part, a
pack of voltage at rest less resistance times current, a governor that holds the speed but for the pulls, air that moves.
The recorder is of the plain kind: semicolons, decimal commas, ten rows a second, a second and a half lost in flight, and a
last line torn where the plug was pulled. The same numbers come out every time.
"""

import math
import random
import sys

STEP_S = 0.1
ON_S, UP_S, DOWN_S, OFF_S, END_S = 21.0, 36.0, 257.0, 261.0, 284.0
LOST_S = (148.3, 149.8)
PULLS_S = (84.0, 131.0, 176.0, 221.0)  # quick pitch, as the card asks for after a minute of steady hover

AIR_C = 24.0
HEAD_RPM = 1060.0
GEAR = 10.5  # turns of the motor for one of the rotor
KV_RPM_V = 330.0
DRIVE_OHM = 0.022
CELLS = 12
CELL_FULL_V, CELL_FALL_V_AH = 4.09, 0.105  # at rest, and what an ampere hour takes off it
PACK_OHM = 0.0245 + 0.0012  # the pack, and its leads up to the recorder


class Lump:
    """A part that warms towards what its losses hold, and cools towards the air."""

    def __init__(self, celsius, kelvin_per_a2, tau_s):
        self.celsius, self.kelvin_per_a2, self.tau_s = celsius, kelvin_per_a2, tau_s

    def pass_time(self, current_a, around_c):
        steady_c = around_c + self.kelvin_per_a2 * current_a**2
        self.celsius += (steady_c - self.celsius) * STEP_S / self.tau_s


def current_a(time_s, gust):
    """What the pack gives: soft start, a moment at flat pitch, the hover with its pulls, down."""
    if not ON_S <= time_s < OFF_S:
        return 0.35
    if time_s < ON_S + 14.0:
        return 1.5 + 6.5 * ((time_s - ON_S) / 14.0) ** 2
    if time_s < UP_S or time_s >= DOWN_S:
        return 8.0
    rise = min(1.0, (time_s - UP_S) / 2.0, (DOWN_S - time_s) / 2.0)
    pull = max(math.exp(-(((time_s - at_s) / 0.35) ** 2)) for at_s in PULLS_S)
    return 8.0 + rise * (15.85 + 0.75 * gust + 14.6 * pull)


def head_rpm(time_s, current):
    """The governor holds it; a pull takes a little before it answers; then the rotor runs down."""
    if time_s < ON_S:
        return 0.0
    if time_s < ON_S + 14.0:
        return HEAD_RPM * math.sin(math.pi / 2 * (time_s - ON_S) / 14.0)
    if time_s < OFF_S:
        return HEAD_RPM - 1.6 * max(0.0, current - 25.0)
    return max(0.0, HEAD_RPM * math.exp(-(time_s - OFF_S) / 6.5) - 25.0)


def rows():
    chance = random.Random(1906)
    controller, motor = Lump(26.5, 0.172, 190.0), Lump(25.0, 0.137, 300.0)
    taken_ah, gust = 0.0, 0.0
    for step in range(round(END_S / STEP_S) + 1):
        time_s = step * STEP_S
        gust += -gust * STEP_S / 1.8 + math.sqrt(2 * STEP_S / 1.8) * chance.gauss(0.0, 1.0)
        current = current_a(time_s, gust) + chance.gauss(0.0, 0.12)
        taken_ah += current * STEP_S / 3600.0
        volts = CELLS * (CELL_FULL_V - CELL_FALL_V_AH * taken_ah) - PACK_OHM * current
        rotor = max(0.0, head_rpm(time_s, current) + (chance.gauss(0.0, 1.6) if ON_S < time_s < OFF_S else 0.0))
        turning = ON_S <= time_s < OFF_S
        out = 100.0 * (rotor * GEAR / KV_RPM_V + DRIVE_OHM * current) / volts if turning else 0.0
        controller.pass_time(current, AIR_C + 1.0)
        motor.pass_time(current, AIR_C + 1.0)
        stirred = 0.18 if UP_S < time_s < DOWN_S and chance.random() < 0.08 else 0.0
        radio = 7.92 - 0.0004 * time_s - stirred * chance.random() + chance.gauss(0.0, 0.008)
        if LOST_S[0] <= time_s < LOST_S[1]:
            continue
        yield (f"{time_s:.1f}", f"{radio:.2f}", f"{volts:.2f}", f"{current:.1f}", f"{rotor * GEAR:.0f}",
               f"{2 * controller.celsius:.0f}", f"{2 * motor.celsius:.0f}", f"{out:.0f}", "0" if time_s < UP_S else "1")


def main():
    print("Time [s];Radio volts [V];Pack volts [V];Pack current [A];Drive speed [rpm];Temp controller [°C];Temp motor [°C];Out [%];Ch 7")
    lines = []
    for time_s, radio, volts, current, rpm, controller, motor, out, switch in rows():
        halves = [f"{int(twice) / 2:.1f}" for twice in (controller, motor)]
        lines.append(";".join([time_s, radio, volts, current, rpm, *halves, out, switch]).replace(".", ","))
    # The plug was pulled while the last line was written.
    lines[-1] = lines[-1][:15]
    sys.stdout.write("\n".join(lines))


if __name__ == "__main__":
    main()
