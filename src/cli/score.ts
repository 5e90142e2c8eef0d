import {
  accepts,
  EAR_RATE_HZ,
  EngineFault,
  engineNamed,
  hearSound,
  openEngine,
  wordGraph,
  type EngineModel,
} from '../ear/index.ts';
import { vocabulary } from '../phrasebook/index.ts';
import { InputFault, runCommand } from './fault.ts';
import { assembleModel, packagedManifest } from './modelFiles.ts';
import { withNoise } from './noise/mix.ts';
import { readInput } from './openJob.ts';
import { BENCH_WORDS, benchGrammar } from './scoring/bench-grammar.ts';
import { readScoreManifest, type ScoredLine } from './scoring/manifest.ts';
import { readScoreRequest, type ScoreRequest } from './scoring/request.ts';
import { scoreTable } from './scoring/table.ts';
import { tallies, type Outcome } from './scoring/tally.ts';
import { soundOf } from './wavEar.ts';

async function score(): Promise<void> {
  const request = readScoreRequest(process.argv.slice(2));
  const lines = await readScoreManifest(request.manifest);
  // All are read before any is heard: a bad file is told at once, and not after ten minutes of work.
  const sounds: Float32Array[] = [];
  for (const { wav } of lines) sounds.push(soundOf(wav, await readInput(wav)));
  const outcomes = await hearAll(request, lines, sounds).catch(asInputFault);
  const sums = tallies(outcomes);
  if (request.json) for (const each of sums) process.stdout.write(`${JSON.stringify(each)}\n`);
  else process.stdout.write(`${scoreTable(sums)}\n`);
}

/** An unknown engine is a slip of the caller. */
async function engineFor(name: string | null): Promise<EngineModel> {
  try {
    return engineNamed(await packagedManifest(), name);
  } catch (error) {
    if (error instanceof EngineFault) throw new InputFault(`--engine: ${error.message}`);
    throw error;
  }
}

async function hearAll(
  request: ScoreRequest,
  lines: readonly ScoredLine[],
  sounds: readonly Float32Array[],
): Promise<readonly Outcome[]> {
  const engine = await engineFor(request.engine);
  const { files, model } = await assembleModel(engine, [...vocabulary(), ...BENCH_WORDS]);
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

/** A recogniser that cannot be used is told as one line; anything else is a bug. */
function asInputFault(error: unknown): never {
  if (error instanceof EngineFault) throw new InputFault(`${error.message}; npm ci puts the packaged files back`);
  throw error;
}

await runCommand(score);
