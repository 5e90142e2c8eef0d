/**
 * Writes the sentences that the training speech says: phrases drawn at random from the phrasebook's own grammar, so that every
 * form of a number and every command is in, then talk that is no command. Usage: phrases.ts OUT.txt COUNT SEED [--grouped]
 * With --grouped, for measuring, each line has its group and a tab before it.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { accepts, wordGraph } from '../../src/ear/index.ts';
import { fullGrammar, vocabulary, type GrammarNode } from '../../src/phrasebook/index.ts';

const [out, countText, seedText, mode] = process.argv.slice(2);
const grouped = mode === '--grouped';
if (out === undefined || countText === undefined || seedText === undefined) throw new Error('usage: phrases.ts OUT.tsv COUNT SEED');

let state = Number(seedText) >>> 0;
const random = (): number => {
  state = (state + 0x6d2b79f5) >>> 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};
const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;

const here = (name: string): string[] =>
  readFileSync(new URL(name, import.meta.url), 'utf8').split('\n').map((line) => line.trim()).filter((line) => line !== '' && !line.startsWith('#'));

function say(node: GrammarNode): string[] {
  switch (node.node) {
    case 'word':
      return [node.word];
    case 'sequence':
      return node.items.flatMap(say);
    case 'optional':
      return random() < 0.4 ? say(node.item) : [];
    case 'one-of': {
      const total = node.branches.reduce((sum, branch) => sum + (branch.weight ?? 1), 0);
      let at = random() * total;
      for (const branch of node.branches) {
        at -= branch.weight ?? 1;
        if (at <= 0) return say(branch.item);
      }
      return [];
    }
    case 'rule': {
      const rule = fullGrammar.rules[node.name];
      if (rule === undefined) throw new Error(`no rule <${node.name}>`);
      return say(rule);
    }
  }
}

const talk = here(grouped ? 'talk-held-out.txt' : 'talk.txt');
const words = vocabulary();
const dictionary = readFileSync(new URL('../../node_modules/soundswallower/model/en-us/dict.txt', import.meta.url), 'utf8')
  .split('\n').flatMap((line) => (/^[a-z]{2,9}\s/.test(line) ? [line.split(/\s/)[0] as string] : []));
const several = (most: number, list: readonly string[]): string[] =>
  Array.from({ length: 1 + Math.floor(random() * most) }, () => pick(list));
const rule = (name: string): string[] => say({ node: 'rule', name });

type Group = 'number' | 'command' | 'words' | 'talk' | 'strange';

/** What a machinist says five times of six, else other people's talk or words taken from the dictionary blindly. */
function sentence(): { readonly group: Group; readonly said: string[] } {
  const dice = random();
  if (dice < 0.4) return { group: 'number', said: rule(pick(['number', 'number', 'absolute', 'run', 'pointed', 'temperature', 'step'])) };
  if (dice < 0.68) return { group: 'command', said: say(fullGrammar.root) };
  if (dice < 0.83) return { group: 'words', said: several(3, words) };
  if (dice < 0.92) {
    const line = pick(talk).split(' ');
    const from = Math.floor(random() * Math.max(1, line.length - 3));
    return { group: 'talk', said: line.slice(from, from + 2 + Math.floor(random() * 6)) };
  }
  return { group: 'strange', said: several(4, dictionary) };
}

const lines: string[] = [];
const graph = grouped ? wordGraph(fullGrammar) : null;
while (lines.length < Number(countText)) {
  const { group, said } = sentence();
  if (said.length === 0 || said.length > 12) continue;
  // For measuring: what may be said must be a phrase, and what must be refused must not be one.
  if (graph !== null && (group === 'words' || accepts(graph, said) !== (group === 'number' || group === 'command'))) continue;
  lines.push(`${grouped ? `${group}\t` : ''}${said.join(' ')}`);
}
writeFileSync(out, `${lines.join('\n')}\n`);
