import type { Heard, Intent, IntentType, NumberSlot } from '../job/index.ts';
import type { Length, Temperature } from '../measure/index.ts';

/** The groups of the card, in the order they are shown. */
export const GROUPS = {
  moving: 'Moving through the job',
  asking: 'Asking',
  readings: 'Readings',
  cutting: 'Cutting',
  fit: 'Trying the fit',
  'set-up': 'Set-up',
  righting: 'Putting right',
  assistant: 'The assistant',
} as const;
export type Group = keyof typeof GROUPS;

/** What was found in a sentence beside its fixed words: the words of its rules, and its number, resolved. */
export type Found = {
  readonly words: (rule: string) => string | null;
  readonly length: () => Heard<Length>;
  readonly temperature: () => Heard<Temperature>;
  readonly step: () => Heard<number>;
  readonly count: () => Heard<number>;
};

/**
 * A command: all that is known of it, once. From it come the recogniser's grammar, the parser, the card, the button and key,
 * and sample sentences. `says` is in the notation of `template.ts`; its first phrasing is the one that the card shows.
 */
export type Command = {
  readonly name: string;
  readonly intent: IntentType;
  readonly group: Group;
  readonly says: string;
  readonly examples: readonly [string, ...string[]];
  readonly help: string;
  readonly changesLog: boolean;
  /**
   * The label of the large button, null where there is none, and the key by its DOM name, of the same command. Two keys with a
   * space between are pressed one after the other.
   */
  readonly button: string | null;
  readonly key: string;
} & (
  { readonly takes: null; readonly make: () => Intent } | { readonly takes: NumberSlot; readonly make: (found: Found) => Intent }
);

type Plain = Omit<Command, 'intent' | 'takes' | 'make' | 'group' | 'button'> & { readonly button?: string };

/** A command that takes no number. */
export const plain = (group: Group, intent: Intent, entry: Plain): Command => ({
  ...entry,
  group,
  intent: intent.type,
  button: entry.button ?? null,
  takes: null,
  make: () => intent,
});

/** A command that takes a number. */
export const numbered = (
  group: Group,
  intent: IntentType,
  takes: NumberSlot,
  entry: Plain,
  make: (found: Found) => Intent,
): Command => ({ ...entry, group, intent, button: entry.button ?? null, takes, make });
