import { z } from 'zod';
import { EngineFault } from './recogniser.ts';

const Sha256 = z.string().regex(/^[0-9a-f]{64}$/u, 'sixty-four hexadecimal digits');

/**
 * One file of an engine. `from` is where the build finds it, in an installed package or, without one, under models/; `made`
 * is how the build makes it. A built page has neither.
 */
const ModelFile = z.strictObject({
  name: z.string().min(1),
  bytes: z.int().positive(),
  sha256: Sha256,
  from: z.strictObject({ package: z.string().optional(), path: z.string() }).optional(),
  made: z.literal('cut to the vocabulary').optional(),
});

const EngineModel = z.strictObject({
  name: z.string().min(1),
  engine: z.enum(['soundswallower', 'swarfnet']),
  engineVersion: z.string(),
  language: z.string(),
  licence: z.string(),
  source: z.string(),
  files: z.array(ModelFile).min(1),
});

/** What the ear is made of: `models/manifest.json`, and the same as built for the page. The first engine is the default. */
export const ModelManifest = z.strictObject({ version: z.literal(1), engines: z.array(EngineModel).min(1) });
export type ModelManifest = z.infer<typeof ModelManifest>;
export type EngineModel = z.infer<typeof EngineModel>;
export type ModelFile = z.infer<typeof ModelFile>;

/** The files of one engine by name, each already held against the manifest. */
export type ModelFiles = ReadonlyMap<string, Uint8Array>;

/** Reads a manifest; a damaged one is an `EngineFault` of the model that says where. */
export function readManifest(json: unknown): ModelManifest {
  const read = ModelManifest.safeParse(json);
  if (read.success) return read.data;
  const [first] = read.error.issues;
  const at = first?.path.join('.') ?? '';
  throw new EngineFault('model', `the list of recogniser files is damaged at "${at}": ${first?.message ?? 'unknown'}`);
}

/** The engine of this name, or the first; an unknown name is an `EngineFault` that lists those that exist. */
export function engineNamed(manifest: ModelManifest, name: string | null): EngineModel {
  const found = name === null ? manifest.engines[0] : manifest.engines.find((engine) => engine.name === name);
  if (found !== undefined) return found;
  const names = manifest.engines.map((engine) => engine.name).join(', ');
  throw new EngineFault('model', `no recogniser is called "${name ?? ''}"; there are: ${names}`);
}

export async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/**
 * Fetches an engine's files and holds each against the manifest; a file that is absent, short or changed is an `EngineFault`,
 * and nothing of it is used.
 */
export async function loadFiles(
  model: EngineModel,
  fetchFile: (name: string) => Promise<Uint8Array<ArrayBuffer>>,
): Promise<ModelFiles> {
  const entries = await Promise.all(
    model.files.map(async (file): Promise<[string, Uint8Array]> => {
      let bytes: Uint8Array<ArrayBuffer>;
      try {
        bytes = await fetchFile(file.name);
      } catch (cause) {
        throw new EngineFault('model', `the recogniser's file "${file.name}" could not be read`, { cause });
      }
      if (bytes.length !== file.bytes)
        throw new EngineFault(
          'model',
          `the recogniser's file "${file.name}" has ${bytes.length} bytes and should have ${file.bytes}`,
        );
      const sum = await sha256(bytes);
      if (sum !== file.sha256)
        throw new EngineFault('model', `the recogniser's file "${file.name}" is not the one of the manifest (sha256 ${sum})`);
      return [file.name, bytes];
    }),
  );
  return new Map(entries);
}
