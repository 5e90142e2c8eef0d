import { quantile } from './level.ts';

/** How speech is told from the rest by its loudness; docs/ear.md says on what each was chosen. */
export type EndpointSettings = {
  /** Speech begins where so many of the last frames stand so far above the noise floor. */
  readonly onsetDb: number;
  readonly onsetFrames: number;
  readonly onsetWithin: number;
  /** A frame this far above the floor goes on being speech, unless it lies further than `dropDb` under the loudest of it. */
  readonly keepDb: number;
  readonly dropDb: number;
  /** Silence after which an utterance has ended where nothing better is known than its loudness. */
  readonly hangoverMs: number;
  /** An utterance is cut here, whatever follows. */
  readonly longestMs: number;
  /** Nothing quieter is speech, however quiet the room. */
  readonly leastDb: number;
};

export const ENDPOINTS: EndpointSettings = {
  onsetDb: 8,
  onsetFrames: 6,
  onsetWithin: 10,
  keepDb: 5,
  dropDb: 30,
  hangoverMs: 650,
  longestMs: 12_000,
  leastDb: -58,
};

/** What a frame brought; frames are numbered from 0. `last` is the last frame that was speech. */
export type Endpoint =
  { readonly type: 'start'; readonly first: number } | { readonly type: 'end'; readonly first: number; readonly last: number };

/** Frames over which the level of a steady noise shows through: speech dips between its syllables, a machine does not. */
const STEADY_FRAMES = 150;
/** Frames of quiet that make the floor, two seconds. */
const QUIET_FRAMES = 200;
/** Before so many frames nothing is known of the room, and nothing is taken for speech. */
const LEARNING_FRAMES = 30;

/**
 * Finds where speech begins and ends, from the level of each frame of ten milliseconds. The floor is what the frames between
 * utterances lie at, raised to the level under which the sound has not dipped for a second and a half: so a machine that is
 * switched on becomes the floor and not an utterance. State: the recent levels, and the utterance that is open.
 */
export class Endpointer {
  readonly #settings: EndpointSettings;
  readonly #quiet: number[] = [];
  readonly #lately: number[] = [];
  #recent: boolean[] = [];
  #frame = 0;
  #floorDb: number;
  #open: { readonly first: number; last: number; peakDb: number } | null = null;

  /** `floorDb` is given where it is known beforehand, as for a file; otherwise the first third of a second is listened to. */
  constructor(settings: EndpointSettings = ENDPOINTS, floorDb: number | null = null) {
    this.#settings = settings;
    this.#floorDb = floorDb ?? settings.leastDb;
    if (floorDb !== null) {
      this.#quiet.push(floorDb);
      this.#frame = LEARNING_FRAMES;
    }
    this.#start = this.#frame;
  }

  readonly #start: number;

  /** The utterance that is open: its first frame, its last so far that was speech, its loudest; null between utterances. */
  get open(): { readonly first: number; readonly last: number; readonly peakDb: number } | null {
    return this.#open;
  }

  /** The level that the room has when nobody speaks, as far as it is known. */
  get floorDb(): number {
    return this.#floorDb;
  }

  /** Takes the level of the next frame. */
  frame(levelDb: number): Endpoint | null {
    const at = this.#frame - this.#start;
    this.#frame += 1;
    this.#lately.push(levelDb);
    if (this.#lately.length > STEADY_FRAMES) this.#lately.shift();
    if (this.#frame <= LEARNING_FRAMES) {
      this.#hush(levelDb);
      return null;
    }
    if (at % 5 === 0) this.#learn();
    return this.#open === null ? this.#waiting(at, levelDb) : this.#hearing(at, levelDb, this.#open);
  }

  /** Ends what is open, as at the end of a file or where the words say that it is over; null where nobody was speaking. */
  flush(): Endpoint | null {
    const open = this.#open;
    this.#open = null;
    this.#recent = [];
    return open === null ? null : { type: 'end', first: open.first, last: open.last };
  }

  /** Forgets an utterance that is open: the page itself speaks now, say. What is known of the room stays. */
  drop(): void {
    this.flush();
  }

  #waiting(at: number, levelDb: number): Endpoint | null {
    const { onsetDb, onsetFrames, onsetWithin, leastDb } = this.#settings;
    const loud = levelDb > Math.max(leastDb, this.#floorDb + onsetDb);
    this.#recent.push(loud);
    if (this.#recent.length > onsetWithin) this.#recent.shift();
    if (!loud) this.#hush(levelDb);
    if (this.#recent.filter(Boolean).length < onsetFrames) return null;
    const first = at - (this.#recent.length - 1) + this.#recent.indexOf(true);
    this.#open = { first, last: at, peakDb: levelDb };
    this.#recent = [];
    return { type: 'start', first };
  }

  #hearing(at: number, levelDb: number, open: { readonly first: number; last: number; peakDb: number }): Endpoint | null {
    const { keepDb, dropDb, hangoverMs, longestMs, leastDb } = this.#settings;
    open.peakDb = Math.max(levelDb, open.peakDb);
    if (levelDb > Math.max(leastDb, this.#floorDb + keepDb, open.peakDb - dropDb)) open.last = at;
    if ((at - open.last) * 10 < hangoverMs && (at - open.first) * 10 < longestMs) return null;
    this.#open = null;
    return { type: 'end', first: open.first, last: open.last };
  }

  #hush(levelDb: number): void {
    this.#quiet.push(levelDb);
    if (this.#quiet.length > QUIET_FRAMES) this.#quiet.shift();
  }

  #learn(): void {
    const quiet = quantile(this.#quiet, 0.3);
    const steady = this.#lately.length < STEADY_FRAMES ? quiet : quantile(this.#lately, 0.1) - 2;
    // Risen over the quiet that was: the frames kept from before tell nothing any more.
    if (steady > quiet + 6) this.#quiet.splice(0, this.#quiet.length, steady);
    this.#floorDb = Math.max(quiet, steady);
  }
}
