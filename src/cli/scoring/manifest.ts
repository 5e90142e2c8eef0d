import { dirname, isAbsolute, join } from 'node:path';
import { z } from 'zod';
import { InputFault } from '../fault.ts';
import { readInput } from '../openJob.ts';

/** One line of a manifest: a WAV beside it, what is said in it ("" where it must be refused), and its group. */
const Line = z.object({ wav: z.string().min(1), text: z.string(), group: z.string().min(1) });
export type ScoredLine = z.infer<typeof Line>;

/** Reads a manifest of JSON lines; `wav` comes back as a path that can be opened from here. */
export async function readScoreManifest(path: string): Promise<readonly ScoredLine[]> {
  const text = (await readInput(path)).toString('utf8');
  const lines = text.split('\n').flatMap((line, index) => (line.trim() === '' ? [] : [lineOf(path, line, index + 1)]));
  if (lines.length === 0) throw new InputFault(`${path}: there is no line in it; each is {"wav": …, "text": …, "group": …}`);
  return lines;
}

function lineOf(path: string, text: string, number: number): ScoredLine {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw new InputFault(`${path}, line ${number}: this is not JSON`);
  }
  const read = Line.safeParse(json);
  if (!read.success) {
    const [first] = read.error.issues;
    throw new InputFault(
      `${path}, line ${number}: "${first?.path.join('.') ?? ''}" is missing or wrong; a line is {"wav": …, "text": …, "group": …}`,
    );
  }
  const { wav, text: said, group } = read.data;
  return { wav: isAbsolute(wav) ? wav : join(dirname(path), wav), text: said.trim().toLowerCase(), group };
}
