"""Machine noise made by code, for training. Interrupted cuts and coolant are never made here: they are held out for measuring."""
import math

import torch

RATE = 16000
SECONDS = 8
LENGTH = RATE * SECONDS
HELD_OUT = ('interrupted cut', 'coolant')


class Noise:
    def __init__(self, device, seed):
        self.device = device
        self.random = torch.Generator(device='cpu').manual_seed(seed)
        self.time = torch.arange(LENGTH, device=device) / RATE

    def u(self, low, high):
        return low + (high - low) * torch.rand((), generator=self.random).item()

    def whole(self, low, high):
        return int(torch.randint(low, high + 1, (), generator=self.random).item())

    def white(self):
        return torch.randn(LENGTH, generator=self.random).to(self.device)

    def shaped(self, gain_of):
        """White noise through a filter given as a function of frequency."""
        spectrum = torch.fft.rfft(self.white())
        hz = torch.fft.rfftfreq(LENGTH, 1 / RATE).to(self.device)
        return torch.fft.irfft(spectrum * gain_of(hz), LENGTH)

    def slow(self, hz, depth):
        """A random curve about 1 that changes a few times a second."""
        points = max(4, int(SECONDS * hz))
        curve = torch.rand(points, generator=self.random)[None, None]
        grown = torch.nn.functional.interpolate(curve, LENGTH, mode='linear', align_corners=True)[0, 0]
        return (1 + depth * (2 * grown - 1)).to(self.device)

    def tone(self, hz, wander=0.002):
        phase = 2 * math.pi * torch.cumsum(hz * self.slow(2, wander), 0) / RATE
        return torch.sin(phase + self.u(0, 6.28))

    def hum(self):
        base = self.u(24, 62)
        out = torch.zeros(LENGTH, device=self.device)
        for k in range(1, self.whole(6, 24)):
            out += self.tone(base * k) * self.u(0.1, 1) / k ** self.u(0.3, 1.3)
        return out * self.slow(1, 0.3) + 0.3 * self.tilted() * self.u(0.1, 1)

    def tilted(self):
        slope, corner = self.u(-1.4, -0.1), self.u(60, 400)
        return unit(self.shaped(lambda hz: (hz.clamp(min=corner) / 1000) ** slope))

    def whine(self):
        mesh = self.u(280, 2600)
        turn = self.u(4, 35)
        out = torch.zeros(LENGTH, device=self.device)
        for k in range(1, self.whole(2, 5)):
            if mesh * k < 7600:
                sway = 1 + self.u(0, 0.8) * self.tone(turn)
                out += self.tone(mesh * k, 0.004) * sway * self.u(0.2, 1) / k
        return unit(out) + self.u(0.1, 0.8) * self.tilted()

    def hiss(self):
        low, high = self.u(800, 3000), self.u(3500, 8000)
        band = lambda hz: torch.sigmoid((hz - low) / 300) * torch.sigmoid((high - hz) / 500)
        return unit(self.shaped(band)) * self.slow(self.u(1, 12), self.u(0.1, 0.7)) + self.u(0, 0.5) * self.hum_unit()

    def hum_unit(self):
        return unit(self.hum())

    def chatter(self):
        rate = self.u(90, 900)
        buzz = torch.sign(self.tone(rate, 0.01)) * (0.5 + 0.5 * self.tone(self.u(2, 20))).clamp(min=0)
        rings = torch.zeros(LENGTH, device=self.device)
        for _ in range(3):
            rings += self.tone(rate * self.whole(1, 9), 0.01) * self.u(0.2, 1)
        gate = (self.slow(1.5, 1.0) > self.u(0.4, 1.2)).float()
        return unit(buzz + rings) * (0.15 + gate) + self.u(0.1, 0.6) * self.tilted()

    def clank(self):
        """Dropped wrenches, doors, handles: a few ringing knocks over a quiet room."""
        out = 0.03 * self.tilted()
        for _ in range(self.whole(2, 14)):
            at = self.whole(0, LENGTH - RATE)
            n = RATE - 100
            t = self.time[:n]
            knock = torch.zeros(n, device=self.device)
            for _ in range(self.whole(2, 7)):
                knock += torch.sin(2 * math.pi * self.u(200, 6500) * t) * torch.exp(-t * self.u(8, 120)) * self.u(0.2, 1)
            knock += self.white()[:n] * torch.exp(-t * self.u(60, 400))
            out[at:at + n] += knock * self.u(0.2, 1.5)
        return out

    def fan(self):
        return self.tilted() * self.slow(3, 0.2) + self.u(0, 0.4) * self.hum_unit()

    def rumble(self):
        return unit(self.shaped(lambda hz: torch.exp(-hz / self.u(80, 500)))) + self.u(0.05, 0.4) * self.tilted()

    def crackle(self):
        """Welding, grinding, an air line: bursts of broad noise."""
        gate = (self.slow(self.u(6, 60), 1.0) > self.u(0.8, 1.6)).float()
        return unit(self.shaped(lambda hz: (hz.clamp(min=100) / 1000) ** self.u(-0.3, 0.8))) * (0.05 + gate)

    KINDS = ('hum', 'whine', 'hiss', 'chatter', 'clank', 'fan', 'rumble', 'crackle')

    def pool(self, count):
        """count x LENGTH, each at unit power; kinds take turns, and every third is a mixture of two."""
        out = torch.empty(count, LENGTH, device=self.device)
        for row in range(count):
            clip = unit(getattr(self, self.KINDS[row % len(self.KINDS)])())
            if row % 3 == 0:
                clip = clip + self.u(0.2, 1) * unit(getattr(self, self.KINDS[self.whole(0, len(self.KINDS) - 1)])())
            out[row] = unit(clip)
        return out


def unit(x):
    return x / (x.pow(2).mean().sqrt() + 1e-9)
