#!/usr/bin/env python3
"""Invents the log that a recorder wrote of the season's first circuits at cruising speed, 10 July.

    python3 demo-data/logs/circuits.py > demo-data/logs/circuits.csv

Nothing in it was measured. It is what the aircraft on paper of season.toml would do: one lump of heat for each part, a
pack of voltage at rest less resistance times current, a governor that holds the speed but for the pulls. The motor's air
stands still once the nose is down: it warms more than twice as much by the ampere as in the hover. The recorder is of the
plain kind: commas, decimal points, eight rows a second, two seconds lost in flight, and a last line torn where the plug
was pulled. The same numbers come out every time; tests/outside/test_season.py holds the season's entries against them.
"""

import math
import random
import sys

STEP_S = 0.125
ON_S, LIFT_S, AWAY_S, BACK_S, DOWN_S, OFF_S, END_S = 17.0, 34.0, 62.0, 276.0, 313.0, 316.0, 341.0
LOST_S = (187.0, 189.0)
SPOOL_S = 13.0

AIR_C = 28.0
HEAD_RPM = 990.0
GEAR = 10.5  # turns of the motor for one of the rotor, in two stages
KV_RPM_V = 310.0
DRIVE_OHM = 0.019
CELLS = 12
CELL_FULL_V, CELL_FALL_V_AH = 4.10, 0.082  # at rest, and what an ampere hour takes off it
PACK_OHM = 0.020 + 0.0011  # the pack, and its leads up to the recorder
HOVER_A, CRUISE_A, LAP_S, TURN_S = 31.0, 26.5, 35.0, 4.0


class Lump:
    """A part that warms towards what its current holds, and cools towards the air."""

    def __init__(self, celsius, tau_s):
        self.celsius, self.tau_s = celsius, tau_s

    def pass_time(self, kelvin_per_a, current_a):
        self.celsius += (AIR_C + kelvin_per_a * current_a - self.celsius) * STEP_S / self.tau_s


def away(time_s):
    """How much of the flight is forward flight, from 0 in the hover to 1 at cruising speed."""
    return max(0.0, min(1.0, (time_s - AWAY_S) / 8.0, (BACK_S - time_s) / 8.0))


def turning(time_s):
    """Two turns a lap, each a pull on the rotor."""
    into = (time_s - AWAY_S) % (LAP_S / 2)
    return math.exp(-(((into - LAP_S / 4) / TURN_S) ** 2))


def current_a(time_s, gust):
    """What the pack gives: soft start, flat pitch, the hover, circuits with their turns, the hover, down."""
    if not ON_S <= time_s < OFF_S:
        return 0.4
    if time_s < ON_S + SPOOL_S:
        return 2.0 + 7.0 * ((time_s - ON_S) / SPOOL_S) ** 2
    if time_s < LIFT_S or time_s >= DOWN_S:
        return 9.0
    rise = min(1.0, (time_s - LIFT_S) / 2.0, (DOWN_S - time_s) / 2.0)
    forward = away(time_s)
    flown = (1.0 - forward) * HOVER_A + forward * (CRUISE_A + 14.0 * turning(time_s))
    return 9.0 + rise * (flown - 9.0 + 1.1 * gust)


def head_rpm(time_s, current):
    """The governor holds it; a turn takes a little of it; then the rotor runs down."""
    if time_s < ON_S:
        return 0.0
    if time_s < ON_S + SPOOL_S:
        return HEAD_RPM * math.sin(math.pi / 2 * (time_s - ON_S) / SPOOL_S)
    if time_s < OFF_S:
        return HEAD_RPM - 0.9 * max(0.0, current - 30.0)
    return max(0.0, HEAD_RPM * math.exp(-(time_s - OFF_S) / 7.5) - 25.0)


def rows():
    chance = random.Random(1007)
    controller, motor = Lump(AIR_C + 1.0, 190.0), Lump(AIR_C + 0.5, 300.0)
    taken_ah, gust = 0.0, 0.0
    for step in range(round(END_S / STEP_S) + 1):
        time_s = step * STEP_S
        gust += -gust * STEP_S / 1.8 + math.sqrt(2 * STEP_S / 1.8) * chance.gauss(0.0, 1.0)
        current = max(0.0, current_a(time_s, gust) + chance.gauss(0.0, 0.15))
        taken_ah += current * STEP_S / 3600.0
        volts = CELLS * (CELL_FULL_V - CELL_FALL_V_AH * taken_ah) - PACK_OHM * current
        rotor = max(0.0, head_rpm(time_s, current) + (chance.gauss(0.0, 1.5) if ON_S < time_s < OFF_S else 0.0))
        under_power = ON_S <= time_s < OFF_S
        out = 100.0 * (rotor * GEAR / KV_RPM_V + DRIVE_OHM * current) / volts if under_power else 0.0
        controller.pass_time(1.3, current)
        motor.pass_time(1.7 + 2.95 * away(time_s), current)
        radio = 7.38 - (0.12 * chance.random() if LIFT_S < time_s < DOWN_S else 0.0) + chance.gauss(0.0, 0.01)
        if LOST_S[0] <= time_s < LOST_S[1]:
            continue
        yield [f"{1000 * time_s:.0f}", f"{volts:.2f}", f"{current:.1f}", f"{rotor * GEAR:.0f}", f"{controller.celsius:.1f}",
               f"{motor.celsius:.1f}", f"{radio:.2f}", f"{out:.0f}", "1" if LIFT_S < time_s < DOWN_S else "0"]


def main():
    head = "Time [ms],String [V],Current [A],Motor speed [rpm],Sensor 1 [°C],Sensor 2 [°C],Radio [V],Gas [%],Sw 3"
    lines = [head, *(",".join(row) for row in rows())]
    # The plug was pulled while the last line was written.
    lines[-1] = lines[-1][:17]
    sys.stdout.write("\n".join(lines))


if __name__ == "__main__":
    main()
