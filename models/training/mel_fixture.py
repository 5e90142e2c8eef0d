"""Writes what features.py makes of a made sound, for the test that holds src/ear/network/mel.ts against it. Usage: mel_fixture.py OUT.json"""
import json
import sys

import numpy as np

from features import log_mel

n = np.arange(1600)
sound = 0.3 * np.sin(2 * np.pi * (200 + 1.5 * n) * n / 16000) + 0.05 * np.sin(2 * np.pi * 6100 * n / 16000) * (n > 800)
samples = sound.astype(np.float32)
mels = log_mel(np.round(samples.astype(np.float64) * 32768) / 32768)
json.dump([[round(float(x), 4) for x in row] for row in mels], open(sys.argv[1], 'w'))
