export type { Grammar, GrammarNode } from './grammar.ts';
export type { Spoken } from './spoken.ts';
