#!/usr/bin/env python3
"""Makes taps.wav beside this script: five taps on an invented spruce plate, as a microphone might hear them.

Everything is invented: frequencies, quality factors, levels, hum and noise. Run: python3 shared/demo/taps.py
"""
import math
import os
import random
import struct

RATE, SECONDS, CONTACT = 16000, 7.5, 0.0015
TAPS = [0.55, 1.93, 3.34, 4.71, 6.10]
# Frequency Hz, quality factor, level.
PARTIALS = [(71.4, 62, 0.55), (102.8, 48, 1.0), (148.3, 71, 0.6), (187.6, 55, 0.8), (190.1, 58, 0.5), (263.9, 66, 0.7),
            (331.2, 52, 0.45), (408.7, 74, 0.4), (497.5, 60, 0.3), (622.0, 57, 0.25), (791.4, 63, 0.2)]

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
