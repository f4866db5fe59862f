#!/usr/bin/env python3
"""Makes taps.wav beside this script: five taps on the spruce plate that README.md adds as piece 1, as a microphone might hear them.

Everything is invented. The plate: 520 x 200 x 2.01 mm, 88.6 g at 8.3 % moisture; at 12 %, as a tap finds it, E_L 13.6 GPa, E_R 0.90 GPa,
G_LR 0.88 GPa, all else of Sitka spruce by the table. Frequencies are those of the tool's own free plate in air (TapPlate, 2026-11-27), put off
by up to 0.6 % as wood that is not even everywhere would; losses are 0.0075 along, 0.019 across and 0.016 in twist by the modes' shares of
energy, put off by up to 8 %. 3 x 2, 4 x 0 and 1 x 3, within a hertz of each other at 231 Hz, are left out: no recording parts them. Levels,
hum and noise are made up. So a fit that gets the plate back shows that the path from recording to properties closes, not that its theory is
right. Run: python3 shared/demo/taps.py
"""
import math
import os
import random
import struct

RATE, SECONDS, CONTACT = 8000, 10.4, 0.0025
TAPS = [0.55, 2.53, 4.54, 6.51, 8.50]
# Frequency Hz, quality factor, level; nodal lines along x across.
PARTIALS = [
    (29.8, 62, 0.25),  # 1 x 1: below the 40 Hz at which `listen` begins
    (42.1, 128, 0.6),  # 2 x 0
    (74.2, 80, 0.6),  # 2 x 1
    (77.3, 51, 1.0),  # 0 x 2
    (97.4, 55, 0.7),  # 1 x 2
    (117.9, 125, 0.6),  # 3 x 0
    (148.2, 93, 0.45),  # 3 x 1
    (150.3, 64, 0.5),  # 2 x 2
    (213.1, 54, 0.5),  # 0 x 3
    (260.3, 103, 0.3),  # 4 x 1
    (284.6, 60, 0.3),  # 2 x 3
    (342.9, 79, 0.25),  # 4 x 2
    (367.5, 62, 0.2),  # 3 x 3
]

chance = random.Random(20)
sound = [chance.gauss(0, 0.0006) + 0.0008 * math.sin(2 * math.pi * 50.01 * i / RATE) + 0.0004 * math.sin(2 * math.pi * 150.03 * i / RATE + 1)
         for i in range(int(RATE * SECONDS))]
for tap in TAPS:
    first, width = round(tap * RATE), int(CONTACT * RATE)
    push = [math.sin(math.pi * (n + 0.5) / width) for n in range(width)]
    push = [p / sum(push) for p in push]
    loud = 0.11 * chance.uniform(0.7, 1.3)
    for frequency, quality, level in PARTIALS:
        decay, omega = math.pi * frequency / quality / RATE, 2 * math.pi * frequency / RATE
        turn = complex(math.exp(-decay) * math.cos(omega), math.exp(-decay) * math.sin(omega))
        strength = loud * level * chance.choice([-1, 1]) * chance.uniform(0.5, 1.2)
        state = 0j
        for n in range(min(len(sound) - first, int(8 / decay))):
            state = state * turn + (strength * push[n] if n < width else 0)
            sound[first + n] += state.imag

samples = b"".join(struct.pack("<h", max(-32768, min(32767, round(32767 * x)))) for x in sound)
header = b"RIFF" + struct.pack("<I", 36 + len(samples)) + b"WAVEfmt " + struct.pack("<IHHIIHH", 16, 1, 1, RATE, 2 * RATE, 2, 16) + b"data" + struct.pack("<I", len(samples))
with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "taps.wav"), "wb") as file:
    file.write(header + samples)
