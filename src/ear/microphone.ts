import captureUrl from './capture.worklet.ts?worker&url';
import { MicrophoneError, type MicrophoneFault } from './microphone-fault.ts';
import { EAR_RATE_HZ } from './resample.ts';

export type Microphone = {
  /** The rate of the samples that go to the port. */
  readonly rateHz: number;
  /** What the browser calls it; empty where it does not say. */
  readonly name: string;
  close(): void;
};

const FAULTS: Readonly<Record<string, MicrophoneFault>> = {
  NotAllowedError: 'refused',
  SecurityError: 'refused',
  NotFoundError: 'none',
  OverconstrainedError: 'none',
  NotReadableError: 'busy',
  AbortError: 'busy',
};

async function openStream(device: string | null): Promise<MediaStream> {
  // Not there at all where the page is not secure, whatever the types say.
  const devices = navigator.mediaDevices as MediaDevices | undefined;
  if (devices === undefined) throw new MicrophoneError('insecure');
  try {
    // The browser's own noise suppression and gain are made for telephony and hurt a recogniser (docs/ear.md).
    return await devices.getUserMedia({
      audio: {
        channelCount: 1,
        echoCancellation: false,
        noiseSuppression: false,
        autoGainControl: false,
        ...(device === null ? {} : { deviceId: { ideal: device } }),
      },
    });
  } catch (cause) {
    throw new MicrophoneError((cause instanceof Error ? FAULTS[cause.name] : undefined) ?? 'unknown', { cause });
  }
}

/** A context at the ear's rate where the browser can connect a microphone to one; else at the device's. */
function contextsToTry(): readonly (() => AudioContext)[] {
  return [
    () => new AudioContext({ sampleRate: EAR_RATE_HZ, latencyHint: 'interactive' }),
    () => new AudioContext({ latencyHint: 'interactive' }),
  ];
}

/**
 * Opens the microphone and leads its samples, mono, to a port. `device` is the browser's id of one, taken where it is
 * there. Throws
 * `MicrophoneError`. `lost` is called when it goes away.
 */
export async function openMicrophone(port: MessagePort, lost: () => void, device: string | null): Promise<Microphone> {
  const stream = await openStream(device);
  let failure: unknown = null;
  for (const open of contextsToTry()) {
    let context: AudioContext | null = null;
    try {
      context = open();
      await context.audioWorklet.addModule(captureUrl);
      const source = context.createMediaStreamSource(stream);
      const capture = new AudioWorkletNode(context, 'swarfside-capture', {
        numberOfInputs: 1,
        numberOfOutputs: 0,
        channelCount: 1,
        channelCountMode: 'explicit',
      });
      capture.port.postMessage(port, [port]);
      source.connect(capture);
      await context.resume();
      return microphoneOver(stream, context, lost);
    } catch (error) {
      // Some browsers refuse to connect a microphone to a context of another rate.
      failure = error;
      await context?.close();
    }
  }
  for (const track of stream.getTracks()) track.stop();
  throw new MicrophoneError('unknown', { cause: failure });
}

function microphoneOver(stream: MediaStream, context: AudioContext, lost: () => void): Microphone {
  for (const track of stream.getTracks()) track.addEventListener('ended', lost);
  return {
    rateHz: context.sampleRate,
    name: stream.getAudioTracks()[0]?.label ?? '',
    close: () => {
      for (const track of stream.getTracks()) {
        track.removeEventListener('ended', lost);
        track.stop();
      }
      void context.close();
    },
  };
}
