import type { Plan } from '../job/index.ts';
import type { BackupFault, Restored, RestoreProgress } from './backup.ts';
import { oneLine } from './fileFault.ts';
import type { FileNotice } from './jobFile.ts';
import { writePath } from './json.ts';
import type { Damage } from './log.ts';
import type { CopyStanding } from './secondCopy.ts';
import type { ShelfFault, Taken } from './shelf.ts';

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;
const events = (count: number): string => counted(count, 'event', 'events');

/** One line that says why the store did not do what was asked, and what to do. */
export function describeShelfFault(fault: ShelfFault): string {
  switch (fault.key) {
    case 'no-such-job':
      return `There is no job "${oneLine(fault.job, 64)}" on this device.`;
    case 'job-exists':
      return `A job "${oneLine(fault.job, 64)}" is on this device already; nothing was changed.`;
    case 'out-of-order':
      return `Event ${fault.got} was not stored: event ${fault.expected} is due. Another window has written to this job; open it again.`;
    case 'disk-full':
      return 'The device is full: this is not stored. It is kept in memory; save it as a file now, then make room.';
    case 'store-denied':
      return `The browser refuses to store (${oneLine(fault.detail, 120)}): this is kept in memory only; save it as a file now.`;
    case 'unreadable':
      return `Job "${oneLine(fault.job, 64)}" cannot be read: ${oneLine(fault.path, 120)} ${oneLine(fault.detail, 160)}. It is left as it is; import its last backup.`;
  }
}

const CAUSES: Readonly<Record<Extract<Damage, { key: 'tail-set-aside' }>['cause'], string>> = {
  altered: 'is not as it was stored',
  gap: 'is missing',
  unreadable: 'cannot be read',
};

/** One line that says what was found wrong in a job, and what was done about it. */
export function describeDamage(damage: Damage): string {
  switch (damage.key) {
    case 'tail-set-aside': {
      const lost = damage.lost === 0 ? '' : ` ${events(damage.lost)} that had been stored could not be found.`;
      return (
        `Event ${damage.from} ${CAUSES[damage.cause]}: ${events(damage.setAside)} from there on ` +
        `${damage.setAside === 1 ? 'was' : 'were'} set aside, ${damage.sound} of them sound in themselves.${lost} Check the last readings again.`
      );
    }
    case 'cut-short':
      return `The last ${events(damage.lost)} from number ${damage.from} on could not be found. Take those readings again, or import the last backup.`;
    case 'plan-altered':
      return 'The plan of this job is not as it was stored. Compare it with the drawing before you cut.';
    case 'list-line-mended':
      return 'The entry of this job in the list was wrong and was made anew from its log; nothing is missing.';
    case 'put-back': {
      if (damage.whole) return `The browser had lost this job. It was put back from the second copy, with ${events(damage.events)}.`;
      const what = damage.plan ? (damage.events === 0 ? 'The plan' : `The plan and ${events(damage.events)}`) : events(damage.events);
      const were = damage.events + (damage.plan ? 1 : 0) === 1 ? 'was' : 'were';
      return `${what} of this job ${were} lost or damaged in the browser's store and ${were} put back from the second copy.`;
    }
  }
}

/** One line that says why a log is not kept twice at the moment, and what to do. */
export function describeCopyTrouble({ reason, detail }: Extract<CopyStanding, { as: 'failing' }>): string {
  const why = reason === 'disk-full' ? 'The device is full' : `The browser refuses (${oneLine(detail, 120)})`;
  return `${why}: the second copy of this job is not written. The first one is. Save the job as a file now${reason === 'disk-full' ? ', then make room' : ''}.`;
}

const titleOf = (plan: Plan | null, id: string): string => {
  const title = plan?.route.operations.find((operation) => operation.id === id)?.title;
  return title === undefined ? id : `"${oneLine(title, 60)}"`;
};

/** One line that says what became of a file that was taken in; `plan` is where operations have their titles. */
export function describeTaken(taken: Taken, plan: Plan | null = null): string {
  switch (taken.as) {
    case 'new':
      return 'The job was added.';
    case 'already-here':
      return taken.newer > 0 ? `This job is here already, with ${events(taken.newer)} more than the file.` : 'This job is here already; nothing was changed.';
    case 'continued':
      return `The job was here already; ${events(taken.added)} from the file ${taken.added === 1 ? 'was' : 'were'} added.`;
    case 'merged': {
      const look = taken.both.length === 0 ? '' : ` Look at the readings of ${taken.both.map((id) => titleOf(plan, id)).join(', ')}: both devices had been busy there.`;
      return `The job was here already and both had gone on: ${events(taken.added)} from the file ${taken.added === 1 ? 'was' : 'were'} laid in by time.${look}`;
    }
    case 'copy':
      return 'A different job of the same name is here already; the file was added as a copy, and nothing was changed.';
  }
}

/** Lines that say what a file held that this build does not know: the first few by name, the rest as a count. */
export function describeNotices(notices: readonly FileNotice[], most: number): readonly string[] {
  const lines = notices.slice(0, most).map((notice) => {
    switch (notice.key) {
      case 'unknown-field':
        return `${oneLine(writePath(notice.path), 160)}: this build does not know this field; it is kept and not used.`;
      case 'unknown-event':
        return `${writePath(notice.path)}: this build does not know the event "${oneLine(notice.event.type, 60)}"; it is kept and not used.`;
    }
  });
  return notices.length > most ? [...lines, `and ${notices.length - most} more.`] : lines;
}

/** One line that says why a backup was not written or read, and what to do. */
export function describeBackupFault(fault: BackupFault): string {
  switch (fault.key) {
    case 'not-allowed':
      return `The browser asks you again before it writes into the folder "${oneLine(fault.folder, 60)}".`;
    case 'not-written':
      return `The backup was not written into "${oneLine(fault.folder, 60)}" (${oneLine(fault.detail, 120)}). Is the folder still there, and is there room? Or save the job as a file.`;
    case 'not-read':
      return `The folder "${oneLine(fault.folder, 60)}" could not be read (${oneLine(fault.detail, 120)}). Choose it again, or open the files one by one.`;
    case 'no-such-job':
    case 'job-exists':
    case 'out-of-order':
    case 'disk-full':
    case 'store-denied':
    case 'unreadable':
      return describeShelfFault(fault);
  }
}

/** How far the bringing back of a folder has come. */
export const describeRestoring = ({ file, of, name, entries }: RestoreProgress): string =>
  `File ${file} of ${of} (${oneLine(name, 60)}) is being brought back${entries === 0 ? '' : `: ${counted(entries, 'entry is', 'entries are')} in`}.`;

/** One line that says what came back from a folder of backups. */
export function describeRestored({ taken, refused }: Restored): string {
  const came = taken.filter(({ as }) => as !== 'already-here').length;
  const here = taken.length - came;
  if (taken.length + refused.length === 0) return 'There is no job file in this folder.';
  const bad = refused.length === 0 ? '' : ` Not taken in: ${refused.slice(0, 3).join(' ')}${refused.length > 3 ? ` And ${refused.length - 3} more.` : ''}`;
  return `${counted(came, 'job', 'jobs')} came in from the folder; ${counted(here, 'was', 'were')} here already.${bad}`;
}
