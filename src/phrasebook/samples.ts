import { COMMANDS, RULES, SAYS } from './commands.ts';
import type { GrammarNode } from './grammar.ts';

/** A sentence that the table allows, with the command it belongs to. */
export type Sample = { readonly command: string; readonly sentence: string };

/** Every way of saying a node, up to `most`; rules are filled by `fill`. */
function* sayings(node: GrammarNode, fill: (rule: string) => readonly string[]): Generator<string> {
  switch (node.node) {
    case 'word':
      yield node.word;
      return;
    case 'rule':
      yield* fill(node.name);
      return;
    case 'optional':
      yield '';
      yield* sayings(node.item, fill);
      return;
    case 'one-of':
      for (const branch of node.branches) yield* sayings(branch.item, fill);
      return;
    case 'sequence': {
      const [first, ...rest] = node.items;
      if (first === undefined) {
        yield '';
        return;
      }
      for (const front of sayings(first, fill))
        for (const back of sayings({ node: 'sequence', items: rest }, fill)) yield `${front} ${back}`.trim().replace(/\s+/g, ' ');
    }
  }
}

/** Sentences of the command table, each different: at most `most` for a command, with `numbers` where a number stands. */
export function samples(most: number, numbers: Readonly<Record<string, readonly string[]>>): readonly Sample[] {
  return COMMANDS.flatMap((command) => {
    const says = SAYS.get(command.name);
    const found = new Set<string>(command.examples);
    const fill = (rule: string): readonly string[] => {
      const given = numbers[rule];
      if (given !== undefined) return given;
      const body = RULES[rule];
      return body === undefined ? [] : [...sayings(body, fill)];
    };
    if (says !== undefined)
      for (const sentence of sayings(says, fill)) {
        if (found.size >= most) break;
        if (sentence !== '') found.add(sentence);
      }
    return [...found].map((sentence) => ({ command: command.name, sentence }));
  });
}
