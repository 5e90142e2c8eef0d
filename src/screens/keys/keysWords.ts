import type { KeyFault, PedalDeed } from '../machine/keyMap.ts';

/** The English of the page of keys; apart from `words.ts` because it is fetched with it. */
export const keysWords = {
  title: 'Keys and pedal',
  back: 'Back to the machine',
  about: 'A pedal or a caliper that types is a keyboard to this page. These three keys can be changed.',
  deeds: { next: 'Next step', back: 'Step back', talk: 'Talk, while held' } satisfies Record<PedalDeed, string>,
  change: 'Change',
  changeOf: (deed: string) => `Change the key: ${deed}`,
  press: 'Press the key or the pedal now',
  stay: 'Leave it',
  fault: {
    taken: 'This key means something else here. Press another.',
    twice: 'This key does another of the three. Press another.',
  } satisfies Record<KeyFault, string>,
  usual: 'The usual keys again',
  all: 'Keys that stay as they are',
  fixed: [
    ['0 to 9, point, comma, sign', 'type a reading'],
    ['Enter', 'opens the number pad, enters it, says yes'],
    ['Escape', 'closes the pad, says never mind'],
    ['Backspace', 'erases a digit, takes the last reading back'],
    ['Alt and 1 to 4', 'at the desk, turn the sheets'],
    ['Ctrl and Z, Ctrl and Y', 'at the desk, undo and redo'],
  ] as const,
  commands: 'Letters, each a command; two keys are pressed one after the other',
  names: {
    ' ': 'Space',
    PageDown: 'Page Down',
    PageUp: 'Page Up',
    ArrowDown: 'Down',
    ArrowUp: 'Up',
    ArrowLeft: 'Left',
    ArrowRight: 'Right',
  } as Readonly<Record<string, string>>,
} as const;
