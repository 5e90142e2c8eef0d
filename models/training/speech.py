"""The training speech on the device: clips joined, sped, set in rooms and noise, and turned to log mels, all in batches."""
import json
from pathlib import Path

import numpy as np
import torch

from features import BANDS, HOP, SIZE, filterbank, window
from network import PAD
from noise import LENGTH as NOISE_LENGTH, Noise

RATE = 16000


def read_shards(folder):
    pieces, index, at = [], [], 0
    for path in sorted(Path(folder).glob('speech*.json')):
        samples = np.fromfile(path.with_suffix('.i16'), np.int16)
        for clip in json.loads(path.read_text()):
            index.append({**clip, 'at': clip['at'] + at})
        pieces.append(samples)
        at += len(samples)
    return np.concatenate(pieces), index


def read_real(path):
    packed = np.load(path)
    x = packed['samples'].astype(np.float32) / 127.5 - 1
    samples = np.sign(x) * (np.exp(np.abs(x) * np.log(256)) - 1) / 255 * 32767
    return samples.astype(np.int16), json.loads(str(packed['index']))


class Speech:
    """Clips with the phones of each; `draw` makes a list of utterances, `batch` makes mels and labels of some of them."""

    def __init__(self, shards, real, lexicon, device, seed, noises=640):
        self.device = device
        self.dice = np.random.default_rng(seed)
        said, said_index = read_shards(shards)
        spoken, spoken_index = read_real(real)
        for clip in spoken_index:
            clip['at'] += len(said)
        self.audio = torch.from_numpy(np.concatenate([said, spoken, np.zeros(64, np.int16)])).to(device)
        self.lexicon = lexicon
        known = [clip for clip in said_index if all(word in lexicon for word in clip['text'].split())]
        speakers = sorted({clip['speaker'] for clip in spoken_index})
        kept_back = set(speakers[::8])
        back = min(400, len(known) // 10)
        self.synthetic, self.synthetic_check = known[back:], known[:back]
        self.real = [clip for clip in spoken_index if clip['text'] and clip['speaker'] not in kept_back]
        self.real_check = [clip for clip in spoken_index if clip['text'] and clip['speaker'] in kept_back]
        self.real_noise = [clip for clip in spoken_index if not clip['text'] and clip['speaker'] not in kept_back]
        # Rarer words are drawn more often, so that 12 takes of "zero" count like 120 of "yes": otherwise the network comes to
        # expect the common ones wherever it hears a real voice. A word of one or two takes is not driven to death.
        counts = {}
        for clip in self.real:
            counts[clip['text']] = counts.get(clip['text'], 0) + 1
        weights = np.array([min(1, counts[clip['text']] / 6) / counts[clip['text']] for clip in self.real])
        self.real_weights = weights / weights.sum()
        self.noise = Noise(device, seed).pool(noises)
        self.noise = torch.cat([self.noise, self.babble(noises // 5), self.recorded_noise(noises // 8)])
        self.loud_from = noises
        self.loud_until = noises + noises // 5
        self.window = torch.from_numpy(window()).to(device)
        self.warps = torch.stack([torch.from_numpy(filterbank(warp)) for warp in np.linspace(0.8, 1.26, 24)]).to(device)
        print(f'{len(known)} of {len(said_index)} sentences, {len(self.real)} + {len(self.real_check)} real words, '
              f'{len(self.audio) / RATE / 3600:.2f} hours, {len(self.noise)} noises')

    def clip(self, clip):
        return self.audio[clip['at']:clip['at'] + clip['length']].float()

    def babble(self, count):
        """Radio and other people: one to five voices over each other, some through a small loudspeaker."""
        out = torch.zeros(count, NOISE_LENGTH, device=self.device)
        hz = torch.fft.rfftfreq(NOISE_LENGTH, 1 / RATE).to(self.device)
        radio = torch.sigmoid((hz - 350) / 60) * torch.sigmoid((3300 - hz) / 150)
        for row in range(count):
            for _ in range(int(self.dice.integers(1, 6))):
                at = 0
                while at < NOISE_LENGTH:
                    samples = self.clip(self.synthetic[self.dice.integers(len(self.synthetic))])
                    samples = samples[:NOISE_LENGTH - at] * float(self.dice.uniform(0.3, 1))
                    out[row, at:at + len(samples)] += samples
                    at += len(samples) + int(self.dice.integers(0, RATE // 2))
            if self.dice.random() < 0.5:
                out[row] = torch.fft.irfft(torch.fft.rfft(out[row]) * radio, NOISE_LENGTH)
        return out / out.pow(2).mean(1, keepdim=True).sqrt().clamp(min=1e-6)

    def recorded_noise(self, count):
        """The clips of noise in the real set, run on end to end."""
        out = torch.zeros(count, NOISE_LENGTH, device=self.device)
        for row in range(count):
            at = 0
            while at < NOISE_LENGTH:
                samples = self.clip(self.real_noise[self.dice.integers(len(self.real_noise))])[:NOISE_LENGTH - at]
                out[row, at:at + len(samples)] = samples / samples.pow(2).mean().sqrt().clamp(min=1)
                at += len(samples)
        return out / out.pow(2).mean(1, keepdim=True).sqrt().clamp(min=1e-6)

    def draw(self, count):
        """Utterances as lists of (clip, gap before it in samples, speed)."""
        dice, made = self.dice, []
        for _ in range(count):
            kind = dice.random()
            if kind < 0.05:
                parts = []
            elif kind < 0.42:
                several = 1 if dice.random() < 0.5 else int(dice.integers(2, 5))
                parts = [self.real[k] for k in dice.choice(len(self.real), several, p=self.real_weights)]
                if dice.random() < 0.15:
                    parts.insert(int(dice.integers(len(parts) + 1)), self.synthetic[dice.integers(len(self.synthetic))])
            else:
                parts = [self.synthetic[dice.integers(len(self.synthetic))]]
                if dice.random() < 0.12:
                    parts.append(self.synthetic[dice.integers(len(self.synthetic))])
            # The real words are few: the faster and slower they come, the higher and lower, the more throats they stand for.
            speed = float(np.exp(dice.normal(0, 0.13 if parts and 'speaker' in parts[0] else 0.09)))
            utterance, at = [], int(dice.uniform(0.03, 0.5) * RATE)
            for clip in parts:
                length = int(clip['length'] / speed)
                if at + length > 6.5 * RATE:
                    break
                utterance.append((clip, at, speed, length))
                at += length + int(dice.uniform(0, 0.3) * RATE)
            end = at + int(dice.uniform(0.03, 0.5) * RATE)
            made.append((utterance, max(end, int(0.6 * RATE))))
        return made

    def phones(self, utterance):
        out = []
        for clip, *_ in utterance:
            for word in clip['text'].split():
                ways = self.lexicon[word]
                out.extend(ways[self.dice.integers(len(ways))])
        return out

    def samples(self, utterances, length):
        """The clips laid into (batch, length) floats; speed by cubic interpolation."""
        device = self.device
        rows, starts, sources, speeds, lengths = [], [], [], [], []
        for row, (utterance, _) in enumerate(utterances):
            for clip, at, speed, size in utterance:
                rows.append(row), starts.append(at), sources.append(clip['at']), speeds.append(speed)
                lengths.append(max(1, min(size, length - at, int((clip['length'] - 4) / speed))))
        x = torch.zeros(len(utterances) * length, device=device)
        if rows:
            n = torch.tensor(lengths, device=device)
            of = torch.repeat_interleave(torch.arange(len(rows), device=device), n)
            k = torch.arange(int(n.sum()), device=device) - (torch.cumsum(n, 0) - n)[of]
            fine = k.double() * torch.tensor(speeds, device=device, dtype=torch.float64)[of]
            whole = fine.floor().long()
            t = (fine - whole).float()
            source = torch.tensor(sources, device=device)[of] + whole
            a, b, c, d = (self.audio[(source + step).clamp(min=0)].float() for step in (-1, 0, 1, 2))
            value = b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)))
            x[torch.tensor(rows, device=device)[of] * length + torch.tensor(starts, device=device)[of] + k] = value
        return x.view(len(utterances), length) / 32768

    def rooms(self, x):
        size = 6400
        batch = x.shape[0]
        t = torch.arange(size, device=self.device) / RATE
        decay = torch.empty(batch, 1, device=self.device).uniform_(0.04, 0.4)
        tail = torch.randn(batch, size, device=self.device) * torch.exp(-6.9 * t / decay)
        tail = tail / tail.pow(2).sum(1, keepdim=True).sqrt()
        ratio = 10 ** (torch.empty(batch, 1, device=self.device).uniform_(-24, 0) / 20)
        used = (torch.rand(batch, 1, device=self.device) < 0.5).float()
        tail = tail * ratio * used
        tail[:, 0] = 1
        whole = x.shape[1] + size
        return torch.fft.irfft(torch.fft.rfft(x, whole) * torch.fft.rfft(tail, whole), whole)[:, :x.shape[1]]

    def noised(self, x, spoken, snr_low, snr_high, clean_share):
        batch, length = x.shape
        device = self.device
        power = (x.pow(2).sum(1) / spoken.sum(1).clamp(min=1)).clamp(min=1e-9)
        power = torch.where(spoken.sum(1) > 0, power, torch.full_like(power, 10 ** -3.5))
        pick = torch.randint(len(self.noise), (batch,), device=device)
        snr = torch.empty(batch, device=device).uniform_(snr_low, snr_high)
        clean = torch.rand(batch, device=device) < clean_share
        snr = torch.where(clean, torch.empty_like(snr).uniform_(28, 55), snr)
        # Another voice as loud as the speaker has no right answer.
        talk = (pick >= self.loud_from) & (pick < self.loud_until) & (spoken.sum(1) > 0)
        snr = torch.where(talk, snr.clamp(min=8), snr)
        start = torch.randint(NOISE_LENGTH, (batch,), device=device)
        at = (start[:, None] + torch.arange(length, device=device)) % NOISE_LENGTH
        noise = self.noise[pick[:, None], at]
        hiss = torch.randn_like(x) * (power * 10 ** -(torch.empty(batch, device=device).uniform_(30, 60) / 10)).sqrt()[:, None]
        return x + noise * (power * 10 ** (-snr / 10)).sqrt()[:, None] + hiss

    def mels(self, x, augment):
        batch, length = x.shape
        device = self.device
        if augment:
            peak = x.abs().amax(1, keepdim=True).clamp(min=1e-6)
            level = 10 ** (torch.empty(batch, 1, device=device).uniform_(-38, 2) / 20)
            x = (x / peak * level).clamp(-1, 1)
        x = torch.round(x * 32768)
        frames = 1 + (length - SIZE) // HOP
        frames -= frames % 4
        cut = x.unfold(1, SIZE, HOP)[:, :frames] * self.window
        power = torch.fft.rfft(cut).abs().pow(2)
        if augment:
            hz = torch.arange(SIZE // 2 + 1, device=device) / (SIZE // 2)
            curve = torch.zeros(batch, SIZE // 2 + 1, device=device)
            for wave in range(1, 6):
                size = torch.randn(batch, 1, device=device) * 4 / wave ** 0.5
                curve += size * torch.cos(np.pi * wave * hz + 6.28 * torch.rand(batch, 1, device=device))
            low = torch.empty(batch, 1, device=device).uniform_(0, 0.04)
            high = torch.where(torch.rand(batch, 1, device=device) < 0.25, torch.empty(batch, 1, device=device).uniform_(0.42, 1), torch.ones(batch, 1, device=device) * 2)
            curve = curve - 30 * torch.sigmoid((low - hz) / 0.01) * (low > 0.01) - 45 * torch.sigmoid((hz - high) / 0.015)
            power = power * 10 ** (curve / 10)[:, None, :]
            # Voices of children and of large men: the bands moved as a longer or shorter throat would.
            warp = (torch.randn(batch, device=device) * 4 + 10).round().long().clamp(0, 23)
            energy = torch.bmm(power, self.warps[warp])
        else:
            energy = power @ self.plain
        out = torch.log10(energy + 1) + 2
        if augment:
            middle = out.mean((1, 2), keepdim=True)
            for _ in range(2):
                width = torch.randint(0, 8, (batch, 1, 1), device=device)
                first = torch.randint(0, BANDS, (batch, 1, 1), device=device)
                band = torch.arange(BANDS, device=device)[None, None]
                out = torch.where((band >= first) & (band < first + width), middle, out)
                width = torch.randint(0, 6, (batch, 1, 1), device=device)
                first = torch.randint(0, frames, (batch, 1, 1), device=device)
                frame = torch.arange(frames, device=device)[None, :, None]
                out = torch.where((frame >= first) & (frame < first + width), middle, out)
        return torch.cat([out[:, :1].expand(-1, PAD, -1), out, out[:, -1:].expand(-1, PAD, -1)], 1)

    @property
    def plain(self):
        if not hasattr(self, '_plain'):
            self._plain = torch.from_numpy(filterbank()).to(self.device)
        return self._plain

    def batch(self, utterances, augment=True, snr=(-8, 20), clean_share=0.25):
        length = max(end for _, end in utterances)
        length = (length // (HOP * 4) + 1) * HOP * 4 + SIZE - HOP
        x = self.samples(utterances, length)
        spoken = (x != 0)
        if augment:
            x = self.rooms(x)
        x = self.noised(x, spoken, *snr, clean_share)
        steps = torch.tensor([min(end // (HOP * 2), (length - SIZE + HOP) // (HOP * 2)) for _, end in utterances], device=self.device)
        return self.mels(x, augment), steps
