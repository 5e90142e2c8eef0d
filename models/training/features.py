"""The front end: log mel energies, the same sums as src/ear/network/mel.ts. Samples are -1 to 1 at 16 kHz.

Frames of 400 samples (Hann, in the middle of 512) each 160. 32 bands from 60 to 3800 Hz and 12 from 3800 to 7800 Hz, both on
Slaney's mel scale with his weights; log10(energy + 1) + 2 of samples scaled to 16 bits. The 32 lower bands are those that Google's
speech embedding was trained on.
"""
import numpy as np

RATE, HOP, WINDOW, SIZE = 16000, 160, 400, 512
LOW_BANDS, HIGH_BANDS = 32, 12
BANDS = LOW_BANDS + HIGH_BANDS


def to_mel(hz):
    return hz * 3 / 200 if hz < 1000 else 15 + np.log(hz / 1000) / (np.log(6.4) / 27)


def to_hz(mel):
    return mel * 200 / 3 if mel < 15 else 1000 * np.exp((mel - 15) * (np.log(6.4) / 27))


def bands(low, high, count, warp=1.0):
    """257 x count weights. `warp` above 1 moves every band up, as for a shorter vocal tract."""
    steps = np.linspace(to_mel(low), to_mel(high), count + 2)
    edges = np.array([min(to_hz(mel) * warp, 7990.0 - 0.01 * (count + 2 - at)) for at, mel in enumerate(steps)])
    hz = np.arange(SIZE // 2 + 1) * RATE / SIZE
    out = np.zeros((SIZE // 2 + 1, count))
    for k in range(count):
        up = (hz - edges[k]) / (edges[k + 1] - edges[k])
        down = (edges[k + 2] - hz) / (edges[k + 2] - edges[k + 1])
        out[:, k] = np.maximum(0, np.minimum(up, down)) * 2 / (edges[k + 2] - edges[k])
    return out


def filterbank(warp=1.0):
    return np.concatenate([bands(60, 3800, LOW_BANDS, warp), bands(3800, 7800, HIGH_BANDS, warp)], 1).astype(np.float32)


def window():
    out = np.zeros(SIZE, np.float32)
    out[(SIZE - WINDOW) // 2:(SIZE + WINDOW) // 2] = 0.5 - 0.5 * np.cos(2 * np.pi * np.arange(WINDOW) / WINDOW)
    return out


def log_mel(samples):
    """frames x BANDS of one utterance, for checks; training does the same on the device."""
    frames = 1 + (len(samples) - SIZE) // HOP
    cut = np.lib.stride_tricks.sliding_window_view(np.asarray(samples, np.float64) * 32768, SIZE)[::HOP][:frames]
    power = np.abs(np.fft.rfft(cut * window(), axis=1)) ** 2
    return (np.log10(power @ filterbank() + 1) + 2).astype(np.float32)
