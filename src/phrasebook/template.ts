import { assert } from '../measure/index.ts';
import type { GrammarNode } from './grammar.ts';

const TOKEN = /<[a-z-]+>|[a-z][a-z']*|[()[\]|!]/g;

/**
 * The notation in which every phrase and every number is written down: words, `[optional]`, `[optional]!` for what is never left
 * out where it is there, `(one | other)`, `|` between whole phrasings, `<rule>` for a rule by name. For example
 * `what size [is it | do i want]`. Throws on a template that is not one: our bug.
 */
export function template(text: string): GrammarNode {
  assert(text.replaceAll(TOKEN, '').trim() === '', `a template holds words, rules and ()[]| only: ${text}`);
  const tokens = text.match(TOKEN) ?? [];
  let at = 0;

  function alternatives(closing: string | null): GrammarNode {
    const branches: GrammarNode[] = [sequence()];
    while (tokens[at] === '|') {
      at += 1;
      branches.push(sequence());
    }
    assert((tokens[at] ?? null) === closing, `brackets pair up in "${text}"`);
    at += 1;
    const [only] = branches;
    return branches.length === 1 && only !== undefined ? only : { node: 'one-of', branches: branches.map((item) => ({ item })) };
  }

  function sequence(): GrammarNode {
    const items: GrammarNode[] = [];
    for (let token = tokens[at]; token !== undefined && token !== '|' && token !== ')' && token !== ']'; token = tokens[at]) {
      at += 1;
      if (token === '(') items.push(alternatives(')'));
      else if (token === '[') {
        const item = alternatives(']');
        const greedy = tokens[at] === '!';
        if (greedy) at += 1;
        items.push(greedy ? { node: 'optional', item, greedy } : { node: 'optional', item });
      } else if (token.startsWith('<')) items.push({ node: 'rule', name: token.slice(1, -1) });
      else items.push({ node: 'word', word: token });
    }
    assert(items.length > 0, `every branch says something in "${text}"`);
    const [only] = items;
    return items.length === 1 && only !== undefined ? only : { node: 'sequence', items };
  }

  return alternatives(null);
}
