import type { Tone } from '../job/index.ts';
import { samplesIn, VOICE_RATE_HZ, type Sound } from './sound.ts';

/** One note, or the silence before the next: `hz` of 0 is silence. */
export type Note = { readonly hz: number; readonly ms: number };

/**
 * The tones as data: each has its own rhythm, so that they are told apart by someone who hears pitch badly, and its own pitch
 * contour. Between 500 and 1600 Hz: above most of a lathe's rumble, below what ear defenders and long years in a shop take away
 * first. Common practice, no source.
 */
export const TONES: Readonly<Record<Tone, readonly Note[]>> = {
  /** One short blip. */
  heard: [{ hz: 988, ms: 55 }],
  /** Short, long, rising: done. */
  stored: [{ hz: 784, ms: 70 }, { hz: 0, ms: 35 }, { hz: 1175, ms: 170 }],
  /** Long, short, short, falling: and again? */
  'please-repeat': [{ hz: 740, ms: 200 }, { hz: 0, ms: 60 }, { hz: 587, ms: 80 }, { hz: 0, ms: 60 }, { hz: 587, ms: 80 }],
  /** Four quick and even, on one pitch: getting near. */
  'close-to-size': [
    { hz: 1047, ms: 60 }, { hz: 0, ms: 60 }, { hz: 1047, ms: 60 }, { hz: 0, ms: 60 }, { hz: 1047, ms: 60 }, { hz: 0, ms: 60 },
    { hz: 1047, ms: 60 },
  ],
  /** Short, short, long, rising through a chord: there. */
  'at-size': [{ hz: 784, ms: 80 }, { hz: 0, ms: 40 }, { hz: 988, ms: 80 }, { hz: 0, ms: 40 }, { hz: 1568, ms: 360 }],
  /** Long, longer, low and falling: gone past. */
  'under-size': [{ hz: 659, ms: 260 }, { hz: 0, ms: 120 }, { hz: 523, ms: 420 }],
};

/** Highest sample of any tone, of full scale 1: about 10 dB below full scale, so that a tone never stands over the speech. */
export const TONE_PEAK = 0.32;

/** Ramp at both ends of a note, so that it does not click. */
const RAMP_MS = 8;
/** A little of the octave above gives a small loudspeaker something to play; the rest is the note itself. */
const OCTAVE_SHARE = 0.2;

function addNote(into: Sound, from: number, note: Note): void {
  const length = samplesIn(note.ms);
  const ramp = samplesIn(RAMP_MS);
  for (let at = 0; at < length; at++) {
    const edge = Math.min(1, at / ramp, (length - 1 - at) / ramp);
    const rise = 0.5 - 0.5 * Math.cos(Math.PI * edge);
    const phase = (2 * Math.PI * note.hz * at) / VOICE_RATE_HZ;
    into[from + at] = TONE_PEAK * rise * ((1 - OCTAVE_SHARE) * Math.sin(phase) + OCTAVE_SHARE * Math.sin(2 * phase));
  }
}

/** The sound of a tone, from the table; every sample within `TONE_PEAK`. */
export function toneSound(tone: Tone): Sound {
  const notes = TONES[tone];
  const sound = new Float32Array(notes.reduce((sum, note) => sum + samplesIn(note.ms), 0));
  let from = 0;
  for (const note of notes) {
    if (note.hz > 0) addNote(sound, from, note);
    from += samplesIn(note.ms);
  }
  return sound;
}
