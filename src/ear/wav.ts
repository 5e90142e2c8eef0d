import { fail, ok, type Result } from '../measure/index.ts';

/** Sound as it stood in a file: one channel, -1 to 1, at the file's own rate. */
export type Wav = { readonly samples: Float32Array; readonly rateHz: number };

/** Why bytes are not usable sound; the sentence is `describeWavFault`. */
export type WavFault =
  | { readonly key: 'not-a-wav' }
  | { readonly key: 'truncated'; readonly wanted: number; readonly got: number }
  | { readonly key: 'no-format' }
  | { readonly key: 'no-sound' }
  | { readonly key: 'unsupported'; readonly what: string };

const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
/** The rates that sound cards and telephones use lie well inside these. */
const LOWEST_HZ = 4000;
const HIGHEST_HZ = 384_000;
const MOST_CHANNELS = 32;

type Format = { readonly code: number; readonly channels: number; readonly rateHz: number; readonly bytesPerSample: number };
type Chunk = { readonly at: number; readonly length: number };

/** What a fault means and what to do, in one line, without the name of the file. */
export function describeWavFault(fault: WavFault): string {
  switch (fault.key) {
    case 'not-a-wav':
      return 'this is not a WAV file; save the sound as WAV (PCM)';
    case 'truncated':
      return `the file is cut off: it says ${fault.wanted} bytes of sound and holds ${fault.got}`;
    case 'no-format':
      return 'the file says nothing about its format (no fmt chunk before the sound)';
    case 'no-sound':
      return 'there is no sound in the file';
    case 'unsupported':
      return `${fault.what} is not read here; save the sound as PCM of 8 to 32 bits or 32-bit float`;
  }
}

const letters = (view: DataView, at: number): string =>
  String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));

/** The format chunk, its `WAVE_FORMAT_EXTENSIBLE` form resolved to what stands behind it. */
function readFormat(view: DataView, { at, length }: Chunk): Result<Format, WavFault> {
  if (length < 16) return fail({ key: 'no-format' });
  let code = view.getUint16(at, true);
  const channels = view.getUint16(at + 2, true);
  const rateHz = view.getUint32(at + 4, true);
  const bits = view.getUint16(at + 14, true);
  if (code === EXTENSIBLE) {
    if (length < 40) return fail({ key: 'unsupported', what: 'an extensible format without its sub-format' });
    code = view.getUint16(at + 24, true);
  }
  if (code !== PCM && code !== FLOAT) return fail({ key: 'unsupported', what: `compressed sound (format ${code})` });
  if (channels < 1 || channels > MOST_CHANNELS) return fail({ key: 'unsupported', what: `sound of ${channels} channels` });
  if (rateHz < LOWEST_HZ || rateHz > HIGHEST_HZ) return fail({ key: 'unsupported', what: `a rate of ${rateHz} Hz` });
  const readable = code === FLOAT ? bits === 32 || bits === 64 : bits >= 8 && bits <= 32;
  if (!readable) return fail({ key: 'unsupported', what: `${code === FLOAT ? 'float' : 'PCM'} sound of ${bits} bits` });
  // Odd depths (20 bits, say) lie left-justified in whole bytes, so the bytes alone decide how they are read.
  return ok({ code, channels, rateHz, bytesPerSample: Math.ceil(bits / 8) });
}

/** How one sample of this format is read, scaled to -1 to 1. */
function sampleReader(view: DataView, { code, bytesPerSample }: Format): (at: number) => number {
  if (code === FLOAT) {
    const read = bytesPerSample === 4 ? view.getFloat32.bind(view) : view.getFloat64.bind(view);
    // A value that is no number would silence every filter behind it for good.
    return (at) => {
      const value = read(at, true);
      return Number.isFinite(value) ? value : 0;
    };
  }
  switch (bytesPerSample) {
    case 1:
      return (at) => (view.getUint8(at) - 128) / 128;
    case 2:
      return (at) => view.getInt16(at, true) / 0x8000;
    case 3:
      return (at) => (view.getUint8(at) | (view.getInt16(at + 1, true) << 8)) / 0x80_0000;
    default:
      return (at) => view.getInt32(at, true) / 0x8000_0000;
  }
}

/**
 * Reads a RIFF WAV: PCM of 8 to 32 bits or float of 32 or 64, any usual rate, channels averaged to one. Unknown chunks are
 * passed over. Sound whose stated length runs past the end of the file is a fault, save for the two lengths (0 and all ones)
 * that a recorder writes when it does not know the length yet.
 */
export function readWav(bytes: Uint8Array): Result<Wav, WavFault> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.byteLength < 12 || letters(view, 0) !== 'RIFF' || letters(view, 8) !== 'WAVE') return fail({ key: 'not-a-wav' });
  let format: Format | null = null;
  for (let at = 12; at + 8 <= view.byteLength;) {
    const name = letters(view, at);
    const stated = view.getUint32(at + 4, true);
    const chunk = { at: at + 8, length: stated };
    const left = view.byteLength - chunk.at;
    if (name === 'data') {
      if (format === null) return fail({ key: 'no-format' });
      const unknown = stated === 0xffff_ffff || (stated === 0 && left > 0);
      if (!unknown && stated > left) return fail({ key: 'truncated', wanted: stated, got: left });
      return readSound(view, { at: chunk.at, length: unknown ? left : stated }, format);
    }
    if (name === 'fmt ') {
      if (stated > left) return fail({ key: 'truncated', wanted: stated, got: left });
      const read = readFormat(view, chunk);
      if (!read.ok) return read;
      format = read.value;
    }
    // Chunks are padded to even lengths.
    at = chunk.at + stated + (stated & 1);
  }
  return fail(format === null ? { key: 'no-format' } : { key: 'no-sound' });
}

function readSound(view: DataView, { at, length }: Chunk, format: Format): Result<Wav, WavFault> {
  const { channels, bytesPerSample, rateHz } = format;
  const frames = Math.floor(length / (channels * bytesPerSample));
  if (frames === 0) return fail({ key: 'no-sound' });
  const read = sampleReader(view, format);
  const samples = new Float32Array(frames);
  for (let frame = 0, from = at; frame < frames; frame += 1) {
    let sum = 0;
    for (let channel = 0; channel < channels; channel += 1, from += bytesPerSample) sum += read(from);
    samples[frame] = sum / channels;
  }
  return ok({ samples, rateHz });
}

/** A mono 16-bit WAV file of samples; those beyond -1 to 1 are clipped. */
export function writeWav({ samples, rateHz }: Wav): Uint8Array {
  const bytes = new Uint8Array(44 + samples.length * 2);
  const view = new DataView(bytes.buffer);
  const write = (at: number, text: string): void => {
    for (let index = 0; index < text.length; index += 1) view.setUint8(at + index, text.charCodeAt(index));
  };
  write(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  write(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, PCM, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rateHz, true);
  view.setUint32(28, rateHz * 2, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  write(36, 'data');
  view.setUint32(40, samples.length * 2, true);
  for (let at = 0; at < samples.length; at += 1)
    view.setInt16(44 + at * 2, Math.max(-0x8000, Math.min(0x7fff, Math.round(samples[at]! * 0x8000))), true);
  return bytes;
}
