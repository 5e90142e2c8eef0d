import { describe, expect, it } from 'vitest';
import type { Spoken } from '../../src/phrasebook/index.ts';
import {
  createSpeaker, FIRST_SETTINGS, LOUDNESS, offlineVoice, settingsIn, STRETCH, type DeviceVoice, type PlayEnd, type Player,
  type Playing, type VoiceSettings,
} from '../../src/voice/index.ts';

const words = (text: string): Spoken => ({ say: 'words', words: text.split(' ') });
const line = (text: string): Spoken => ({ say: 'line', text });

/** A playing sound that the test ends by hand. */
function playingByHand(at: number | null): Playing & { end(how: PlayEnd): void } {
  let end: (how: PlayEnd) => void = () => undefined;
  const done = new Promise<PlayEnd>((resolve) => (end = resolve));
  return { began: Promise.resolve(at), done, stop: () => end('stopped'), end };
}

function bench({ unlocked = true, mayUnlock = true, device = false } = {}) {
  const log: string[] = [];
  const sounds: ReturnType<typeof playingByHand>[] = [];
  const loudnesses: number[] = [];
  let settle: (() => void)[] = [];
  let kept: VoiceSettings | null = null;
  const state = { unlocked };
  const player: Player = {
    get unlocked() {
      return state.unlocked;
    },
    latencyMs: 40,
    play(sound, loudness) {
      log.push(`play ${Math.round((sound.length * 1000) / 16_000)} ms`);
      loudnesses.push(loudness);
      const playing = playingByHand(1000 + sounds.length);
      sounds.push(playing);
      return playing;
    },
    unlock: () => {
      state.unlocked = mayUnlock;
      return Promise.resolve(mayUnlock);
    },
    close: () => log.push('closed'),
  };
  const voice: DeviceVoice = {
    speak(text) {
      log.push(`device ${text}`);
      const playing = playingByHand(2000);
      sounds.push(playing);
      return playing;
    },
  };
  const speaker = createSpeaker({
    clips: { has: (key) => key === 'six' || key === 'two', sound: () => new Float32Array(1600), longest: 1 },
    player,
    deviceVoice: () => (device ? voice : null),
    kept: { read: () => kept, write: (settings) => (kept = settings) },
    wait: (ms) => {
      log.push(`wait ${ms}`);
      return new Promise((resolve) => settle.push(resolve));
    },
  });
  speaker.onSpeaking((speaking) => log.push(speaking ? 'deaf' : 'hears'));
  const pass = async (): Promise<void> => {
    for (let turn = 0; turn < 20; turn++) await Promise.resolve();
  };
  const quiet = async (): Promise<void> => {
    const waiting = settle;
    settle = [];
    for (const go of waiting) go();
    await pass();
  };
  return { speaker, log, sounds, loudnesses, pass, quiet, kept: () => kept };
}

describe('the speaker', () => {
  it('makes the ear deaf before the first sample and lets it hear after latency and tail', async () => {
    const { speaker, log, sounds, pass, quiet } = bench();
    const answer = speaker.say([words('six')], null);
    await pass();
    expect(log).toEqual(['deaf', 'play 160 ms']);
    sounds[0]!.end('ended');
    await pass();
    // 40 ms of latency and a tail of 120 ms, of which 60 ms are in the sound already.
    expect(log.slice(2)).toEqual(['wait 100']);
    await quiet();
    expect(log.slice(3)).toEqual(['hears']);
    expect(await answer).toEqual({ end: 'spoken', firstSampleAt: 1000, unspoken: [] });
  });

  it('cuts an older answer short for a newer one, and the ear stays deaf between', async () => {
    const { speaker, log, sounds, pass, quiet } = bench();
    const first = speaker.say([words('six')], null);
    await pass();
    const second = speaker.say([words('two')], null);
    await pass();
    expect((await first).end).toBe('cut-short');
    sounds[1]!.end('ended');
    await pass();
    await quiet();
    expect((await second).end).toBe('spoken');
    expect(log.filter((entry) => entry === 'deaf' || entry === 'hears')).toEqual(['deaf', 'hears']);
  });

  it('hushes at once, and the ear hears after latency and tail', async () => {
    const { speaker, log, pass, quiet } = bench();
    const answer = speaker.say([words('six')], null);
    await pass();
    speaker.hush();
    await pass();
    expect((await answer).end).toBe('cut-short');
    expect(speaker.speaking).toBe(true);
    await quiet();
    expect(speaker.speaking).toBe(false);
    expect(log).toEqual(['deaf', 'play 160 ms', 'wait 100', 'hears']);
  });

  it('does nothing when hushed in silence', async () => {
    const { speaker, log, pass } = bench();
    speaker.hush();
    await pass();
    expect(log).toEqual([]);
  });

  it('a failure of the device ends the answer and the deafness', async () => {
    const { speaker, sounds, pass, quiet } = bench();
    const answer = speaker.say([words('six')], null);
    await pass();
    sounds[0]!.end('failed');
    await pass();
    await quiet();
    expect((await answer).end).toBe('failed');
    expect(speaker.speaking).toBe(false);
  });

  it('is locked before a touch, never deaf, and unlocks by itself where the browser lets it', async () => {
    const locked = bench({ unlocked: false, mayUnlock: false });
    expect(await locked.speaker.say([words('six')], 'stored')).toEqual({ end: 'locked', firstSampleAt: null, unspoken: [] });
    expect(locked.log).toEqual([]);
    const opening = bench({ unlocked: false, mayUnlock: true });
    void opening.speaker.say([words('six')], null);
    await opening.pass();
    expect(opening.log).toEqual(['deaf', 'play 160 ms']);
  });

  it('reports what nobody could say, and says the rest', async () => {
    const { speaker, log, sounds, pass, quiet } = bench();
    const answer = speaker.say([words('six'), line('Mind the sump.')], null);
    await pass();
    sounds[0]!.end('ended');
    await pass();
    await quiet();
    expect(await answer).toEqual({ end: 'spoken', firstSampleAt: 1000, unspoken: ['Mind the sump.'] });
    expect(log).toContain('play 160 ms');
  });

  it('has nothing to say, and is not deaf, when nobody could say any of it', async () => {
    const { speaker, log } = bench();
    expect(await speaker.say([line('Mind the sump.')], null)).toEqual({ end: 'nothing', firstSampleAt: null, unspoken: ['Mind the sump.'] });
    expect(log).toEqual([]);
  });

  it('an answer of nothing that replaces a sounding one still ends the deafness', async () => {
    const { speaker, pass, quiet } = bench();
    void speaker.say([words('six')], null);
    await pass();
    await speaker.say([], null);
    await pass();
    await quiet();
    expect(speaker.speaking).toBe(false);
  });

  it('gives free text to the device between the clips, in order', async () => {
    const { speaker, log, sounds, pass, quiet } = bench({ device: true });
    const answer = speaker.say([words('six'), line('Mind the sump.'), words('two')], null);
    await pass();
    for (let part = 0; part < 3; part++) {
      sounds[part]!.end('ended');
      await pass();
    }
    await quiet();
    expect((await answer).end).toBe('spoken');
    // The pause of 45 ms on either side of the device's line belongs to the sounds.
    expect(log.filter((entry) => !entry.startsWith('wait'))).toEqual(['deaf', 'play 205 ms', 'device Mind the sump.', 'play 205 ms', 'hears']);
  });

  it('sounds a tone before the words of its answer in one sound, and alone', async () => {
    const { speaker, log, sounds, pass, quiet } = bench();
    void speaker.say([words('six')], 'heard');
    await pass();
    // 55 ms of tone, 120 ms of silence, 100 ms of clip, 60 ms at the end.
    expect(log).toEqual(['deaf', 'play 335 ms']);
    sounds[0]!.end('ended');
    await pass();
    await quiet();
    void speaker.tone('heard');
    await pass();
    expect(log.at(-1)).toBe('play 115 ms');
  });

  it('keeps louder, quieter and slower, and plays by them', async () => {
    const { speaker, loudnesses, pass, kept } = bench();
    for (let step = 0; step < 10; step++) speaker.louder();
    expect(speaker.settings.loudness).toBe(LOUDNESS.length - 1);
    for (let step = 0; step < 10; step++) speaker.quieter();
    expect(speaker.settings.loudness).toBe(0);
    for (let step = 1; step < STRETCH.length; step++) expect(speaker.slower().pace).toBe(step);
    expect(speaker.slower().pace).toBe(0);
    expect(kept()).toEqual(speaker.settings);
    void speaker.say([words('six')], null);
    await pass();
    expect(loudnesses).toEqual([LOUDNESS[0]]);
  });

  it('closes with the ear hearing', async () => {
    const { speaker, log, pass } = bench();
    void speaker.say([words('six')], null);
    await pass();
    speaker.close();
    expect(log).toEqual(['deaf', 'play 160 ms', 'hears', 'closed']);
  });
});

describe('the device voice', () => {
  const voice = (lang: string, localService: boolean, isDefault = false): SpeechSynthesisVoice => ({
    lang, localService, default: isDefault, name: lang, voiceURI: lang,
  });

  it.each([
    ['never one that sends text away', [voice('en-US', false, true)], null],
    ['never another language', [voice('de-DE', true, true)], null],
    ['the default of the language', [voice('en-US', true), voice('en-GB', true, true)], 'en-GB'],
    ['the same country before another', [voice('en-GB', true), voice('en_US', true)], 'en_US'],
    ['another country rather than none', [voice('en-AU', true)], 'en-AU'],
  ] as const)('%s', (_, voices, expected) => {
    expect(offlineVoice(voices, 'en-US')?.lang ?? null).toBe(expected);
  });
});

describe('kept settings', () => {
  const storageOf = (text: string | null) => ({ getItem: () => text, setItem: () => undefined });

  it.each([null, 'not json', '{}', '{"loudness":99,"pace":0}'])('%s is read as none', (text) => {
    expect(settingsIn(storageOf(text)).read()).toBeNull();
  });

  it('come back as they were written', () => {
    let text: string | null = null;
    const kept = settingsIn({ getItem: () => text, setItem: (_key: string, value: string) => void (text = value) });
    kept.write({ ...FIRST_SETTINGS, pace: 1 });
    expect(kept.read()).toEqual({ ...FIRST_SETTINGS, pace: 1 });
  });

  it('a store that refuses loses the setting, not the answer', () => {
    const kept = settingsIn({
      getItem: () => { throw new Error('forbidden'); },
      setItem: () => { throw new Error('full'); },
    });
    expect(kept.read()).toBeNull();
    expect(() => kept.write(FIRST_SETTINGS)).not.toThrow();
  });
});
