import type { PageEar, VoicePort } from '../../src/app/index.ts';
import { FIRST_EAR_SETTINGS, type Ear, type EarEvent, type EarSettings } from '../../src/ear/index.ts';
import type { Context } from '../../src/job/index.ts';
import { grammarFor, type Grammar } from '../../src/phrasebook/index.ts';

/** An ear that hears what the test says, and remembers what was asked of it. */
export class TestEar implements PageEar {
  callName = 'name';
  settings: EarSettings = FIRST_EAR_SETTINGS;
  microphone = null;
  study = (): Promise<null> => Promise.resolve(null);
  fit = (): Promise<null> => Promise.resolve(null);
  change(change: Partial<EarSettings>): void {
    this.settings = { ...this.settings, ...change };
  }
  started: string | null = null;
  isDeaf = false;
  grammars: Grammar[] = [];
  closed = false;
  readonly #listeners = new Set<(event: EarEvent) => void>();
  start(mode: string): Promise<void> {
    this.started = mode;
    return Promise.resolve();
  }
  stop(): void {
    this.started = null;
  }
  hold(): void {}
  release(): void {}
  setGrammar(grammar: Grammar): void {
    this.grammars.push(grammar);
  }
  listenFor(context: Context): void {
    this.setGrammar(grammarFor(context));
  }
  deaf(deaf: boolean): void {
    this.isDeaf = deaf;
  }
  lastSeconds(seconds: number): ReturnType<Ear['lastSeconds']> {
    return Promise.resolve({ wav: new Uint8Array([1, 2, 3]), seconds });
  }
  onEvent(listener: (event: EarEvent) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }
  close(): void {
    this.closed = true;
  }
  tell(event: EarEvent): void {
    this.#listeners.forEach((listener) => listener(event));
  }
  says(text: string, accepted = true): void {
    const hypothesis = {
      words: [],
      text,
      confidence: accepted ? 0.99 : 0.2,
      accepted,
      reason: accepted ? null : 'unsure',
      fillerScore: 0,
      alternatives: [],
    } as const;
    this.tell({ type: 'hypothesis', hypothesis, times: { endOfSpeechAt: 0, endpointMs: 300, recogniserMs: 5 } });
  }
}

/** A voice that remembers what it was to say. */
export class TestVoice implements VoicePort {
  volume = 0.5;
  settings = { loudness: 4, pace: 0 };
  set(settings: { loudness: number; pace: number }): void {
    this.settings = settings;
  }
  trouble = null;
  said: string[] = [];
  hushed = 0;
  #listener: (speaking: boolean) => void = () => undefined;
  say(spoken: Parameters<VoicePort['say']>[0]): Promise<{ readonly firstSampleAt: number | null }> {
    this.said.push(
      spoken.map((each) => (each.say === 'words' ? each.words.join(' ') : each.say === 'line' ? each.text : '.')).join(' '),
    );
    return Promise.resolve({ firstSampleAt: 10 });
  }
  hush(): void {
    this.hushed += 1;
  }
  louder(): number {
    return (this.volume = 0.7);
  }
  quieter(): number {
    return (this.volume = 0.3);
  }
  slower(): void {}
  unlock(): Promise<boolean> {
    return Promise.resolve(true);
  }
  onSpeaking(listener: (speaking: boolean) => void): () => void {
    this.#listener = listener;
    return () => undefined;
  }
  tell(speaking: boolean): void {
    this.#listener(speaking);
  }
}
