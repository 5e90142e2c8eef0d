import { VOICE_RATE_HZ, type Sound } from './sound.ts';

const HEADER_BYTES = 44;

/** A mono 16-bit WAV file of a sound; samples beyond -1 to 1 are clipped. */
export function wavBytes(sound: Sound): Uint8Array {
  const bytes = new Uint8Array(HEADER_BYTES + sound.length * 2);
  const view = new DataView(bytes.buffer);
  const text = (at: number, letters: string): void => {
    for (const [index, letter] of [...letters].entries()) view.setUint8(at + index, letter.charCodeAt(0));
  };
  text(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, VOICE_RATE_HZ, true);
  view.setUint32(28, VOICE_RATE_HZ * 2, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  text(36, 'data');
  view.setUint32(40, sound.length * 2, true);
  sound.forEach((value, at) => {
    view.setInt16(HEADER_BYTES + at * 2, Math.max(-32_768, Math.min(32_767, Math.round(value * 32_768))), true);
  });
  return bytes;
}

/** Characters turned in one call: an argument list has a limit, and it differs between browsers. */
const CHUNK = 0x8000;

/** The WAV file as a data URI, which is played without any request. */
export function wavDataUri(sound: Sound): string {
  const bytes = wavBytes(sound);
  let letters = '';
  for (let at = 0; at < bytes.length; at += CHUNK) letters += String.fromCharCode(...bytes.subarray(at, at + CHUNK));
  return `data:audio/wav;base64,${btoa(letters)}`;
}
