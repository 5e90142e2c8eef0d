import type { HandOver, Safekeeping } from '../../app/index.ts';

/** The English of what keeps the record safe; another language is another object of this shape. */
export const shelfWords = {
  safe: {
    title: 'Safe keeping',
    persistence: {
      kept: 'The browser has promised to keep the jobs of this device.',
      'may-be-cleared': 'The browser may clear the jobs of this device when it runs short of room: keep files of them.',
      'cannot-tell': 'The browser does not say whether it keeps the jobs of this device: keep files of them.',
    } satisfies Record<Safekeeping['persistence'], string>,
    copy: {
      kept: 'Each job is kept twice in this browser: in its database, and in a file of its own.',
      none: 'This browser keeps each job once: it has no place for a second copy.',
      failing: 'The second copy of the open job could not be written.',
    } satisfies Record<Safekeeping['copy'], string>,
    noFolder: 'No folder is chosen: a job is in this browser alone until it is saved as a file.',
    cannotChoose: 'This browser cannot write into a folder by itself: save jobs as files.',
    folder: {
      kept: (name: string) => `Backups go into the folder “${name}” by themselves.`,
      asks: (name: string) => `The browser asks again before it writes into the folder “${name}”.`,
      failed: (name: string) => `The last backup into the folder “${name}” failed.`,
    },
    saved: (when: string, entries: number) => `Last saved ${when}, with ${entries} entries.`,
    notSaved: 'The open job has not been saved as a file.',
    choose: 'Back up into a folder',
    chooseAbout: 'Each job is written there a few seconds after a change.',
    allow: 'Allow the folder again',
    leave: 'Stop the backups',
    restore: 'Bring jobs back from a folder',
    restoreAbout: 'Nothing that is here is overwritten.',
    setAside: (count: number) => `Save ${count === 1 ? 'the 1 entry' : `the ${count} entries`} that were set aside`,
    setAsideAbout: 'They were found damaged and are no part of the job any more.',
  },
  diagnostic: {
    title: 'If something does not work',
    save: 'Save a diagnostic file',
    saveAbout: 'What does not work, and on what browser. No sound, no readings. Read it before you give it away.',
    withJob: 'with the open job and its readings',
  },
  together: {
    title: 'Work together with another device',
    about: 'For two devices in one shop: start with “npm start -- --lan --share” and type the code that it shows.',
    code: 'Code',
    start: 'Start',
    stop: 'Stop',
    standing: {
      off: 'Off. Nothing leaves this device.',
      connecting: 'Connecting …',
      connected: 'Connected. What is logged here appears there.',
      cut: 'No connection. This device works on by itself and tries again.',
      refused: 'The code is not right, or the desk has been started again since. Type the new one.',
    } satisfies Record<HandOver['standing'], string>,
  },
};
