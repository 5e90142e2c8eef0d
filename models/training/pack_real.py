"""Packs the real words of train.jsonl (never dev.jsonl) into one small file of 8-bit mu-law samples for the training machine.

Usage: pack_real.py AUDIO_FOLDER OUT.npz
A clip's folder is the word said in it; clips of noise have no word. Speech Commands, P. Warden, CC BY 4.0.
"""
import json
import sys
import wave
from pathlib import Path

import numpy as np

from lexicon import load


def mu_law(samples):
    x = samples / 32768
    return np.round((np.sign(x) * np.log1p(255 * np.abs(x)) / np.log(256) + 1) * 127.5).astype(np.uint8)


def spoken_part(samples):
    """From 130 ms before the sound rises to 130 ms after it falls; the whole clip where it never stands out."""
    power = np.convolve(samples ** 2, np.ones(480) / 480, 'same')
    floor, peak = np.percentile(power, 10), power.max()
    loud = np.nonzero(power > max(peak * 0.003, floor * 3))[0]
    if len(loud) < 1600 or peak < floor * 8:
        return samples
    return samples[max(0, loud[0] - 2080): loud[-1] + 2080]


def main():
    folder, out = Path(sys.argv[1]), sys.argv[2]
    words = load()
    pieces, index, at = [], [], 0
    for line in (folder / 'train.jsonl').read_text().splitlines():
        clip = json.loads(line)
        word = '' if clip['group'] == 'noise' else clip['wav'].split('/')[-2]
        if word and word not in words:
            print('no pronunciation, left out:', word)
            continue
        with wave.open(str(folder / clip['wav'])) as sound:
            assert sound.getframerate() == 16000 and sound.getnchannels() == 1
            samples = np.frombuffer(sound.readframes(sound.getnframes()), np.int16).astype(np.float64)
        if word:
            samples = spoken_part(samples)
        pieces.append(mu_law(samples))
        index.append({'at': at, 'length': len(samples), 'text': word, 'speaker': Path(clip['wav']).name.split('_')[0]})
        at += len(samples)
    np.savez_compressed(out, samples=np.concatenate(pieces), index=json.dumps(index))
    print(len(index), 'clips,', at / 16000, 'seconds')


if __name__ == '__main__':
    main()
