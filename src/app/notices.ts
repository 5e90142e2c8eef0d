import type { Damage, FileNotice, JobFile, ShelfFault, StoredJob, Taken } from '../shelf/index.ts';

/** One plain line for a fault of the store: what, and what to do. What was acknowledged before is safe in every case. */
export function faultText(fault: ShelfFault): string {
  switch (fault.key) {
    case 'disk-full':
      return 'The disk is full: the last reading is in memory only. Make room, or export the job to a file now.';
    case 'store-denied':
      return `The browser does not let this page store anything (${fault.detail}). Readings are in memory only: export the job to a file.`;
    case 'no-such-job':
      return 'That job is not on this device. Choose another from the list, or import its file.';
    case 'job-exists':
      return 'A job of that name is here already. Open it from the list.';
    case 'out-of-order':
      return `Another window has written to this job (reading ${fault.got} came after ${fault.expected - 1}). Open the job again from the list.`;
    case 'unreadable':
      return `The stored job cannot be read at ${fault.path}: ${fault.detail}. Import your last exported file.`;
  }
}

/** Null for what was put right by itself and concerns no reading. */
function damageText(damage: Damage): string | null {
  switch (damage.key) {
    case 'tail-set-aside':
      return `The log was damaged from entry ${damage.from}: ${damage.setAside} entries were set aside, not deleted${lostText(damage.lost)}. Check the readings.`;
    case 'cut-short':
      return `The log ends early: entries from ${damage.from} are missing (${damage.lost}). Check the readings against the part.`;
    case 'plan-altered':
      return 'The plan of this job is not as it was stored. Check the sizes before you cut.';
    case 'list-line-mended':
      return null;
  }
}

const lostText = (lost: number): string => (lost === 0 ? '' : `, ${lost} more are gone`);

/** What the person must know about a job that has just been opened. */
export function openedText(job: StoredJob): readonly string[] {
  const unknown = job.unknown.length;
  return [
    ...job.damage.map(damageText).filter((text) => text !== null),
    ...(unknown === 0 ? [] : [`${unknown} entries come from a newer Swarfside; they are kept but not shown.`]),
  ];
}

const noticeText = (notices: readonly FileNotice[]): string =>
  notices.length === 0 ? '' : ` ${notices.length} entries or fields are not known to this version; they are kept as they came.`;

/** What became of an imported file. */
export function takenText(taken: Taken, file: JobFile, fileName: string): string {
  const more = noticeText(file.notices);
  switch (taken.as) {
    case 'new':
      return `${fileName} is now in the list.${more}`;
    case 'already-here':
      return taken.newer === 0
        ? `${fileName} is here already; nothing was changed.${more}`
        : `${fileName} is here already, with ${taken.newer} newer entries that are not in the file; nothing was changed.${more}`;
    case 'continued':
      return `${taken.added} entries of ${fileName} were added to the job that is here.${more}`;
    case 'copy':
      return `A different job of that name is here already; ${fileName} was added beside it as a copy.${more}`;
  }
}
