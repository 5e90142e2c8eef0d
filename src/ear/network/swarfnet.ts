import type { Grammar } from '../../phrasebook/index.ts';
import { cachedWordGraph } from '../graph-cache.ts';
import type { Pronunciations } from '../lexicon.ts';
import { EngineFault, type Hypothesis, type Recogniser } from '../recogniser.ts';
import { WARPS, type Personal, type View } from '../personal/index.ts';
import { ACCEPT_FROM, isUnsettled, judge, judgeTogether, oddsOf, SEARCH, type Judged } from './judge.ts';
import { frameLevels, quantile } from '../level.ts';
import { EAR_RATE_HZ } from '../resample.ts';
import { FRAME_S, logMels, melFrames, withQuietEnds } from './mel.ts';
import { phoneGraph, type PhoneGraph } from './phone-graph.ts';
import { bestPath, type PhoneScores } from './viterbi.ts';
import { openPhoneNet, type PhoneNet } from './phone-net.ts';

/** Phone graphs kept by the key of their grammar: the steps of a job go to and fro between a few. */
const KEPT_GRAPHS = 6;

/** Frames of quiet set before and after an utterance. */
const QUIET_FRAMES = 24;

/**
 * Shifts of the bands, beside the person's own, at which an unclear sound is heard again: it may be a voice unlike those of the
 * training.
 */
const OTHER_VIEWS = [1.1, 0.9] as const;

export type SwarfnetFiles = {
  /** The network, as models/swarfnet/swarfnet.onnx. */
  readonly model: Uint8Array;
  readonly pronunciations: Pronunciations;
  /** Where onnxruntime-web's WebAssembly lies; null in Node. */
  readonly wasmUrl: string | null;
  /** At which other shifts an unclear sound is heard again; none where the first view itself is to be measured. */
  readonly otherViews?: readonly number[];
};

/**
 * The project's own recogniser: a small network hears phones, the grammar's phrases are laid over them. An utterance is decoded
 * whole at its end. A new vocabulary needs pronunciations and no training.
 */
export async function openSwarfnet({ model, pronunciations, wasmUrl, otherViews }: SwarfnetFiles): Promise<Recogniser> {
  return swarfnetOn(await openPhoneNet(model, { wasmUrl }), pronunciations, otherViews);
}

/** The recogniser on a network that is already there. */
export function swarfnetOn(
  net: PhoneNet,
  pronunciations: Pronunciations,
  otherViews: readonly number[] = OTHER_VIEWS,
): Recogniser {
  const graphs = new Map<string, PhoneGraph>();
  let graph: PhoneGraph | null = null;
  let heard: Float32Array[] = [];
  let personal: Personal | null = null;

  const hear = (samples: Float32Array, warp: number): Promise<PhoneScores> =>
    net.hear(withQuietEnds(logMels(samples, warp), QUIET_FRAMES));

  function graphFor(grammar: Grammar): PhoneGraph {
    const made = graphs.get(grammar.key) ?? phoneGraph(cachedWordGraph(grammar), pronunciations);
    // Set again at the end of the map, so that the one longest unused is the first.
    graphs.delete(grammar.key);
    graphs.set(grammar.key, made);
    for (const oldest of graphs.keys()) {
      if (graphs.size <= KEPT_GRAPHS) break;
      graphs.delete(oldest);
    }
    return made;
  }

  return {
    name: 'swarfnet',
    open(grammar) {
      return new Promise((resolve) => {
        graph = graphFor(grammar);
        heard = [];
        resolve();
      });
    },
    accept(samples) {
      if (graph === null) throw new EngineFault('decoder', 'sound came before an utterance was opened');
      heard.push(samples);
    },
    async finish(): Promise<Hypothesis> {
      if (graph === null) throw new EngineFault('decoder', 'an utterance was finished that was not opened');
      const [within, samples] = [graph, joined(heard)];
      graph = null;
      heard = [];
      if (melFrames(samples.length) === 0) return judge(within, null, 0);
      const { warp, bias } = personal ?? { warp: 1, bias: 0 };
      const view = async (shift: number): Promise<Judged> =>
        judge(within, await hear(samples, warp * shift), QUIET_FRAMES * FRAME_S, bias);
      const first = await view(1);
      const clear = standsClear(samples);
      if (otherViews.length === 0 || !isUnsettled(first, clear)) return first;
      const others: Judged[] = [];
      for (const shift of otherViews) others.push(await view(shift));
      return judgeTogether(first, others, clear, bias);
    },
    adapt(to) {
      personal = to;
    },
    acceptOdds: Math.log(ACCEPT_FROM / (1 - ACCEPT_FROM)),
    async study(samples, said, grammar) {
      const [whole, only] = [graphFor(grammar), graphFor(phraseGrammar(said))];
      const views: View[] = [];
      let plain = '';
      if (melFrames(samples.length) > 0)
        for (const warp of WARPS) {
          const scores = await hear(samples, warp);
          const { text, evidence } = judge(whole, scores, 0);
          const fits = (bestPath(only, scores, SEARCH)?.score ?? -Infinity) / scores.steps;
          if (warp === 1) plain = text;
          const odds = evidence === null ? WORST_ODDS : oddsOf(evidence);
          views.push({ warp, fits: Math.max(fits, WORST_FIT), right: text === said, odds });
        }
      return { heard: plain, views };
    },
    close() {
      graph = null;
      heard = [];
      void net.close();
    },
  };
}

/** A voice that stands out of the room by so much is in a shop whose machines rest. */
const CLEAR_DB = 28;

/** Whether the loud twentieth of the frames stands out of the quiet tenth. */
function standsClear(samples: Float32Array): boolean {
  const levels = frameLevels(samples, EAR_RATE_HZ);
  return quantile(levels, 0.95) - quantile(levels, 0.1) >= CLEAR_DB;
}

/** Stand for a phrase that cannot be laid over the sound at all. */
const WORST_FIT = -10;
const WORST_ODDS = -20;

const phraseGrammar = (said: string): Grammar => ({
  key: `only ${said}`,
  root: { node: 'sequence', items: said.split(' ').map((word) => ({ node: 'word', word })) },
  rules: {},
});

function joined(pieces: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
