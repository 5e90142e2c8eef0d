import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeWavFault, readWav, writeWav } from '../../src/ear/index.ts';

type Shape = {
  readonly code: number;
  readonly bits: number;
  readonly channels: number;
  readonly rateHz: number;
  readonly extensible?: boolean;
};

/** A WAV of one value on every channel, written by hand so that the reader is not tested against its own writer. */
function wavOf(
  value: number,
  frames: number,
  { code, bits, channels, rateHz, extensible = false }: Shape,
  before: Uint8Array[] = [],
): Uint8Array {
  const bytesPerSample = Math.ceil(bits / 8);
  const data = new DataView(new ArrayBuffer(frames * channels * bytesPerSample));
  for (let at = 0; at < data.byteLength; at += bytesPerSample) {
    if (code === 3 && bits === 64) data.setFloat64(at, value, true);
    else if (code === 3) data.setFloat32(at, value, true);
    else if (bytesPerSample === 1) data.setUint8(at, Math.round(value * 128) + 128);
    else if (bytesPerSample === 2) data.setInt16(at, Math.round(value * 0x8000), true);
    else if (bytesPerSample === 3) {
      const whole = Math.round(value * 0x80_0000);
      data.setUint8(at, whole & 255);
      data.setInt16(at + 1, whole >> 8, true);
    } else data.setInt32(at, Math.round(value * 0x8000_0000), true);
  }
  const format = new DataView(new ArrayBuffer(extensible ? 40 : 16));
  format.setUint16(0, extensible ? 0xfffe : code, true);
  format.setUint16(2, channels, true);
  format.setUint32(4, rateHz, true);
  format.setUint32(8, rateHz * channels * bytesPerSample, true);
  format.setUint16(12, channels * bytesPerSample, true);
  format.setUint16(14, bits, true);
  if (extensible) {
    format.setUint16(16, 22, true);
    format.setUint16(18, bits, true);
    format.setUint16(24, code, true);
  }
  return riff([...before, chunk('fmt ', new Uint8Array(format.buffer)), chunk('data', new Uint8Array(data.buffer))]);
}

function chunk(name: string, content: Uint8Array): Uint8Array {
  const out = new Uint8Array(8 + content.length + (content.length & 1));
  out.set([...name].map((letter) => letter.charCodeAt(0)));
  new DataView(out.buffer).setUint32(4, content.length, true);
  out.set(content, 8);
  return out;
}

function riff(chunks: readonly Uint8Array[]): Uint8Array {
  const size = chunks.reduce((sum, each) => sum + each.length, 4);
  const out = new Uint8Array(8 + size);
  out.set([...'RIFF'].map((letter) => letter.charCodeAt(0)));
  new DataView(out.buffer).setUint32(4, size, true);
  out.set(
    [...'WAVE'].map((letter) => letter.charCodeAt(0)),
    8,
  );
  let at = 12;
  for (const each of chunks) {
    out.set(each, at);
    at += each.length;
  }
  return out;
}

const mono16 = { code: 1, bits: 16, channels: 1, rateHz: 16_000 };

describe('readWav', () => {
  test.each([
    ['8 bit', { ...mono16, bits: 8 }],
    ['16 bit', mono16],
    ['20 bit in 24', { ...mono16, bits: 20 }],
    ['24 bit', { ...mono16, bits: 24 }],
    ['32 bit', { ...mono16, bits: 32 }],
    ['32-bit float', { ...mono16, code: 3, bits: 32 }],
    ['64-bit float', { ...mono16, code: 3, bits: 64 }],
    ['stereo at 44.1 kHz', { ...mono16, channels: 2, rateHz: 44_100 }],
    ['extensible PCM, six channels at 48 kHz', { ...mono16, channels: 6, rateHz: 48_000, bits: 24, extensible: true }],
    ['extensible float', { ...mono16, code: 3, bits: 32, extensible: true }],
    ['8 kHz', { ...mono16, rateHz: 8_000 }],
  ])('%s', (_, shape) => {
    const read = readWav(wavOf(0.25, 50, shape));
    expect(read.ok && read.value.rateHz).toBe(shape.rateHz);
    expect(read.ok && [...new Set(read.value.samples)]).toEqual([0.25]);
    expect(read.ok && read.value.samples.length).toBe(50);
  });

  test('passes over chunks that it does not know, odd ones with their padding', () => {
    const read = readWav(wavOf(-0.5, 4, mono16, [chunk('LIST', new Uint8Array(7)), chunk('bext', new Uint8Array(602))]));
    expect(read.ok && [...read.value.samples]).toEqual([-0.5, -0.5, -0.5, -0.5]);
  });

  test('reads to the end where a recorder left the length open', () => {
    const open = wavOf(0.5, 10, mono16);
    new DataView(open.buffer).setUint32(40, 0xffff_ffff, true);
    const read = readWav(open);
    expect(read.ok && read.value.samples.length).toBe(10);
  });

  test('averages channels', () => {
    const bytes = wavOf(0, 1, { ...mono16, channels: 2 });
    const view = new DataView(bytes.buffer);
    view.setInt16(44, 0x4000, true);
    view.setInt16(46, -0x2000, true);
    const read = readWav(bytes);
    expect(read.ok && [...read.value.samples]).toEqual([0.125]);
  });

  test('a float that is no number is silence', () => {
    const read = readWav(wavOf(NaN, 3, { ...mono16, code: 3, bits: 32 }));
    expect(read.ok && [...read.value.samples]).toEqual([0, 0, 0]);
  });

  const good = wavOf(0.25, 50, mono16);
  test.each([
    ['nothing at all', new Uint8Array(0), 'not-a-wav'],
    ['text', new TextEncoder().encode('this is a note about the shaft'), 'not-a-wav'],
    ['cut off in the sound', good.slice(0, 100), 'truncated'],
    ['cut off in the format', good.slice(0, 30), 'truncated'],
    ['no sound chunk', riff([chunk('fmt ', good.slice(20, 36))]), 'no-sound'],
    ['sound of no length', wavOf(0, 0, mono16), 'no-sound'],
    ['sound before its format', riff([chunk('data', new Uint8Array(8))]), 'no-format'],
    ['compressed (ADPCM)', wavOf(0, 4, { ...mono16, code: 2 }), 'unsupported'],
    ['4 bit', wavOf(0, 4, { ...mono16, bits: 4 }), 'unsupported'],
    [
      'no channels',
      riff([
        chunk(
          'fmt ',
          new Uint8Array(16).fill(0).map((_, i) => (i === 0 ? 1 : 0)),
        ),
      ]),
      'unsupported',
    ],
    ['a rate of nothing', wavOf(0, 4, { ...mono16, rateHz: 0 }), 'unsupported'],
  ] as const)('refuses %s', (_, bytes, key) => {
    const read = readWav(bytes);
    expect(read.ok ? 'read' : read.error.key).toBe(key);
    expect(read.ok ? '' : describeWavFault(read.error)).toMatch(/^[^\n]{10,}$/u);
  });

  test('never throws, whatever the bytes (seed 11)', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 120 }), fc.nat(60), (noise, at) => {
        const damaged = good.slice();
        damaged.set(noise.subarray(0, Math.max(0, damaged.length - at)), at);
        expect(typeof readWav(damaged).ok).toBe('boolean');
      }),
      { seed: 11 },
    );
  });

  test('what is written is read again, to half a step of 16 bits (seed 12)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 32_767 / 32_768, noNaN: true }), { minLength: 1, maxLength: 50 }),
        (values) => {
          const read = readWav(writeWav({ samples: Float32Array.from(values), rateHz: 16_000 }));
          expect(read.ok).toBe(true);
          if (read.ok)
            values.forEach((value, at) =>
              expect(Math.abs(read.value.samples[at]! - value)).toBeLessThanOrEqual(0.5 / 32_768 + 1e-7),
            );
        },
      ),
      { seed: 12 },
    );
  });
});
