export type { JobSummary, SetAsideEvent, Shelf, ShelfFault, StoredJob, Taken } from './shelf.ts';
export type { Damage } from './log.ts';
export type { UnknownEvent } from './loggedEvent.ts';
export { browserShelf, memoryShelf } from './shelves.ts';
export { backUp, restore, tooLarge, type BackupFault, type BackupFile, type BackupFolder, type Restored } from './backup.ts';
export { canChooseFolder, chooseFolder, folderKept, folderOf } from './browserFolder.ts';
export { joinEvents, type Joined, type JobHead, type RefusedEvent } from './joined.ts';
export { writeEvent } from './loggedEvent.ts';
export { momentAfter } from './moment.ts';
export { openLog, type OpenLog } from './openLog.ts';
export { holdJob, type HoldEdges, type JobHold, type Standing } from './holdJob.ts';
export { askToPersist, type Persistence } from './persistence.ts';
export type { CopyStanding } from './secondCopy.ts';
export { describeBackupFault, describeCopyTrouble, describeDamage, describeNotices, describeRestored, describeShelfFault, describeTaken } from './describe.ts';
export {
  FILE_FORMAT, jobFileOf, MOST_FILE_DEPTH, MOST_FILE_LENGTH, readJobFile, writeJobFile, type FileNotice, type JobFile,
} from './jobFile.ts';
export { FILE_VERSION } from './steps.ts';
export { describeFileFault, type FileFault } from './fileFault.ts';
