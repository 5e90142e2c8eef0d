import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  adpcmBytes, assemble, decodeAdpcm, encodeAdpcm, END_MS, openClips, PAUSE_MS, samplesIn, stretched, VOICE_RATE_HZ, wavBytes,
  wavDataUri,
} from '../../src/voice/index.ts';

const sine = (hz: number, ms: number, size = 0.5): Float32Array =>
  Float32Array.from({ length: samplesIn(ms) }, (_, at) => size * Math.sin((2 * Math.PI * hz * at) / VOICE_RATE_HZ));

const powerOf = (sound: Float32Array): number => sound.reduce((sum, value) => sum + value * value, 0);

describe('IMA ADPCM', () => {
  // Worked by hand from the 1992 document's decoder. Codes 7 7 7 from rest: steps 7, 16, 34 (index 0, 8, 16) move the sample by
  // 7/8+7+7/2+7/4 = 0+7+3+1 = 11, then 2+16+8+4 = 30, then 4+34+17+8 = 63.
  it('decodes as the published tables say', () => {
    expect([...decodeAdpcm(Uint8Array.of(0x77, 0x07), 3)].map((value) => value * 32_768)).toEqual([11, 41, 104]);
    expect([...decodeAdpcm(Uint8Array.of(0xff), 2)].map((value) => value * 32_768)).toEqual([-11, -41]);
  });

  it('keeps a voice-like wave within 20 dB or better', () => {
    const sound = sine(180, 300).map((value, at) => value + 0.2 * Math.sin(at * 0.9));
    const back = decodeAdpcm(encodeAdpcm(sound), sound.length);
    const wrong = sound.map((value, at) => value - back[at]!);
    expect(10 * Math.log10(powerOf(sound) / powerOf(wrong))).toBeGreaterThan(20);
  });

  it('decodes as many samples as went in, all within full scale, whatever they were (seed 21)', () => {
    fc.assert(
      fc.property(fc.float32Array({ min: -2, max: 2, noNaN: true, maxLength: 400 }), (sound) => {
        const bytes = encodeAdpcm(sound);
        expect(bytes.length).toBe(adpcmBytes(sound.length));
        const back = decodeAdpcm(bytes, sound.length);
        expect(back.length).toBe(sound.length);
        expect(back.every((value) => value >= -1 && value < 1)).toBe(true);
      }),
      { seed: 21 },
    );
  });
});

describe('an assembled answer', () => {
  const one = sine(200, 100);
  const clips = { sound: (key: string) => (key === 'one' ? one : null) };

  it('has exactly the planned silence between two words, to the sample', () => {
    const parts = assemble([{ step: 'clip', key: 'one' }, { step: 'pause', place: 'word' }, { step: 'clip', key: 'one' }], clips, null, 1);
    expect(parts).toHaveLength(1);
    const sound = parts[0]!.part === 'sound' ? parts[0]!.sound : new Float32Array();
    const gap = samplesIn(PAUSE_MS.word);
    expect(sound.length).toBe(2 * one.length + gap + samplesIn(END_MS));
    expect([...sound.subarray(one.length, one.length + gap)]).toEqual(Array.from({ length: gap }, () => 0));
    expect(sound.subarray(one.length + gap, 2 * one.length + gap)).toEqual(one);
  });

  it('is one sound on either side of what the device says, and unspoken text makes none', () => {
    const parts = assemble(
      [{ step: 'clip', key: 'one' }, { step: 'device', text: 'mind the sump' }, { step: 'unspoken', text: 'x' }, { step: 'clip', key: 'one' }],
      clips, sine(900, 50), 1,
    );
    expect(parts.map((part) => part.part)).toEqual(['sound', 'device', 'sound']);
  });

  it('is nothing when there is nothing to sound', () => {
    expect(assemble([{ step: 'unspoken', text: 'x' }], clips, null, 1)).toEqual([]);
  });

  it('names a clip that is missing as our bug', () => {
    expect(() => assemble([{ step: 'clip', key: 'two' }], clips, null, 1)).toThrow('"two"');
  });
});

describe('slower speech', () => {
  const crossings = (sound: Float32Array): number =>
    sound.reduce((sum, value, at) => sum + (at > 0 && sound[at - 1]! < 0 && value >= 0 ? 1 : 0), 0);

  it.each([1.15, 1.35])('lasts %f times as long at the same pitch and strength', (factor) => {
    const sound = sine(160, 500);
    const slow = stretched(sound, factor);
    expect(slow.length).toBe(Math.round(sound.length * factor));
    // Pitch: crossings a second, within 4 %; the last frames run out of sound and are left aside.
    const steady = slow.subarray(0, slow.length - samplesIn(60));
    const hz = (crossings(steady) * VOICE_RATE_HZ) / steady.length;
    expect(Math.abs(hz - 160)).toBeLessThan(6.4);
    const strength = Math.sqrt(powerOf(steady) / steady.length);
    expect(Math.abs(strength - 0.5 / Math.SQRT2)).toBeLessThan(0.02);
  });

  it('is the same sound at the usual pace', () => {
    const sound = sine(160, 200);
    expect(stretched(sound, 1)).toBe(sound);
  });
});

describe('a WAV file of a sound', () => {
  // Header fields: IBM and Microsoft, "Multimedia Programming Interface and Data Specifications 1.0", 1991.
  it('is 16-bit mono PCM with the lengths of its data', () => {
    const file = Buffer.from(wavBytes(Float32Array.of(0, 0.5, -1, 2)));
    expect(file.toString('latin1', 0, 4) + file.toString('latin1', 8, 16)).toBe('RIFFWAVEfmt ');
    expect([file.readUInt32LE(4), file.readUInt16LE(20), file.readUInt16LE(22)]).toEqual([44, 1, 1]);
    expect([file.readUInt32LE(24), file.readUInt32LE(28)]).toEqual([VOICE_RATE_HZ, 2 * VOICE_RATE_HZ]);
    expect([file.readUInt16LE(32), file.readUInt16LE(34), file.readUInt32LE(40)]).toEqual([2, 16, 8]);
    expect([0, 1, 2, 3].map((at) => file.readInt16LE(44 + 2 * at))).toEqual([0, 16_384, -32_768, 32_767]);
  });

  it('comes back whole out of its data URI', () => {
    const sound = sine(300, 1500);
    const [head, body] = wavDataUri(sound).split(',');
    expect(head).toBe('data:audio/wav;base64');
    expect(Buffer.from(body!, 'base64').equals(Buffer.from(wavBytes(sound)))).toBe(true);
  });
});

describe('a damaged clip list', () => {
  const clips = { one: { start: 0, samples: 4, made: '0'.repeat(12) } };
  const list = { version: 1, coding: 'ima-adpcm', rateHz: 16_000, voice: 'v', bytes: 2, sha256: '0'.repeat(64), clips };

  it('opens when whole', () => {
    expect(openClips(list, new Uint8Array(2)).ok).toBe(true);
  });

  it.each([
    ['no list', null, 2, 'bad-list'],
    ['another rate', { ...list, rateHz: 8000 }, 2, 'bad-list'],
    ['a shorter sprite', list, 1, 'bad-sprite'],
    ['a clip past the end', { ...list, clips: { one: { ...clips.one, start: 1 } } }, 2, 'bad-sprite'],
  ] as const)('%s is refused as %4$s', (_, damaged, bytes, fault) => {
    const read = openClips(damaged, new Uint8Array(bytes));
    expect(read.ok ? null : read.error.fault).toBe(fault);
  });
});
