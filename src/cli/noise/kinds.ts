import { between, type Random } from './random.ts';

/** The noises of a shop, made by code; docs/ear.md says what each stands for. The last two are never used to train anything. */
export const NOISE_KINDS = ['motor', 'gears', 'hiss', 'chatter', 'talk', 'air', 'interrupted', 'coolant'] as const;
export type NoiseKind = (typeof NOISE_KINDS)[number];

const RATE_HZ = 16_000;

/** White noise, nearly normal. */
const white = (random: Random): number => random() + random() + random() + random() - 2;

/** A second-order filter that passes about `hz`, as narrow as `q` is high (bilinear band-pass, R. Bristow-Johnson's cookbook). */
function bandPass(hz: number, q: number): (x: number) => number {
  const w = (2 * Math.PI * Math.min(hz, 7900)) / RATE_HZ;
  const alpha = Math.sin(w) / (2 * q);
  const [b, a1, a2, a0] = [alpha, -2 * Math.cos(w), 1 - alpha, 1 + alpha];
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  return (x) => {
    const y = (b * (x - x2) - a1 * y1 - a2 * y2) / a0;
    [x2, x1, y2, y1] = [x1, x, y1, y];
    return y;
  };
}

/** One pole: a low-pass at `hz`. */
function lowPass(hz: number): (x: number) => number {
  const keep = Math.exp((-2 * Math.PI * hz) / RATE_HZ);
  let y = 0;
  return (x) => (y = keep * y + (1 - keep) * x);
}

/** A value that wanders between 0 and 1 about so many times a second. */
function wander(random: Random, perSecond: number): () => number {
  const step = perSecond / RATE_HZ;
  let [from, to, at] = [random(), random(), 0];
  return () => {
    at += step;
    if (at >= 1) [from, to, at] = [to, random(), 0];
    return from + (to - from) * (0.5 - 0.5 * Math.cos(Math.PI * at));
  };
}

function make(length: number, sample: (index: number) => number): Float32Array {
  const out = new Float32Array(length);
  for (let index = 0; index < length; index += 1) out[index] = sample(index);
  return out;
}

const turn = (hz: number, index: number): number => (2 * Math.PI * hz * index) / RATE_HZ;

/** Mains hum with its harmonics, beating with the slip of the motor, over a low rumble of bearings and belt. */
function motor(length: number, random: Random): Float32Array {
  const mains = (random() < 0.5 ? 50 : 60) * (1 - between(random, 0, 0.03));
  const parts = Array.from({ length: 24 }, (_, k) => ({
    hz: mains * (k + 1),
    gain: between(random, 0.2, 1) / (k + 1) ** 0.8,
    phase: between(random, 0, 6),
  }));
  const rumble = lowPass(between(random, 300, 900));
  const slow = wander(random, 1.5);
  return make(length, (i) => {
    let sum = 0;
    for (const { hz, gain, phase } of parts) sum += gain * Math.sin(turn(hz, i) + phase);
    return sum * (0.7 + 0.3 * slow()) + 6 * rumble(white(random));
  });
}

/** Tooth mesh of a geared headstock with its harmonics, swaying with each turn of the shaft. */
function gears(length: number, random: Random): Float32Array {
  const shaft = between(random, 4, 25);
  const teeth = Math.round(between(random, 18, 60));
  const harmonics = Array.from({ length: 8 }, (_, k) => between(random, 0.2, 1) / (k + 1));
  const oil = lowPass(2500);
  const slow = wander(random, 3);
  let phase = 0;
  return make(length, (i) => {
    phase += (2 * Math.PI * shaft * teeth * (1 + 0.004 * (slow() - 0.5))) / RATE_HZ;
    const sway = 1 + 0.5 * Math.sin(turn(shaft, i)) + 0.2 * Math.sin(turn(2 * shaft, i));
    let sum = 0;
    harmonics.forEach((gain, k) => (sum += shaft * teeth * (k + 1) < 7600 ? gain * Math.sin(phase * (k + 1)) : 0));
    return sway * sum + 0.8 * oil(white(random));
  });
}

/** The hiss of a steady cut: broad noise of the upper band, swelling with the feed marks. */
function hiss(length: number, random: Random): Float32Array {
  const band = bandPass(between(random, 2500, 5000), 0.6);
  const body = bandPass(between(random, 600, 1400), 0.8);
  const slow = wander(random, between(random, 4, 12));
  return make(length, () => (0.5 + slow()) * band(white(random)) + 0.25 * body(white(random)));
}

/** Chatter: the tool rings at a few hundred hertz and its harmonics, coming and going. */
function chatter(length: number, random: Random): Float32Array {
  const hz = between(random, 180, 700);
  const slow = wander(random, 2);
  const drift = wander(random, 1);
  const floor = lowPass(1800);
  let phase = 0;
  return make(length, () => {
    phase += (2 * Math.PI * hz * (1 + 0.02 * drift())) / RATE_HZ;
    const gate = Math.max(0.1, slow() * 1.6 - 0.4);
    return (
      gate * (Math.tanh(3 * Math.sin(phase)) + 0.4 * Math.sin(2.5 * phase) + 0.3 * Math.sin(7 * phase)) + floor(white(random))
    );
  });
}

/** Other people's talk and a radio: four voices made of a buzz through moving formants, in syllables, saying nothing. */
function talk(length: number, random: Random): Float32Array {
  const out = new Float32Array(length);
  for (let voice = 0; voice < 4; voice += 1) babble(out, random, between(random, 0.4, 1));
  return out;
}

function babble(out: Float32Array, random: Random, gain: number): void {
  const pitch = between(random, 85, 230);
  let phase = 0;
  for (let at = 0; at < out.length;) {
    const length = Math.round(between(random, 0.08, 0.28) * RATE_HZ);
    const pause = random() < 0.2 ? Math.round(between(random, 0.1, 0.6) * RATE_HZ) : 0;
    const formants = [between(random, 280, 800), between(random, 900, 2300), between(random, 2300, 3200)].map((hz) =>
      bandPass(hz, 8),
    );
    const rustle = random() < 0.3 ? bandPass(between(random, 3000, 6000), 1) : null;
    const voiced = pitch * between(random, 0.85, 1.25);
    for (let i = 0; i < length && at + i < out.length; i += 1) {
      phase += voiced / RATE_HZ;
      if (phase >= 1) phase -= 1;
      const source = phase < 0.1 ? 1 - phase * 10 : 0;
      const swell = Math.sin((Math.PI * i) / length);
      let sum = 0;
      for (const formant of formants) sum += formant(source);
      if (rustle !== null) sum += 0.15 * rustle(white(random));
      out[at + i] = (out[at + i] ?? 0) + gain * swell * sum;
    }
    at += length + pause;
  }
}

/** An air line or a grinder in the next bay: bright noise in bursts. */
function air(length: number, random: Random): Float32Array {
  const band = bandPass(between(random, 3000, 6500), 0.5);
  let left = 0;
  let on = false;
  let gain = 0;
  return make(length, () => {
    if (left <= 0) {
      on = !on;
      left = Math.round(between(random, 0.15, 0.9) * RATE_HZ);
    }
    left -= 1;
    gain += ((on ? 1 : 0.08) - gain) * 0.002;
    return gain * band(white(random));
  });
}

/** A cut across a keyway or a hexagon: a knock at each edge, with the work ringing after it, and the cut between. */
function interrupted(length: number, random: Random): Float32Array {
  const perSecond = between(random, 5, 22);
  const rings = Array.from({ length: 4 }, () => ({
    filter: bandPass(between(random, 350, 5500), between(random, 10, 30)),
    gain: between(random, 0.3, 1),
  }));
  const cut = bandPass(3200, 0.7);
  let until = 0;
  return make(length, (i) => {
    const knocked = i >= until;
    if (knocked) until = i + Math.round((RATE_HZ / perSecond) * between(random, 0.97, 1.03));
    const into = 1 - (until - i) / (RATE_HZ / perSecond);
    const blow = knocked ? 40 : 0;
    let sum = into < 0.6 ? 0.5 * cut(white(random)) : 0.05 * cut(white(random));
    for (const { filter, gain } of rings) sum += gain * filter(blow + 0.3 * white(random) * (into < 0.1 ? 1 : 0));
    return sum;
  });
}

/** Flood coolant and its pump: splashing, bubbling water over a hum. */
function coolant(length: number, random: Random): Float32Array {
  const wash = bandPass(between(random, 1200, 2600), 0.4);
  const hum = between(random, 95, 125);
  const slow = wander(random, 20);
  let drop = { left: 0, hz: 0, phase: 0, total: 1 };
  return make(length, (i) => {
    if (drop.left <= 0 && random() < 40 / RATE_HZ) {
      const total = Math.round(between(random, 0.01, 0.05) * RATE_HZ);
      drop = { left: total, hz: between(random, 500, 2500), phase: 0, total };
    }
    let bubble = 0;
    if (drop.left > 0) {
      drop.left -= 1;
      const gone = 1 - drop.left / drop.total;
      drop.phase += (2 * Math.PI * drop.hz * (1 + 0.6 * gone)) / RATE_HZ;
      bubble = Math.sin(drop.phase) * Math.sin(Math.PI * gone);
    }
    return (0.6 + 0.8 * slow()) * wash(white(random)) + 0.35 * bubble + 0.12 * Math.sin(turn(hum, i));
  });
}

const MAKERS: Readonly<Record<NoiseKind, (length: number, random: Random) => Float32Array>> = {
  motor,
  gears,
  hiss,
  chatter,
  talk,
  air,
  interrupted,
  coolant,
};

/** Noise of a kind at 16 kHz, of unit power. */
export function makeNoise(kind: NoiseKind, length: number, random: Random): Float32Array {
  const noise = MAKERS[kind](length, random);
  let power = 0;
  for (const sample of noise) power += sample * sample;
  const scale = 1 / Math.sqrt(power / Math.max(1, length) + 1e-12);
  return noise.map((sample) => sample * scale);
}
