import type { Verdict } from './meaning.ts';

/** What one engine made of one utterance under one condition. `heard` is what it accepted, `text` what it took it for. */
export type BenchRow = {
  readonly engine: string;
  readonly condition: string;
  readonly noise: string | null;
  readonly group: string;
  readonly said: string;
  readonly heard: string | null;
  readonly text: string;
  readonly confidence: number;
  readonly verdict: Verdict | null;
  readonly audioS: number;
  /** By the clock, and of the processor alone, which other work on the machine lengthens little. */
  readonly workMs: number;
  readonly processorMs: number;
};
