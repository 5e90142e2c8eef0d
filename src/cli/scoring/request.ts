import { parseArgs } from 'node:util';
import type { FileEnds } from '../../ear/index.ts';
import { InputFault } from '../fault.ts';
import { NOISE_KINDS, type NoiseKind } from '../noise/kinds.ts';
import type { NoiseWanted } from '../noise/mix.ts';

const USAGE = 'score MANIFEST [--engine NAME] [--noise KIND --snr DB --seed N] [--ends whole|by-ear] [--each] [--json]';

/** What the command line asks for. */
export type ScoreRequest = {
  readonly manifest: string;
  readonly engine: string | null;
  readonly noise: NoiseWanted | null;
  readonly ends: FileEnds;
  readonly each: boolean;
  readonly json: boolean;
};

/** Reads the command line; what is wrong with it is an `InputFault`. */
export function readScoreRequest(args: readonly string[]): ScoreRequest {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        engine: { type: 'string' },
        noise: { type: 'string' },
        snr: { type: 'string' },
        seed: { type: 'string' },
        ends: { type: 'string' },
        each: { type: 'boolean' },
        json: { type: 'boolean' },
      },
    });
  } catch (error) {
    throw new InputFault(`${error instanceof Error ? error.message.replace(/\s+/g, ' ') : String(error)} Usage: ${USAGE}`);
  }
  const { values, positionals } = parsed;
  const [manifest, extra] = positionals;
  if (manifest === undefined) throw new InputFault(`Name a manifest of JSON lines. Usage: ${USAGE}`);
  if (extra !== undefined) throw new InputFault(`"${extra}" stands alone; one manifest is scored at a time. Usage: ${USAGE}`);
  const ends = values.ends ?? 'whole';
  if (ends !== 'whole' && ends !== 'by-ear') throw new InputFault(`--ends ${ends}: it is whole or by-ear`);
  return {
    manifest,
    engine: values.engine ?? null,
    noise: noiseWanted(values.noise, values.snr, values.seed),
    ends,
    each: values.each ?? false,
    json: values.json ?? false,
  };
}

function noiseWanted(kind: string | undefined, snr: string | undefined, seed: string | undefined): NoiseWanted | null {
  if (kind === undefined) {
    if (snr !== undefined || seed !== undefined)
      throw new InputFault(`--snr and --seed go with --noise KIND; the kinds are ${NOISE_KINDS.join(', ')}`);
    return null;
  }
  const known = NOISE_KINDS.find((each): each is NoiseKind => each === kind);
  if (known === undefined) throw new InputFault(`--noise ${kind}: no noise is called that; there are ${NOISE_KINDS.join(', ')}`);
  if (snr === undefined) throw new InputFault('--noise needs --snr DB, the level of the speech over the noise in decibels');
  return { kind: known, snrDb: numberFrom('--snr', snr), seed: seed === undefined ? 1 : numberFrom('--seed', seed) };
}

function numberFrom(option: string, text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value)) throw new InputFault(`${option} ${text}: this is not a number`);
  return value;
}
