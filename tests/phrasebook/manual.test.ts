import { readFileSync, writeFileSync } from 'node:fs';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { Conversation, type Turn, type TurnReason } from '../../src/app/index.ts';
import { fail, ok } from '../../src/measure/index.ts';
import { textOfReply } from '../../src/phrasebook/index.ts';
import { readJobFile } from '../../src/shelf/index.ts';

/**
 * The page of the manual on what is asked and refused: each of its commands is run as it stands, in this process, and prints what
 * the page says that it prints. SWARFSIDE_GOLDEN=write writes the page's examples again; read what changed.
 */
const PAGE = new URL('../../docs/manual/asked-and-refused.md', import.meta.url);
const page = readFileSync(PAGE, 'utf8');

type Example = { readonly command: string; readonly printed: string };
const BLOCK = /```console\n([\s\S]*?)```/g;
const examplesIn = (block: string): Example[] =>
  block
    .split(/^\$ /m)
    .slice(1)
    .map((text) => {
      const [command = '', ...printed] = text.trimEnd().split('\n');
      return { command, printed: printed.join('\n') };
    });
const examples = [...page.matchAll(BLOCK)].flatMap(([, block = '']) => examplesIn(block));

const PREFIX = 'npm run rehearse -- ';
const argumentsOf = (command: string): string[] =>
  (command.slice(PREFIX.length).match(/"[^"]*"|\S+/g) ?? []).map((word) => word.replace(/^"|"$/g, ''));

const argv = process.argv;
let run = 0;
/** What the rehearsal prints; the command runs when its module is taken in, so each run takes in a fresh one. */
async function rehearse(command: string): Promise<string> {
  let printed = '';
  process.argv = [argv[0] ?? '', 'rehearse', ...argumentsOf(command)];
  const write = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    printed += String(text);
    return true;
  });
  try {
    run += 1;
    await import(/* @vite-ignore */ `../../src/cli/rehearse.ts?run=${run}`);
  } finally {
    write.mockRestore();
    process.argv = argv;
  }
  return printed.trimEnd();
}

afterEach(() => {
  process.argv = argv;
});

describe('the page on what is asked and refused', () => {
  test.each(examples)('$command', async ({ command, printed }) => {
    expect(command.startsWith(PREFIX)).toBe(true);
    const now = await rehearse(command);
    if (process.env['SWARFSIDE_GOLDEN'] === 'write')
      writeFileSync(
        PAGE,
        readFileSync(PAGE, 'utf8').replace(
          `$ ${command}\n${printed === '' ? '' : `${printed}\n`}`,
          () => `$ ${command}\n${now}\n`,
        ),
      );
    else expect(now).toBe(printed);
  });

  /** Every reason that there is, and where the page shows it: in the terminal, or in words alone. */
  const REASONS = {
    'which-value': 'terminal',
    'bigger-than-it-was': 'terminal',
    'far-from-the-last': 'terminal',
    'contradicts-the-cuts': 'terminal',
    'outside-the-stock': 'terminal',
    'far-from-the-target': 'terminal',
    'under-the-low-limit': 'terminal',
    'past-the-high-limit': 'terminal',
    'hardly-heard': 'words',
    'no-reading-taken': 'terminal',
    'no-reading-in-the-window': 'terminal',
    'no-number': 'terminal',
    'not-a-number-here': 'terminal',
    centimetres: 'terminal',
    vague: 'terminal',
    'finer-than-instrument': 'terminal',
    'no-last-reading': 'terminal',
    'no-target': 'terminal',
    'outside-everything': 'terminal',
    'all-done': 'words',
    'already-first': 'terminal',
    'no-such-step': 'terminal',
    'nothing-awaited': 'terminal',
    'which-mate': 'terminal',
    'nothing-to-scratch': 'terminal',
    'nothing-to-correct': 'terminal',
    'nothing-was-asked': 'terminal',
    'needs-a-verb': 'words',
    'nothing-said': 'terminal',
    'not-a-command': 'terminal',
    'half-a-command': 'terminal',
    'not-heard': 'words',
    'not-stored': 'words',
  } as const satisfies Readonly<Record<TurnReason, 'terminal' | 'words'>>;

  test.each(Object.entries(REASONS))('has a section on %s', (reason, shown) => {
    expect(page).toMatch(new RegExp(`^### .*\`${reason}\``, 'm'));
    const printed = examples.some((example) => example.printed.includes(`(${reason})`));
    expect(printed).toBe(shown === 'terminal');
  });
});

/** What comes of listening and storing, which the terminal does not bring about. */
describe('what is said only at the machine', () => {
  const demo = readJobFile(readFileSync(new URL('../../src/shelf/demos/inch.job.json', import.meta.url), 'utf8'));
  if (!demo.ok) throw new Error('the demo job can be read');
  const file = demo.value;

  let ids = 0;
  const conversation = (how: { readonly bare: boolean; readonly stores: boolean }): Conversation =>
    new Conversation(
      { plan: file.plan, events: [], nextSeq: 1 },
      {
        log: { append: () => Promise.resolve(how.stores ? ok(null as never) : fail({ key: 'full' } as never)), held: () => [] },
        now: () => 1000,
        tick: () => 0,
        newId: () => `event-${(ids += 1)}`,
        bareReadings: () => how.bare,
      },
    );
  const toldOf = (turn: Turn): readonly [TurnReason | null, string] => [turn.reason, textOfReply(turn.reply)];
  const said = (reason: TurnReason, words: string): void => {
    const section = page.split(/^### /m).find((text) => text.split('\n')[0]?.includes(`\`${reason}\``)) ?? '';
    expect(section).toContain(`> ${words}`);
  };
  const goTo = (step: number) => ({ type: 'go-to', step: { as: 'one', value: step } }) as const;

  test('a bare number while everything is listened to', async () => {
    const open = conversation({ bare: false, stores: true });
    await open.press(goTo(8));
    const [reason, words] = toldOf(await open.hear('one oh oh five'));
    expect(reason).toBe('needs-a-verb');
    said('needs-a-verb', words);
  });
  test('what was not heard well enough', async () => {
    const [reason, words] = toldOf(await conversation({ bare: true, stores: true }).notHeard('six twenty'));
    expect(reason).toBe('not-heard');
    said('not-heard', words);
  });
  test('a number that was hardly heard', async () => {
    const open = conversation({ bare: true, stores: true });
    await open.press(goTo(8));
    const [reason, words] = toldOf(await open.hear('reads one oh oh five', 0.5));
    expect(reason).toBe('hardly-heard');
    said('hardly-heard', words);
  });
  test('a store that fails', async () => {
    const open = conversation({ bare: true, stores: false });
    const [reason, words] = toldOf(await open.press({ type: 'touched-off' }));
    expect(reason).toBe('not-stored');
    said('not-stored', words);
  });
  test('a reading when all steps are done', async () => {
    const open = conversation({ bare: true, stores: true });
    for (let step = 0; step < 2 * file.plan.route.operations.length; step += 1) {
      const turn = await open.press({ type: 'skip' });
      if (turn.outcome === 'asked') await open.press({ type: 'yes' });
    }
    const [reason, words] = toldOf(await open.hear('reads six twenty seven'));
    expect(reason).toBe('all-done');
    said('all-done', words);
  });
});
