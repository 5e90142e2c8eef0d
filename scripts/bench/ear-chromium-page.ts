/** The page side of the ear's benchmark in the browser: the engine as the worker opens it, its sounds sent in from outside. */
import { engineNamed, loadFiles, openEngine, readManifest, type Recogniser } from '../../src/ear/index.ts';
import { grammarFor } from '../../src/phrasebook/index.ts';
import { CONTEXTS, type ContextName } from '../../tests/phrasebook/contexts.ts';

let engine: Recogniser | null = null;

async function fetched(url: string): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await (await fetch(url)).arrayBuffer());
}

const earPage = {
  /** Milliseconds from the first byte asked for to an engine that can hear. */
  async open(): Promise<number> {
    const begun = performance.now();
    const model = engineNamed(readManifest(JSON.parse(new TextDecoder().decode(await fetched('/models/manifest.json')))), null);
    const files = await loadFiles(model, (name) => fetched(`/models/${model.name}/${name}`));
    engine = await openEngine(model, files, { networkRuntimeUrl: new URL('/runtime.wasm', location.href).href });
    return performance.now() - begun;
  },
  /** What is made of 16-bit samples in a moment's grammar, and how long the engine worked once the grammar was there. */
  async hear(samples: readonly number[], context: ContextName): Promise<{ readonly text: string; readonly workMs: number }> {
    if (engine === null) throw new Error('the engine is not open');
    await engine.open(grammarFor(CONTEXTS[context]));
    const begun = performance.now();
    engine.accept(Float32Array.from(samples, (sample) => sample / 32_768));
    const { text } = await engine.finish();
    return { text, workMs: performance.now() - begun };
  },
};
export type EarPage = typeof earPage;

(globalThis as unknown as { earPage: EarPage }).earPage = earPage;
location.hash = 'ready';
