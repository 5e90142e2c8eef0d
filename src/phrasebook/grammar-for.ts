import type { Context } from '../job/index.ts';
import { assert } from '../measure/index.ts';
import type { Command } from './command.ts';
import { COMMANDS, RULES, SAYS } from './commands.ts';
import { expectedNumbers } from './expected-numbers.ts';
import { inSequence, oneOf, type Branch, type Grammar, type GrammarNode } from './grammar.ts';
import { likelihood } from './likelihood.ts';
import { withRestart } from './restarts.ts';
import { SLOT_RULES } from './read-number.ts';

/** The numbers that are listened for as one: what a command makes of them is the parser's affair. */
const HEARD_AS: Readonly<Record<string, string>> = { size: 'number', small: 'number', signed: 'number' };

/** How the number rules are weighed against what is expected: most readings are near the target or the last one. */
const EXPECTED_WEIGHT = 3;

/** A numbered command's phrasings cut at the number: what comes before it, and what may come after. */
type Cut = { readonly before: readonly GrammarNode[]; readonly after: readonly GrammarNode[] };

function cutsOf(command: Command): Cut[] {
  const says = SAYS.get(command.name);
  assert(says !== undefined && command.takes !== null, `${command.name} takes a number`);
  const rule = SLOT_RULES[command.takes];
  const rows = says.node === 'one-of' ? says.branches.map((branch) => branch.item) : [says];
  return rows.map((row) => {
    assert(row.node === 'sequence', `every phrasing of ${command.name} has words beside its number`);
    const at = row.items.findIndex((item) => item.node === 'rule' && item.name === rule);
    assert(at >= 0, `every phrasing of ${command.name} holds its number`);
    return { before: row.items.slice(0, at), after: row.items.slice(at + 1) };
  });
}

/**
 * Commands that take the same number share it: all that may come before, the number once, all that may come after. It lets
 * through a few sentences that no command has ("took two at the end"); the parser refuses those.
 */
function numberedBranch(rule: string, commands: readonly { readonly command: Command; readonly weight: number }[]): GrammarNode {
  const fronts: Branch[] = [];
  const tails = new Map<string, GrammarNode>();
  let bare = false;
  for (const { command, weight } of commands)
    for (const { before, after } of cutsOf(command)) {
      if (before.length === 0) bare = true;
      else fronts.push({ item: inSequence(before), weight });
      if (after.length > 0) tails.set(JSON.stringify(after), inSequence(after));
    }
  const items: GrammarNode[] = [];
  if (fronts.length > 0) items.push(bare ? { node: 'optional', item: oneOf(fronts) } : oneOf(fronts));
  items.push({ node: 'rule', name: rule });
  if (tails.size > 0) items.push({ node: 'optional', item: oneOf([...tails.values()].map(unwrapped)) });
  return inSequence(items);
}

/** An optional tail inside an optional tail says nothing more. */
const unwrapped = (node: GrammarNode): Branch => ({ item: node.node === 'optional' ? node.item : node });

function build(context: Context | null): Grammar {
  const weightOf = (command: Command): number => (context === null ? 1 : likelihood(command, context));
  const plain = COMMANDS.filter((command) => command.takes === null).map((command): Branch => {
    const item = SAYS.get(command.name);
    assert(item !== undefined, `${command.name} is in the table`);
    return { item, weight: weightOf(command) };
  });
  const byRule = new Map<string, { readonly command: Command; readonly weight: number }[]>();
  for (const command of COMMANDS) {
    if (command.takes === null) continue;
    const rule = HEARD_AS[SLOT_RULES[command.takes]] ?? SLOT_RULES[command.takes];
    byRule.set(rule, [...(byRule.get(rule) ?? []), { command, weight: weightOf(command) }]);
  }
  const numbered = [...byRule].map(
    ([rule, commands]): Branch => ({
      item: numberedBranch(rule, commands),
      weight: Math.max(...commands.map((each) => each.weight)),
    }),
  );
  const expected = context === null ? null : expectedNumbers(context);
  const { number } = RULES;
  assert(number !== undefined, 'the rule <number> is written down');
  const likely =
    expected === null
      ? number
      : oneOf([
          { item: expected, weight: EXPECTED_WEIGHT },
          { item: number, weight: 1 },
        ]);
  const rules = { ...RULES, number: withRestart(likely) };
  const root: GrammarNode = { node: 'one-of', branches: [...plain, ...numbered] };
  return { key: keyOf(context), root, rules: reachable(root, rules) };
}

/** The rules that the root leads to. */
function reachable(root: GrammarNode, rules: Readonly<Record<string, GrammarNode>>): Record<string, GrammarNode> {
  const kept: Record<string, GrammarNode> = {};
  const visit = (node: GrammarNode): void => {
    switch (node.node) {
      case 'word':
        return;
      case 'sequence':
        node.items.forEach(visit);
        return;
      case 'one-of':
        node.branches.forEach((branch) => visit(branch.item));
        return;
      case 'optional':
        visit(node.item);
        return;
      case 'rule': {
        const body = rules[node.name];
        assert(body !== undefined, `rule <${node.name}> is written down`);
        if (kept[node.name] !== undefined) return;
        kept[node.name] = body;
        visit(body);
        return;
      }
    }
  };
  visit(root);
  return kept;
}

/** Differs exactly where the grammar may. */
function keyOf(context: Context | null): string {
  if (context === null) return 'everything';
  const { unit, awaited, asked, window, last } = context;
  return [
    unit,
    awaited ?? 'nothing',
    asked ? 'asked' : 'not-asked',
    window?.low ?? '',
    window?.aim ?? '',
    window?.high ?? '',
    last?.value ?? '',
  ].join(' ');
}

/** All commands alike, for a first compile and for measuring. */
export const fullGrammar: Grammar = build(null);

/** The grammar of this moment: every command can be reached, the likely ones and the numbers near the target weigh more. */
export const grammarFor = (context: Context): Grammar => build(context);
