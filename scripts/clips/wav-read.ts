import { VOICE_RATE_HZ } from '../../src/voice/index.ts';

/** Samples of a plain 16-bit mono WAV at the voice's rate, as the synthesiser writes it; throws for any other. */
export function readWavMono(file: Uint8Array): Float32Array {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const channels = view.getUint16(22, true);
  const rate = view.getUint32(24, true);
  const bits = view.getUint16(34, true);
  if (channels !== 1 || rate !== VOICE_RATE_HZ || bits !== 16) throw new Error(`not 16-bit mono at ${VOICE_RATE_HZ} Hz: ${channels} × ${bits} bit at ${rate} Hz`);
  const samples = Math.min(view.getUint32(40, true), file.byteLength - 44) >> 1;
  return Float32Array.from({ length: samples }, (_, at) => view.getInt16(44 + at * 2, true) / 32_768);
}
