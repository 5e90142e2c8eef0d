import { fail, ok, type Result } from '../measure/index.ts';
import { describeFileFault, type FileFault } from './fileFault.ts';
import { writeJobFile, type JobFile } from './jobFile.ts';
import { MOST_FILE_LENGTH, readingJobFile } from './readJobFile.ts';
import type { Pace, Shelf, ShelfFault, Taken } from './shelf.ts';
import { inSlices } from './slices.ts';

/** A file in a backup folder, not read yet. `size` is in bytes. */
export type BackupFile = { readonly name: string; readonly size: number; readonly text: () => Promise<string> };

/** A folder that the person chose for backups. Its calls reject where the browser or the disk refuses. */
export interface BackupFolder {
  readonly name: string;
  /** Whether the browser lets the page write there now, without asking anybody. */
  allowed(): Promise<boolean>;
  /** Asks the person; only from a press, or the browser refuses. */
  ask(): Promise<boolean>;
  /** Writes a whole file, or leaves the one of that name as it was. */
  write(name: string, text: string): Promise<void>;
  /** The job files that lie there. */
  files(): Promise<readonly BackupFile[]>;
}

export type BackupFault =
  | { readonly key: 'not-allowed'; readonly folder: string }
  | { readonly key: 'not-written'; readonly folder: string; readonly detail: string }
  | { readonly key: 'not-read'; readonly folder: string; readonly detail: string }
  | ShelfFault;

export const BACKUP_ENDING = '.job.json';

/** One file a job, by its plan and the beginning of its id, so that each backup takes the place of the one before. */
export function backupName(file: JobFile): string {
  const title = file.plan.id.replace(/[^A-Za-z0-9-]+/g, '-').slice(0, 60);
  return `${title === '' ? 'job' : title}-${(file.job ?? 'new').slice(0, 36)}${BACKUP_ENDING}`;
}

const reasonOf = (error: unknown): string =>
  error instanceof Error || error instanceof DOMException ? error.message : String(error);

/** Writes one job into the folder; gives how many of its events the file holds. */
export async function backUp(
  shelf: Shelf,
  folder: BackupFolder,
  job: string,
): Promise<Result<{ readonly events: number }, BackupFault>> {
  const copy = await shelf.copy(job);
  if (!copy.ok) return copy;
  try {
    if (!(await folder.allowed())) return fail({ key: 'not-allowed', folder: folder.name });
    await folder.write(backupName(copy.value), writeJobFile(copy.value));
    return ok({ events: copy.value.kept.events.length });
  } catch (error) {
    return fail({ key: 'not-written', folder: folder.name, detail: reasonOf(error) });
  }
}

/** Refuses a file by its size before it is read into memory. A text of so many bytes has at most so many characters. */
export const tooLarge = (bytes: number): FileFault | null =>
  bytes > MOST_FILE_LENGTH ? { key: 'too-large', length: bytes, most: MOST_FILE_LENGTH } : null;

/** What became of the files of a folder: those taken in, and one line for each that was not. */
export type Restored = { readonly taken: readonly Taken[]; readonly refused: readonly string[] };

/** How far a long file has come is told after so many entries. */
const ENTRIES_A_WORD = 2_000;

/** Which file of the folder is being brought back, from 1, and how many of its entries are in, where they are many. */
export type RestoreProgress = { readonly file: number; readonly of: number; readonly name: string; readonly entries: number };

/**
 * Takes in every job file of the folder, checked and joined as an import is; nothing stored is overwritten. It pauses where it
 * may, and tells how far it has come.
 */
export async function restore(
  shelf: Shelf,
  folder: BackupFolder,
  start: {
    readonly newId: () => string;
    readonly at: number;
    readonly pause: Pace['pause'];
    readonly far: (progress: RestoreProgress) => void;
  },
): Promise<Result<Restored, BackupFault>> {
  const taken: Taken[] = [];
  const refused: string[] = [];
  try {
    const files = await folder.files();
    for (const [index, file] of files.entries()) {
      const far = (entries: number): void => start.far({ file: index + 1, of: files.length, name: file.name, entries });
      far(0);
      await start.pause();
      const oversize = tooLarge(file.size);
      const read = oversize === null ? await inSlices(readingJobFile(await file.text()), start.pause) : fail(oversize);
      if (!read.ok) {
        refused.push(describeFileFault(read.error, file.name));
        continue;
      }
      const added = (entries: number): void => {
        if (entries % ENTRIES_A_WORD === 0) far(entries);
      };
      const pace: Pace = { pause: start.pause, added };
      const outcome = await shelf.take(read.value, { newId: start.newId(), at: start.at, pace });
      if (!outcome.ok) return outcome;
      taken.push(outcome.value);
    }
  } catch (error) {
    return fail({ key: 'not-read', folder: folder.name, detail: reasonOf(error) });
  }
  return ok({ taken, refused });
}
