"""Speaks sentences with free synthesisers in many voices, speeds and pitches, into shards of 16 kHz samples.

Usage: synthesise.py SENTENCES OUT_FOLDER [--jobs N] [--seed N]
Needs flite, festival (with festvox-kallpc16k and festvox-kdlpc16k), espeak-ng, RHVoice-test (with rhvoice-english) and pico2wave on the
path. The voices slt and rms are held out for measuring and are never used here, in whatever synthesiser they come; of RHVoice's voices those
whose licence forbids what is made from them are left alone, too.
"""
import argparse
import json
import os
import random
import subprocess
import sys
import tempfile
import wave
from concurrent.futures import ProcessPoolExecutor
from math import gcd
from pathlib import Path

import numpy as np
from scipy.signal import resample_poly

RATE = 16000
VOWELS_OF_ESPEAK = ['en-us', 'en-us', 'en-us', 'en-us-nyc', 'en-gb', 'en-gb-x-rp', 'en-gb-scotland', 'en-gb-x-gbclan', 'en-gb-x-gbcwmd', 'en-029']
VARIANTS = (
    'm1 m2 m3 m4 m5 m6 m7 m8 f1 f2 f3 f4 f5 klatt klatt2 klatt3 klatt4 Alex Andrea Andy Annie Denis Diogo Gene Gene2 Jacky Lee Mario '
    'Michael Mike Mr Nicolas Reed Storm Tweaky adam anika announcer antonio aunty belinda benjamin boris david ed edward edward2 iven '
    'iven2 john kaukovalta linda marcelo max michel miguel norbert pablo paul pedro quincy rob robert sandro shelby steph steph2 steph3 '
    'travis victor zac caleb grandma grandpa croak'
).split()
THOU_FESTIVAL = '(lex.add.entry \'("thou" nil (((th aw) 1))))\n'


def read(path):
    return trimmed(resampled(path))


def resampled(path):
    with wave.open(str(path)) as sound:
        rate = sound.getframerate()
        samples = np.frombuffer(sound.readframes(sound.getnframes()), np.int16).astype(np.float32)
    if rate != RATE:
        over = gcd(rate, RATE)
        samples = resample_poly(samples, RATE // over, rate // over)
    return samples


def trimmed(samples):
    """Without the silence around it, but for 60 ms; levelled to a peak of 20000."""
    if len(samples) < 800:
        return None
    power = np.convolve(samples ** 2, np.ones(320) / 320, 'same')
    loud = np.nonzero(power > power.max() * 1e-4)[0]
    cut = samples[max(0, loud[0] - 960): loud[-1] + 960]
    peak = np.abs(cut).max()
    if peak < 50 or not 1600 < len(cut) < 9 * RATE:
        return None
    return np.round(cut * (20000 / peak)).astype(np.int16)


def flite(text, folder, dice):
    voice = dice.choice(['kal16', 'awb', 'awb'])
    pitch = dice.uniform(75, 190)
    wav = folder / 'flite.wav'
    subprocess.run(
        ['flite', '-voice', voice, '-add_lex', str(folder / 'thou.lex'), '--setf', f'duration_stretch={dice.uniform(0.72, 1.4):.2f}',
         '--setf', f'int_f0_target_mean={pitch:.0f}', '-t', text, '-o', str(wav)],
        check=True, capture_output=True, timeout=20,
    )
    return f'flite-{voice}', read(wav)


def espeak(text, folder, dice):
    voice = f'{dice.choice(VOWELS_OF_ESPEAK)}+{dice.choice(VARIANTS)}'
    wav = folder / 'espeak.wav'
    said = ' '.join("[[T'aU]]" if word == 'thou' else word for word in text.split())
    subprocess.run(
        ['espeak-ng', '-v', voice, '-s', str(dice.randint(120, 240)), '-p', str(dice.randint(15, 85)), '-w', str(wav), said],
        check=True, capture_output=True, timeout=20,
    )
    return f'espeak-{voice}', read(wav)


def festival(batch, folder, dice):
    """Many sentences in one start of the program; the settings are drawn anew for each."""
    script = [THOU_FESTIVAL]
    chosen = []
    for at, text in enumerate(batch):
        voice = dice.choice(['kal_diphone', 'ked_diphone'])
        mean, spread = (dice.uniform(80, 200), dice.uniform(6, 24))
        chosen.append(f'festival-{voice}')
        script.append(
            f'(voice_{voice})(lex.add.entry \'("thou" nil (((th aw) 1))))(Parameter.set \'Duration_Stretch {dice.uniform(0.72, 1.4):.2f})'
            f"(set! int_lr_params '((target_f0_mean {mean:.0f}) (target_f0_std {spread:.0f}) (model_f0_mean 170) (model_f0_std 34)))"
            f'(utt.save.wave (utt.synth (Utterance Text "{text}")) "{folder}/f{at}.wav" \'riff)\n'
        )
    file = folder / 'say.scm'
    file.write_text(''.join(script))
    subprocess.run(['festival', '-b', str(file)], check=False, capture_output=True, timeout=240)
    spoken = []
    for at, voice in enumerate(chosen):
        wav = folder / f'f{at}.wav'
        spoken.append((voice, read(wav) if wav.exists() and wav.stat().st_size > 2000 else None))
        wav.unlink(missing_ok=True)
    return spoken


def pico(text, folder, dice):
    voice = dice.choice(['en-US', 'en-US', 'en-GB'])
    wav = folder / 'pico.wav'
    said = f'<pitch level="{dice.randint(70, 140)}"><speed level="{dice.randint(72, 150)}">{text}</speed></pitch>'
    subprocess.run(['pico2wave', '-l', voice, '-w', str(wav), said], check=True, capture_output=True, timeout=20)
    return f'pico-{voice}', read(wav)


def rhvoice(batch, folder, dice):
    """A few sentences in one start of the program, one voice and one setting, cut apart at the pauses between paragraphs."""
    voice = dice.choice(['alan', 'bdl', 'clb'])
    setting = ['-p', voice, '-r', str(dice.randint(70, 150)), '-t', str(dice.randint(70, 140)), '-q', 'min']
    text, wav = folder / 'rhvoice.txt', folder / 'rhvoice.wav'

    def say(written):
        text.write_text(written)
        subprocess.run(['RHVoice-test', *setting, '-i', str(text), '-o', str(wav)], check=True, capture_output=True, timeout=60)
        return wav

    # The pauses of alan are not still enough to be found.
    pieces = [] if voice == 'alan' else cut_apart(say('.\n\n'.join(batch) + '.\n'), len(batch))
    return [(f'rhvoice-{voice}', piece) for piece in pieces or [read(say(each)) for each in batch]]


def cut_apart(path, count):
    """`count` pieces at the longest pauses, or none where these are not plainly longer than every other one."""
    samples = resampled(path)
    power = np.convolve(samples ** 2, np.ones(160) / 160, 'same')
    edges = np.flatnonzero(np.diff(np.concatenate([[0], power < power.max() * 1e-4, [0]])))
    pauses = sorted(((end - begin, begin, end) for begin, end in edges.reshape(-1, 2) if begin > 0 and end < len(samples)), reverse=True)
    if len(pauses) < count - 1 or (len(pauses) >= count > 1 and pauses[count - 2][0] < 1.15 * pauses[count - 1][0]):
        return []
    return [trimmed(piece) for piece in np.split(samples, sorted((begin + end) // 2 for _, begin, end in pauses[:count - 1]))]


def work(task):
    number, sentences, seed, out = task
    dice = random.Random(seed * 100003 + number)
    pieces, index, at = [], [], 0

    def keep(text, voice, samples):
        nonlocal at
        if samples is not None:
            pieces.append(samples)
            index.append({'at': at, 'length': len(samples), 'text': text, 'voice': voice})
            at += len(samples)

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / 'thou.lex').write_text('"thou" n th aw1\n')
        by_festival, by_rhvoice = [], []
        for text in sentences:
            draw = dice.random()
            # "thou" is a thousandth here: the two that cannot be told so would say the old pronoun.
            told = 'thou' in text.split()
            if draw < 0.35 and not told:
                by_rhvoice.append(text)
                continue
            if draw >= 0.85:
                by_festival.append(text)
                continue
            try:
                keep(text, *(pico if draw < 0.58 and not told else flite if draw < 0.69 else espeak)(text, folder, dice))
            except (subprocess.SubprocessError, OSError, wave.Error, EOFError, IndexError) as fault:
                print('left out:', text, fault, file=sys.stderr)
        for text, (voice, samples) in zip(by_festival, festival(by_festival, folder, dice)):
            keep(text, voice, samples)
        for first in range(0, len(by_rhvoice), 6):
            batch = by_rhvoice[first:first + 6]
            try:
                for text, (voice, samples) in zip(batch, rhvoice(batch, folder, dice)):
                    keep(text, voice, samples)
            except (subprocess.SubprocessError, OSError, wave.Error, EOFError, IndexError) as fault:
                print('left out:', batch, fault, file=sys.stderr)
    base = Path(out) / f'speech{number:03d}'
    np.concatenate(pieces).tofile(f'{base}.i16')
    Path(f'{base}.json').write_text(json.dumps(index))
    return len(pieces), at


def main():
    options = argparse.ArgumentParser()
    options.add_argument('sentences')
    options.add_argument('out')
    options.add_argument('--jobs', type=int, default=os.cpu_count())
    options.add_argument('--seed', type=int, default=1)
    chosen = options.parse_args()
    Path(chosen.out).mkdir(parents=True, exist_ok=True)
    sentences = Path(chosen.sentences).read_text().splitlines()
    size = 100
    tasks = [(k, sentences[k * size:(k + 1) * size], chosen.seed, chosen.out) for k in range((len(sentences) + size - 1) // size)]
    with ProcessPoolExecutor(chosen.jobs) as pool:
        done = list(pool.map(work, tasks))
    print(f'{sum(n for n, _ in done)} sentences of {len(sentences)}, {sum(s for _, s in done) / RATE / 3600:.2f} hours')


if __name__ == '__main__':
    main()
