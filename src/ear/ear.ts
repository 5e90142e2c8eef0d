import type { Grammar } from '../phrasebook/index.ts';
import type { EarEvent, ListeningMode } from './ear-event.ts';
import { describeMicrophoneFault } from './microphone-fault.ts';
import type { Microphone } from './microphone.ts';
import type { Personal, Take } from './personal/index.ts';
import { EAR_RATE_HZ } from './resample.ts';
import type { EarSettings, KeptEarSettings } from './settings.ts';
import { writeWav } from './wav.ts';
import type { FromWorker, ToWorker } from './worker-messages.ts';

export type EarOptions = {
  /** Where the built models lie, with a slash at the end, absolute. */
  readonly modelsUrl: string;
  /** An engine of the manifest; its first when not given. */
  readonly engine?: string;
  readonly settings: KeptEarSettings;
};

/** A microphone clip as a WAV file, and how long it is. */
export type Clip = { readonly wav: Uint8Array; readonly seconds: number };

/** The ear of the page: microphone, endpointing and recogniser behind one door. Events come until `close`. */
export interface Ear {
  readonly callName: string;
  readonly settings: EarSettings;
  /** What the browser calls the microphone; null while none is open, or where it does not say. */
  readonly microphone: string | null;
  /** Sets the ear otherwise, at once, and keeps it for the next visit. */
  change(change: Partial<EarSettings>): void;
  /** What is made of the next utterance, which is this phrase of the set-up; null where nothing could be. */
  study(said: string): Promise<Take | null>;
  /** What suits the voice of these takes; null where there are too few. Kept only by `change`. */
  fit(takes: readonly Take[]): Promise<Personal | null>;
  /** Opens the microphone if it is not open, and listens this way. Throws `MicrophoneError`. */
  start(mode: ListeningMode): Promise<void>;
  /** Closes the microphone; the recogniser stays loaded. */
  stop(): void;
  /** The button goes down: hear until `release`, or, after a tap, until the speech ends. */
  hold(): void;
  release(): void;
  setGrammar(grammar: Grammar): void;
  /** While the page speaks; with a headset the ear goes on listening. */
  deaf(deaf: boolean): void;
  /** The last seconds that were heard, or null where nothing was; nothing is kept longer than half a minute. */
  lastSeconds(seconds: number): Promise<Clip | null>;
  onEvent(listener: (event: EarEvent) => void): () => void;
  close(): void;
}

/** Starts the worker and loads the recogniser; resolves once it can hear. A fault while loading rejects with its sentence. */
export async function createEar(options: EarOptions): Promise<Ear> {
  const worker = new Worker(new URL('./ear.worker.ts', import.meta.url), { type: 'module', name: 'ear' });
  const tell = (message: ToWorker, transfer: Transferable[] = []): void => worker.postMessage(message, transfer);
  const listeners = new Set<(event: EarEvent) => void>();
  const clips = new Map<number, (clip: Clip | null) => void>();
  const takes = new Map<number, (take: Take | null) => void>();
  const fits = new Map<number, (personal: Personal | null) => void>();
  let settings = options.settings.read();
  const emit = (event: EarEvent): void => listeners.forEach((listener) => listener(event));

  tell({
    type: 'open',
    modelsUrl: options.modelsUrl,
    engine: options.engine ?? null,
    callName: settings.callName,
    timeOrigin: performance.timeOrigin,
  });
  try {
    await loaded(worker);
  } catch (error) {
    worker.terminate();
    throw error;
  }
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    if (data.type === 'event') emit(data.event);
    if (data.type === 'clip') {
      clips.get(data.id)?.(data.samples.length === 0 ? null : clipOf(data.samples));
      clips.delete(data.id);
    }
    if (data.type === 'studied') {
      takes.get(data.id)?.(data.take);
      takes.delete(data.id);
    }
    if (data.type === 'fitted') {
      fits.get(data.id)?.(data.personal);
      fits.delete(data.id);
    }
  };
  tell({ type: 'adapt', personal: settings.personal });
  worker.onerror = (event) => emit({ type: 'fault', part: 'worker', message: event.message || 'The ear stopped.' });

  let microphone: Microphone | null = null;
  let asked = 0;

  function stop(): void {
    microphone?.close();
    microphone = null;
  }

  return {
    get callName() {
      return settings.callName;
    },
    get settings() {
      return settings;
    },
    get microphone() {
      return microphone?.name ?? null;
    },
    change(change) {
      const before = settings;
      settings = { ...settings, ...change };
      options.settings.write(settings);
      if (settings.callName !== before.callName) tell({ type: 'call-name', callName: settings.callName });
      if (settings.personal !== before.personal) tell({ type: 'adapt', personal: settings.personal });
      if (settings.headset) tell({ type: 'deaf', deaf: false });
      // Opened anew by the next `start`, on the one that was chosen.
      if (settings.microphone !== before.microphone) stop();
    },
    study: (said) =>
      new Promise((resolve) => {
        takes.set((asked += 1), resolve);
        tell({ type: 'study', id: asked, said });
      }),
    fit: (from) =>
      new Promise((resolve) => {
        fits.set((asked += 1), resolve);
        tell({ type: 'fit', id: asked, takes: from });
      }),
    async start(mode) {
      tell({ type: 'mode', mode });
      if (microphone !== null) return;
      const { port1, port2 } = new MessageChannel();
      // Loaded here, so that the ear's door can be opened where there is no audio thread.
      const { openMicrophone } = await import('./microphone.ts');
      const opened = await openMicrophone(port1, () => {
        stop();
        emit({ type: 'fault', part: 'microphone', message: describeMicrophoneFault('lost') });
      }, settings.microphone);
      microphone = opened;
      tell({ type: 'sound', port: port2, rateHz: opened.rateHz }, [port2]);
    },
    stop,
    hold: () => tell({ type: 'hold' }),
    release: () => tell({ type: 'release' }),
    setGrammar: (grammar) => tell({ type: 'grammar', grammar }),
    deaf: (deaf) => tell({ type: 'deaf', deaf: deaf && !settings.headset }),
    lastSeconds: (seconds) =>
      new Promise((resolve) => {
        clips.set((asked += 1), resolve);
        tell({ type: 'clip', id: asked, seconds });
      }),
    onEvent(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close() {
      stop();
      worker.terminate();
      for (const waiting of [clips, takes, fits]) {
        waiting.forEach((resolve) => resolve(null));
        waiting.clear();
      }
      listeners.clear();
    },
  };
}

const clipOf = (samples: Float32Array): Clip => ({
  wav: writeWav({ samples, rateHz: EAR_RATE_HZ }),
  seconds: samples.length / EAR_RATE_HZ,
});

/** Waits for the worker to have the recogniser ready; rejects with what it says is wrong. */
function loaded(worker: Worker): Promise<void> {
  return new Promise((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      if (data.type === 'ready') resolve();
      if (data.type === 'event' && data.event.type === 'fault') reject(new Error(data.event.message));
    };
    worker.onerror = (event) => reject(new Error(event.message || 'The ear could not be started.'));
  });
}
