import networkRuntimeUrl from 'onnxruntime-web/ort-wasm-simd-threaded.wasm?url';
import { openEngine } from './engines.ts';
import { Listener } from './listener.ts';
import { engineNamed, loadFiles, readManifest } from './manifest.ts';
import { EngineFault } from './recogniser.ts';
import { EAR_RATE_HZ, Resampler } from './resample.ts';
import type { FromWorker, ToWorker } from './worker-messages.ts';

/** The worker's own scope; the page's library of types stands beside it and names it otherwise. */
const scope = self as unknown as {
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
  postMessage(message: FromWorker, transfer?: readonly Transferable[]): void;
};

const tell = (message: FromWorker): void => scope.postMessage(message);

let listener: Listener | null = null;
/** Commands that came before the model was there. */
const early: ToWorker[] = [];

async function fetched(url: string): Promise<Uint8Array<ArrayBuffer>> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`${url} answered ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}

async function open({ modelsUrl, engine, callName, timeOrigin }: ToWorker & { type: 'open' }): Promise<void> {
  let json: unknown;
  try {
    json = JSON.parse(new TextDecoder().decode(await fetched(`${modelsUrl}manifest.json`)));
  } catch (cause) {
    throw new EngineFault('model', 'the list of recogniser files could not be read', { cause });
  }
  const model = engineNamed(readManifest(json), engine);
  const files = await loadFiles(model, (name) => fetched(`${modelsUrl}${model.name}/${name}`));
  const recogniser = await openEngine(model, files, { networkRuntimeUrl: new URL(networkRuntimeUrl, self.location.href).href });
  const ahead = performance.timeOrigin - timeOrigin;
  listener = new Listener({
    recogniser,
    callName,
    now: () => performance.now() + ahead,
    emit: (event) => tell({ type: 'event', event }),
  });
  tell({ type: 'ready' });
  for (const message of early.splice(0)) obey(listener, message);
}

/** Samples at the rate of the device, brought to the ear's. */
function listenTo(port: MessagePort, rateHz: number, to: Listener): void {
  to.restart();
  const resampler = rateHz === EAR_RATE_HZ ? null : new Resampler(rateHz, EAR_RATE_HZ);
  port.onmessage = ({ data }: MessageEvent<Float32Array>) => to.push(resampler === null ? data : resampler.push(data));
}

function obey(to: Listener, message: ToWorker): void {
  switch (message.type) {
    case 'open':
      return;
    case 'sound':
      return listenTo(message.port, message.rateHz, to);
    case 'mode':
      return to.setMode(message.mode);
    case 'grammar':
      return to.setGrammar(message.grammar);
    case 'deaf':
      return to.setDeaf(message.deaf);
    case 'hold':
      return to.hold();
    case 'release':
      return to.release();
    case 'call-name':
      return to.setCallName(message.callName);
    case 'adapt':
      return to.adapt(message.personal);
    case 'study':
      return to.study(message.said, (take) => tell({ type: 'studied', id: message.id, take }));
    case 'fit':
      return tell({ type: 'fitted', id: message.id, personal: to.fit(message.takes) });
    case 'clip':
      return tell({ type: 'clip', id: message.id, samples: to.lastSeconds(message.seconds) });
  }
}

scope.onmessage = ({ data }) => {
  if (data.type === 'open')
    open(data).catch((error: unknown) => {
      const part = error instanceof EngineFault ? error.part : 'model';
      tell({ type: 'event', event: { type: 'fault', part, message: error instanceof Error ? error.message : String(error) } });
    });
  else if (listener === null) early.push(data);
  else obey(listener, data);
};
