import { formatSize, type DisplayUnit, type Length } from '../../measure/index.ts';
import type { Operation } from '../operation.ts';
import type { Route } from '../route.ts';
import type { EditNumber, RouteEdit } from './edit.ts';

/** Why an edit makes no sense where the route stands; nothing is changed then. */
export type EditFault =
  | { readonly key: 'no-such-operation'; readonly operation: string }
  | { readonly key: 'id-taken'; readonly operation: string }
  | { readonly key: 'no-such-setup'; readonly setup: string }
  | { readonly key: 'other-setup'; readonly operation: string; readonly setup: string }
  | { readonly key: 'already-there'; readonly operation: string }
  | { readonly key: 'before-what-it-needs'; readonly operation: string; readonly needs: string }
  | { readonly key: 'after-what-needs-it'; readonly operation: string; readonly neededBy: string }
  | { readonly key: 'already-done'; readonly operation: string; readonly edit: RouteEdit['edit'] }
  | { readonly key: 'already-skipped'; readonly operation: string }
  | { readonly key: 'holds-the-work'; readonly operation: string }
  | { readonly key: 'nothing-to-split'; readonly operation: string }
  | {
      readonly key: 'split-outside';
      readonly operation: string;
      readonly at: Length;
      readonly from: Length;
      readonly aim: Length;
    }
  | { readonly key: 'no-such-number'; readonly operation: string; readonly number: EditNumber }
  | {
      readonly key: 'aim-outside';
      readonly operation: string;
      readonly low: Length;
      readonly aim: Length;
      readonly high: Length;
    };

const NUMBER_NAMES: Readonly<Record<EditNumber, string>> = {
  low: 'low limit',
  aim: 'size to aim at',
  high: 'high limit',
  from: 'size to start from',
  stop: 'stop',
  speedRpm: 'spindle speed',
  feedPerTurn: 'feed',
  depthOnRadius: 'depth of cut',
  minutes: 'time',
};

const PAST: Readonly<Record<RouteEdit['edit'], string>> = {
  add: 'added',
  move: 'moved',
  split: 'split',
  skip: 'skipped',
  note: 'noted on',
  change: 'changed',
};

/** A fault as one sentence or two: what is in the way, and what would help. */
export function describeEditFault(fault: EditFault, route: Route, unit: DisplayUnit): string {
  const titled = (id: string): string => {
    const index = route.operations.findIndex((operation) => operation.id === id);
    const operation: Operation | undefined = route.operations[index];
    return operation === undefined ? `the operation "${id}"` : `step ${index + 1}, "${operation.title}"`;
  };
  const setupOf = (id: string): string => route.setups.find((setup) => setup.id === id)?.title ?? id;
  const size = (length: Length): string => formatSize(length, unit);
  switch (fault.key) {
    case 'no-such-operation':
      return `The route has no operation called "${fault.operation}".`;
    case 'id-taken':
      return `The route has an operation called "${fault.operation}" already: ${titled(fault.operation)}. Call the new one something else.`;
    case 'no-such-setup':
      return `The route has no set-up called "${fault.setup}".`;
    case 'other-setup':
      return `${capital(titled(fault.operation))} is done in the set-up "${setupOf(fault.setup)}", where the work is held for it. Move it within that set-up.`;
    case 'already-there':
      return `${capital(titled(fault.operation))} is at that place already.`;
    case 'before-what-it-needs':
      return `${capital(titled(fault.operation))} cannot come before ${titled(fault.needs)}, which it depends on.`;
    case 'after-what-needs-it':
      return `${capital(titled(fault.operation))} cannot come after ${titled(fault.neededBy)}, which depends on it.`;
    case 'already-done':
      return `${capital(titled(fault.operation))} is done already and cannot be ${PAST[fault.edit]}.`;
    case 'already-skipped':
      return `${capital(titled(fault.operation))} is skipped already.`;
    case 'holds-the-work':
      return `${capital(titled(fault.operation))} holds the work for what follows and cannot be skipped.`;
    case 'nothing-to-split':
      return `${capital(titled(fault.operation))} takes nothing from one size to another, so there is nothing to split.`;
    case 'split-outside':
      return `${capital(titled(fault.operation))} goes from ${size(fault.from)} to ${size(fault.aim)}; ${size(fault.at)} does not lie between them.`;
    case 'no-such-number':
      return `${capital(titled(fault.operation))} has no ${NUMBER_NAMES[fault.number]} to change.`;
    case 'aim-outside':
      return `${capital(titled(fault.operation))}: ${size(fault.aim)} does not lie between the limits ${size(fault.low)} and ${size(fault.high)}.`;
  }
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
