import { z } from 'zod';

/** One entry of a browser's trace, times in microseconds. `tdur` is what of `dur` the thread had a processor for. */
const entrySchema = z.looseObject({
  name: z.string(),
  ph: z.string(),
  pid: z.number(),
  tid: z.number(),
  ts: z.number(),
  dur: z.number().optional(),
  tdur: z.number().optional(),
});
export const traceSchema = z.looseObject({ traceEvents: z.array(entrySchema) });
export type Trace = z.output<typeof traceSchema>;

type Task = { readonly from: number; readonly to: number; readonly share: number };

/** The task of a thread that holds a moment, or undefined; `tasks` are in order and do not overlap. */
function taskAt(tasks: readonly Task[], moment: number): Task | undefined {
  let [low, high] = [0, tasks.length - 1];
  while (low <= high) {
    const middle = (low + high) >> 1;
    const task = tasks[middle];
    if (task === undefined || moment < task.from) high = middle - 1;
    else if (moment > task.to) low = middle + 1;
    else return task;
  }
  return undefined;
}

/**
 * The same trace with every task as long as its thread had a processor, what lies within it drawn together in step: what the
 * page itself costs, without its waiting for a core. Waiting for another process in the midst of a task is gone with it, so
 * this is the least that a machine of this speed would take, as the clock on a busy one is the most.
 */
export function byProcessorTime(trace: Trace): Trace {
  const threads = new Map<string, Task[]>();
  const threadOf = ({ pid, tid }: { readonly pid: number; readonly tid: number }): string => `${pid}:${tid}`;
  for (const entry of trace.traceEvents) {
    const { ph, name, ts, dur, tdur } = entry;
    if (ph !== 'X' || !name.endsWith('RunTask') || dur === undefined || tdur === undefined || tdur >= dur) continue;
    const tasks = threads.get(threadOf(entry)) ?? [];
    threads.set(threadOf(entry), tasks);
    tasks.push({ from: ts, to: ts + dur, share: tdur / dur });
  }
  for (const tasks of threads.values()) tasks.sort((a, b) => a.from - b.from);
  const drawnTogether = (entry: Trace['traceEvents'][number]): Trace['traceEvents'][number] => {
    const task = taskAt(threads.get(threadOf(entry)) ?? [], entry.ts);
    if (task === undefined) return entry;
    const within = (moment: number): number => Math.round(task.from + (Math.min(moment, task.to) - task.from) * task.share);
    const ts = within(entry.ts);
    return entry.dur === undefined ? { ...entry, ts } : { ...entry, ts, dur: within(entry.ts + entry.dur) - ts };
  };
  return { ...trace, traceEvents: trace.traceEvents.map(drawnTogether) };
}
