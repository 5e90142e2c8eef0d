import { parseArgs } from 'node:util';
import { accepts, EAR_RATE_HZ, EngineFault, engineNamed, hearSound, openEngine, wordGraph, type FileEnds } from '../ear/index.ts';
import { vocabulary } from '../phrasebook/index.ts';
import { InputFault, runCommand } from './fault.ts';
import { assembleModel, packagedManifest } from './modelFiles.ts';
import { NOISE_KINDS, type NoiseKind } from './noise/kinds.ts';
import { withNoise, type NoiseWanted } from './noise/mix.ts';
import { readInput } from './openJob.ts';
import { BENCH_WORDS, benchGrammar } from './scoring/bench-grammar.ts';
import { readScoreManifest, type ScoredLine } from './scoring/manifest.ts';
import { scoreTable } from './scoring/table.ts';
import { tallies, type Outcome } from './scoring/tally.ts';
import { soundOf } from './wavEar.ts';

const USAGE = 'score MANIFEST [--engine NAME] [--noise KIND --snr DB --seed N] [--ends whole|by-ear] [--each] [--json]';

type Request = {
  readonly manifest: string;
  readonly engine: string | null;
  readonly noise: NoiseWanted | null;
  readonly ends: FileEnds;
  readonly each: boolean;
  readonly json: boolean;
};

function readRequest(args: readonly string[]): Request {
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
    if (snr !== undefined || seed !== undefined) throw new InputFault(`--snr and --seed go with --noise KIND; the kinds are ${NOISE_KINDS.join(', ')}`);
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

async function score(): Promise<void> {
  const request = readRequest(process.argv.slice(2));
  const lines = await readScoreManifest(request.manifest);
  // All are read before any is heard: a bad file is told at once, and not after ten minutes of work.
  const sounds: Float32Array[] = [];
  for (const { wav } of lines) sounds.push(soundOf(wav, await readInput(wav)));
  const outcomes = await hearAll(request, lines, sounds);
  const sums = tallies(outcomes);
  if (request.json) for (const each of sums) process.stdout.write(`${JSON.stringify(each)}\n`);
  else process.stdout.write(`${scoreTable(sums)}\n`);
}

async function hearAll(request: Request, lines: readonly ScoredLine[], sounds: readonly Float32Array[]): Promise<readonly Outcome[]> {
  const manifest = await packagedManifest();
  const { files, model } = await assembleModel(chosen(() => engineNamed(manifest, request.engine)), [...vocabulary(), ...BENCH_WORDS]);
  const recogniser = await openEngine(model, files);
  const graph = wordGraph(benchGrammar);
  // Compiling happens once for a step of a job and not for each utterance: it is no part of the time for an utterance.
  await recogniser.open(benchGrammar);
  const outcomes: Outcome[] = [];
  for (const [index, { text, group, wav }] of lines.entries()) {
    const clean = sounds[index]!;
    const sound = request.noise === null ? clean : withNoise(clean, request.noise, index);
    const before = performance.now();
    const heard = await hearSound(recogniser, sound, benchGrammar, request.ends);
    const workS = (performance.now() - before) / 1000;
    const accepted = heard.filter((each) => each.accepted);
    // What no grammar holds must be refused, whatever was said.
    const said = text !== '' && accepts(graph, text.split(/\s+/u)) ? text : '';
    const outcome = {
      group,
      said,
      heard: accepted.length === 0 ? null : accepted.map((each) => each.text).join(' '),
      confidence: Math.max(0, ...heard.map((each) => each.confidence)),
      audioS: sound.length / EAR_RATE_HZ,
      workS,
    };
    outcomes.push(outcome);
    if (request.each) process.stderr.write(`${JSON.stringify({ wav, ...outcome })}\n`);
  }
  recogniser.close();
  return outcomes;
}

/** An unknown engine is the caller's slip, not a fault of the recogniser. */
function chosen<T>(choose: () => T): T {
  try {
    return choose();
  } catch (error) {
    if (error instanceof EngineFault) throw new InputFault(`--engine: ${error.message}`);
    throw error;
  }
}

await runCommand(score);
