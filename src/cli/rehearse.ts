import { parseArgs } from 'node:util';
import { randomUUID } from 'node:crypto';
import { Conversation, type Turn } from '../app/index.ts';
import { inOrder, glance, openOperation, progressOf, type JobState, type Plan } from '../job/index.ts';
import { parseLength, thou, type Length } from '../measure/index.ts';
import { grammarFor, textOfReply } from '../phrasebook/index.ts';
import { memoryShelf, openLog } from '../shelf/index.ts';
import { InputFault, runCommand } from './fault.ts';
import { openJob, readInput } from './openJob.ts';
import { openEar, type Heard } from './wavEar.ts';

const USAGE = 'rehearse JOB [--wav FILE]… [--say "WORDS"]… [--at OPERATION] [--expect SIZE] [--json]';

type Utterance = { readonly source: 'say'; readonly words: string } | { readonly source: 'wav'; readonly path: string };
type Request = {
  readonly job: string;
  readonly utterances: readonly Utterance[];
  readonly at: string | null;
  readonly expect: { readonly size: Length; readonly unit: 'inch' | 'millimetre' } | null;
  readonly json: boolean;
};

/** The command line, with the utterances in the order they were given. */
function readRequest(args: readonly string[]): Request {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      tokens: true,
      options: {
        wav: { type: 'string', multiple: true },
        say: { type: 'string', multiple: true },
        at: { type: 'string' },
        expect: { type: 'string' },
        json: { type: 'boolean' },
      },
    });
  } catch (error) {
    throw new InputFault(`${error instanceof Error ? error.message.replace(/\s+/g, ' ') : String(error)} Usage: ${USAGE}`);
  }
  const [job, extra] = parsed.positionals;
  if (job === undefined) throw new InputFault(`Name a job: a file, demo:inch or demo:metric. Usage: ${USAGE}`);
  if (extra !== undefined) throw new InputFault(`"${extra}" stands alone; put --say or --wav before it. Usage: ${USAGE}`);
  const utterances: Utterance[] = [];
  for (const token of parsed.tokens) {
    if (token.kind !== 'option' || token.value === undefined) continue;
    if (token.name === 'say') utterances.push({ source: 'say', words: token.value });
    if (token.name === 'wav') utterances.push({ source: 'wav', path: token.value });
  }
  return {
    job,
    utterances,
    at: parsed.values.at ?? null,
    expect: readExpected(parsed.values.expect ?? null),
    json: parsed.values.json ?? false,
  };
}

function readExpected(text: string | null): Request['expect'] {
  if (text === null) return null;
  const unit = /mm\s*$/i.test(text) ? 'millimetre' : 'inch';
  const size = parseLength(text, unit);
  if (!size.ok || !/(in|mm|")\s*$/i.test(text))
    throw new InputFault(`--expect ${text}: not a size with its unit; write it as 0.6250in or 19.05mm`);
  return { size: size.value, unit };
}

/** The operation named by its id or its step number. */
function operationNamed(plan: Plan, name: string): string {
  const operations = plan.route.operations;
  const found = /^\d+$/.test(name) ? operations[Number(name) - 1] : operations.find((operation) => operation.id === name);
  if (found === undefined)
    throw new InputFault(
      `--at ${name}: no such operation; give a step from 1 to ${operations.length} or an id such as ${operations[0]?.id}`,
    );
  return found.id;
}

/** The plan with the size of one operation replaced by a diameter of ±.002 in about what is to be awaited. */
function expecting(plan: Plan, operation: string, expected: NonNullable<Request['expect']>): Plan {
  const half = thou(2);
  const target = {
    quantity: 'diameter' as const,
    low: (expected.size - half) as Length,
    high: (expected.size + half) as Length,
    aim: expected.size,
    from: null,
    datum: null,
    fit: null,
  };
  const operations = plan.route.operations.map((each) => (each.id === operation ? { ...each, target } : each));
  return { ...plan, part: { ...plan.part, unit: expected.unit }, route: { ...plan.route, operations } };
}

/** What the state comes to, in nanometres and ids, for a program that reads it. */
function summary(state: JobState, asked: boolean): object {
  const look = glance(state);
  return {
    operation: look?.operation.id ?? null,
    step: look?.step ?? null,
    steps: state.plan.route.operations.length,
    unit: state.plan.part.unit,
    window: look?.window ?? null,
    left: look?.left?.onPart ?? null,
    asked,
    operations: state.plan.route.operations.map((operation) => ({
      id: operation.id,
      status: progressOf(state, operation.id).status,
      readings: inOrder(progressOf(state, operation.id).readings).map(({ quantity, value, instrument, place }) => ({
        quantity,
        value,
        instrument,
        place,
      })),
    })),
    events: inOrder(state.log).length,
  };
}

const jsonTurn = (source: Utterance['source'], heard: Heard, turn: Turn | null): object => ({
  source,
  heard: heard.text,
  confidence: heard.confidence,
  accepted: heard.accepted,
  outcome: turn?.outcome ?? 'refused',
  reason: turn === null ? heard.reason : turn.reason,
  intent: turn?.intent ?? null,
  value: turn?.value ?? null,
  events: turn?.events ?? [],
  reply: turn === null ? '' : textOfReply(turn.reply),
});

function plainTurn(source: string, heard: Heard, turn: Turn | null): string {
  const what = `${source} "${heard.text}" (${heard.confidence.toFixed(2)})`;
  if (turn === null) return `${what}\n  not accepted: ${heard.reason ?? 'unsure'}`;
  const intent = turn.intent === null ? 'no command' : turn.intent;
  const unit = turn.intent === 'go-to' ? '' : turn.intent === 'temperature' ? ' thousandths of a degree' : ' nm';
  const value = turn.value === null ? '' : ` ${turn.value}${unit}`;
  const reason = turn.reason === null ? '' : ` (${turn.reason})`;
  const events = turn.events.length === 0 ? '' : ` → ${turn.events.join(', ')}`;
  return `${what}\n  ${turn.outcome}${reason}: ${intent}${value}${events}\n  “${textOfReply(turn.reply)}”`;
}

function plainState(state: JobState): string {
  const operation = openOperation(state);
  const look = glance(state);
  if (operation === null || look === null) return 'All steps are done.';
  return `Step ${look.step} of ${look.steps}: ${operation.title}. ${look.readings} reading${look.readings === 1 ? '' : 's'} here.`;
}

async function rehearse(): Promise<void> {
  const request = readRequest(process.argv.slice(2));
  const file = await openJob(request.job);
  const first = file.plan.route.operations[0]?.id ?? '';
  const start = request.at === null ? null : operationNamed(file.plan, request.at);
  const wavs = await Promise.all(
    request.utterances.map(async (utterance) => (utterance.source === 'wav' ? await readInput(utterance.path) : null)),
  );
  const ear = await openEar(
    request.utterances.flatMap((utterance, index) => {
      const bytes = wavs[index];
      return utterance.source === 'wav' && bytes != null ? [{ path: utterance.path, bytes }] : [];
    }),
  );

  const stored = memoryShelf(() => Date.now());
  const taken = await stored.take(file, { newId: randomUUID(), at: Date.now() });
  if (!taken.ok) throw new InputFault(`${request.job}: ${taken.error.key}`);
  const opened = await stored.open(taken.value.id);
  if (!opened.ok) throw new InputFault(`${request.job}: ${opened.error.key}`);
  const job = opened.value;
  const expectAt = start ?? (request.expect === null ? first : firstOpen(job.plan));
  const plan = request.expect === null ? job.plan : expecting(job.plan, expectAt, request.expect);

  const conversation = new Conversation(
    { ...job, plan },
    {
      log: openLog(stored, job),
      now: () => Date.now(),
      tick: () => performance.now(),
      newId: () => randomUUID(),
      bareReadings: () => true,
    },
  );
  if (start !== null || request.expect !== null) {
    const step = plan.route.operations.findIndex((operation) => operation.id === expectAt) + 1;
    await conversation.press({ type: 'go-to', step: { as: 'one', value: step } });
  }

  const print = (text: string) => process.stdout.write(`${text}\n`);
  for (const utterance of request.utterances) {
    const heards: readonly Heard[] =
      utterance.source === 'say'
        ? [{ text: utterance.words, confidence: 1, accepted: true, reason: null }]
        : await ear.hear(utterance.path, grammarFor(conversation.context));
    for (const heard of heards) {
      const turn = heard.accepted ? await conversation.hear(heard.text, heard.confidence) : null;
      print(request.json ? JSON.stringify(jsonTurn(utterance.source, heard, turn)) : plainTurn(utterance.source, heard, turn));
    }
  }
  ear.close();
  const asked = conversation.talk.question !== null;
  print(request.json ? JSON.stringify({ state: summary(conversation.state, asked) }) : plainState(conversation.state));
}

/** The first operation that takes a size off the part: where an expected size is tried when no operation was named. */
const firstOpen = (plan: Plan): string =>
  (plan.route.operations.find((operation) => operation.target?.quantity === 'diameter') ?? plan.route.operations[0])?.id ?? '';

await runCommand(rehearse);
