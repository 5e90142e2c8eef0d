import type { Context, Heard, Intent, NumberSlot, Thing } from '../job/index.ts';
import { assert, fail, ok, type InstrumentKind, type Length, type Result } from '../measure/index.ts';
import type { Candidate } from './candidate.ts';
import type { Command, Found } from './command.ts';
import { COMMANDS, RULES, SAYS } from './commands.ts';
import type { GrammarNode } from './grammar.ts';
import { candidatesOf, readNumber, SLOT_RULES } from './read-number.ts';
import { resolveCount, resolveLength, resolveStep, resolveTemperature } from './resolve.ts';
import { RESTARTS } from './restarts.ts';
import { wordsOf } from './spellings.ts';
import { Walker, type Tree } from './walk.ts';

/** Why words gave no command. A number that was not understood is no such case: its command is there, with the reason in it. */
export type ParseRefusal =
  | 'nothing-said' // no words, or only hesitation
  | 'not-a-command' // the words are not in the table: talk that is not for the page
  | 'half-a-command'; // they begin a command and stop short

/** The command that was meant, or why there is none, with the words as they were taken. */
export type Interpretation = Result<Intent, { readonly key: ParseRefusal; readonly words: string }>;

const NUMBER_RULE_NAMES: ReadonlySet<string> = new Set(Object.values(SLOT_RULES));
const COMMAND = 'command-';
const byName = new Map(COMMANDS.map((command) => [command.name, command]));
const walker = new Walker({ ...RULES, ...Object.fromEntries([...SAYS].map(([name, node]) => [COMMAND + name, node])) });
const anyCommand: GrammarNode = {
  node: 'one-of',
  branches: COMMANDS.map((command) => ({ item: { node: 'rule', name: COMMAND + command.name } })),
};

/** One command as the words may be taken, with all the readings of its number. */
type Taken = {
  readonly command: Command;
  readonly rules: ReadonlyMap<string, string>;
  readonly numberSpan: readonly [number, number] | null;
  readonly number: { readonly slot: NumberSlot; readonly candidates: Candidate[] } | null;
};

/** Reads words as a command, in the light of what is awaited. Never throws on any words. */
export function interpret(text: string, context: Context): Interpretation {
  return interpretWords(wordsOf(text), context);
}

/** The same for words that are settled already. */
export function interpretWords(words: readonly string[], context: Context): Interpretation {
  const refused = (key: ParseRefusal): Interpretation => fail({ key, words: words.join(' ') });
  if (words.length === 0) return refused('nothing-said');
  const { taken, half } = take(words, context);
  const intent = best(taken, context) ?? restarted(words, context);
  if (intent !== null) return ok(intent);
  return refused(half ? 'half-a-command' : 'not-a-command');
}

/** Every command that the words may be, one for each way in which what surrounds the number can be taken. */
function take(words: readonly string[], context: Context): { readonly taken: readonly Taken[]; readonly half: boolean } {
  const { ways, half } = walker.walk(anyCommand, words);
  const found = new Map<string, Taken>();
  for (const [top] of ways) {
    assert(top !== undefined, 'a sentence is one command');
    const command = byName.get(top.rule.slice(COMMAND.length));
    assert(command !== undefined, `<${top.rule}> is a command`);
    const rules = new Map<string, string>();
    let number: Tree | null = null;
    for (const child of top.children) {
      if (NUMBER_RULE_NAMES.has(child.rule)) number = child;
      else rules.set(child.rule, words.slice(child.from, child.to).join(' '));
    }
    const key = `${command.name} ${number?.from ?? ''}-${number?.to ?? ''} ${[...rules].flat().join('/')}`;
    const known = found.get(key);
    if (number === null || command.takes === null) {
      if (known === undefined) found.set(key, { command, rules, numberSpan: null, number: null });
      continue;
    }
    const slot = slotHere(command.takes, rules, context);
    const said = words.slice(number.from, number.to);
    const candidates =
      slot === command.takes ? candidatesOf(words, number, slot, context.unit) : readNumber(said, slot, context.unit);
    if (known?.number === undefined || known.number === null)
      found.set(key, { command, rules, numberSpan: [number.from, number.to], number: { slot, candidates } });
    else known.number.candidates.push(...candidates);
  }
  return { taken: [...found.values()], half };
}

/** A reading of an indicator is counted like an indicator: in thou or hundredths, with its sign. */
const slotHere = (slot: NumberSlot, rules: ReadonlyMap<string, string>, context: Context): NumberSlot =>
  slot === 'size' && context.awaited === 'indicator' && !rules.has('thing') ? 'indicator' : slot;

const numberOf = (intent: Intent): Heard<unknown> | null =>
  'value' in intent ? intent.value : 'step' in intent ? intent.step : null;

/** A command without a number before one with; of those, one whose number makes sense before one whose does not. */
function best(taken: readonly Taken[], context: Context): Intent | null {
  const plain = taken.find((each) => each.number === null);
  if (plain !== undefined) return intentOf(plain, context);
  const intents = taken.map((each) => intentOf(each, context));
  return (
    intents.find((intent) => numberOf(intent)?.as === 'one') ??
    intents.find((intent) => numberOf(intent)?.as === 'either') ??
    intents[0] ??
    null
  );
}

function intentOf({ command, rules, number }: Taken, context: Context): Intent {
  if (command.takes === null) return command.make();
  assert(number !== null, `${command.name} has its number`);
  const { slot, candidates } = number;
  const words = (rule: string): string | null => rules.get(rule) ?? null;
  const length = (): Heard<Length> => {
    // The command first without its number, to learn what it names: another thing has another window.
    const named = command.make({ ...found, length: () => ({ as: 'none', reason: 'no-number' }) });
    const seen = named.type === 'reading' ? contextFor(context, named.thing, named.instrument) : context;
    return resolveLength(candidates, slot, seen);
  };
  const found: Found = {
    words,
    length,
    temperature: () => resolveTemperature(candidates, context),
    step: () => resolveStep(candidates, context),
    count: () => resolveCount(candidates),
  };
  return command.make(found);
}

/** The context of a reading that names its thing or its instrument: of another thing, neither window nor last is known. */
export function contextFor(context: Context, thing: Thing | null, instrument: InstrumentKind | null): Context {
  const quantity = thing === 'shoulder' ? 'length' : thing;
  const seen =
    quantity === null || quantity === context.awaited
      ? context
      : { ...context, awaited: quantity, window: null, from: null, last: null, largest: null };
  return instrument === null ? seen : { ...seen, instrument };
}

const MARKS: readonly (readonly string[])[] = RESTARTS.map(({ words }) => words.split(' '));

/** A number that is started again: "reads six twenty, no, six twenty seven" is the second one under the first verb. */
function restarted(words: readonly string[], context: Context): Intent | null {
  for (let at = words.length - 2; at >= 1; at -= 1) {
    const mark = MARKS.find((each) => each.every((word, index) => words[at + index] === word));
    if (mark === undefined) continue;
    const again = words.slice(at + mark.length);
    const before = words.slice(0, at);
    for (const { command, numberSpan } of take(before, context).taken) {
      if (numberSpan === null) continue;
      const mended = [...before.slice(0, numberSpan[0]), ...again, ...before.slice(numberSpan[1])];
      const same = take(mended, context).taken.filter((each) => each.command === command);
      const intent = best(same, context);
      if (intent !== null) return intent;
    }
  }
  return null;
}
