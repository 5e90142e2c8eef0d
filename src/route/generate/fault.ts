import { formatSize, type DisplayUnit, type Length } from '../../measure/index.ts';
import { saidName, type Part, type ToolKind } from '../../part/index.ts';

/** Why a part cannot be made as it is given. The sentence, with what would help, is made by `describeRouteFault`. */
export type RouteFault =
  | { readonly key: 'nothing-concentric' }
  | { readonly key: 'no-lathe' }
  | { readonly key: 'no-mill'; readonly feature: string }
  | { readonly key: 'material-not-known'; readonly material: string }
  | {
      readonly key: 'stock-too-thin';
      readonly feature: string;
      readonly needed: Length;
      readonly stock: Length;
      readonly skin: Length;
    }
  | { readonly key: 'stock-too-short'; readonly needed: Length; readonly stock: Length }
  | { readonly key: 'bar-too-thick'; readonly stock: Length; readonly bore: Length; readonly blank: Length }
  | { readonly key: 'neck-too-narrow'; readonly feature: string; readonly length: Length; readonly least: Length }
  | {
      readonly key: 'neck-too-thin';
      readonly feature: string;
      readonly diameter: Length;
      readonly beyond: Length;
      readonly least: Length;
    }
  | { readonly key: 'groove-at-end'; readonly feature: string }
  | { readonly key: 'offset-blocked'; readonly feature: string; readonly outboard: string; readonly most: Length }
  | { readonly key: 'taper-backwards'; readonly feature: string }
  | { readonly key: 'taper-blocked'; readonly feature: string; readonly outboard: string; readonly most: Length }
  | {
      readonly key: 'taper-too-long';
      readonly feature: string;
      readonly length: Length;
      readonly travel: Length;
      readonly setOver: Length;
    }
  | { readonly key: 'too-short-to-turn'; readonly feature: string; readonly length: Length }
  | { readonly key: 'nothing-to-grip'; readonly needed: Length }
  | { readonly key: 'blank-grip'; readonly has: Length; readonly needed: Length; readonly piece: Length }
  | { readonly key: 'too-slender'; readonly length: Length; readonly diameter: Length }
  | { readonly key: 'bends-too-much'; readonly feature: string; readonly bends: Length; readonly window: Length }
  | { readonly key: 'hole-breaks-out'; readonly feature: string; readonly hole: Length; readonly most: Length }
  | { readonly key: 'hole-too-deep'; readonly feature: string; readonly depth: Length; readonly most: Length }
  | { readonly key: 'holes-meet'; readonly feature: string; readonly other: string; readonly over: Length }
  | {
      readonly key: 'cuts-into-hole';
      readonly feature: string;
      readonly hole: string;
      readonly wall: Length;
      readonly least: Length;
    }
  | { readonly key: 'bore-too-deep'; readonly feature: string; readonly depth: Length; readonly most: Length }
  | { readonly key: 'no-chuck'; readonly holds: string; readonly diameter: Length; readonly need: 'bar' | 'true' | 'offset' }
  | { readonly key: 'no-tool'; readonly tool: ToolKind; readonly feature: string }
  | { readonly key: 'no-pitch'; readonly feature: string; readonly pitch: Length };

const CHUCKS: Readonly<Record<'bar' | 'true' | 'offset', string>> = {
  bar: 'take a smaller bar, or a chuck that opens further',
  true: 'leave stock to part off and a larger diameter to hold, or get a chuck or a collet for it',
  offset: 'a four-jaw chuck sets a throw; three jaws with a packing piece do up to a quarter of the diameter',
};

const HELD: Readonly<Record<'bar' | 'true' | 'offset', string>> = {
  bar: '',
  true: ', so that it runs true',
  offset: ', off its centre',
};

const TOOLS: Readonly<Record<ToolKind, string>> = {
  turning: 'a turning tool',
  facing: 'a facing tool',
  parting: 'a parting tool',
  grooving: 'a grooving tool',
  threading: 'a threading tool',
  boring: 'a boring bar',
  drilling: 'drills',
  tapping: 'taps',
  'end-mill': 'end mills',
  steady: 'a steady',
  'follow-rest': 'a follow rest',
  indexing: 'an indexing head',
};

/** A fault as a sentence: what is in the way, with the numbers, and what would help. */
export function describeRouteFault(fault: RouteFault, part: Part): string {
  const unit: DisplayUnit = part.unit;
  const size = (length: Length): string => formatSize(length, unit);
  const named = (id: string): string =>
    [...part.turned, ...part.edges, ...part.ends, ...part.milled].find((feature) => feature.id === id)?.name ?? id;
  const the = (id: string): string => `the ${saidName(named(id))}`;
  switch (fault.key) {
    case 'nothing-concentric':
      return 'Nothing in the part is concentric, so there is nothing to hold it by. Add a concentric collar or spigot.';
    case 'no-lathe':
      return 'No machine is given. The first one in the file is the lathe.';
    case 'no-mill':
      return `${named(fault.feature)}: no mill is given. The second machine in the file is the mill.`;
    case 'material-not-known':
      return `"${fault.material}" is no material that speeds are known for. Name it as steel, alloy steel, stainless, iron, brass or aluminium.`;
    case 'stock-too-thin':
      return `${named(fault.feature)}: needs stock of ${size(fault.needed)}${fault.skin > 0 ? `, with ${size(fault.skin)} of skin to come off` : ''}; this is ${size(fault.stock)}. Take the next larger bar.`;
    case 'stock-too-short':
      return `The part needs ${size(fault.needed)} of stock with both ends faced; this is ${size(fault.stock)} long. Cut a longer piece.`;
    case 'bar-too-thick':
      return `The bar is ${size(fault.stock)} across and the spindle passes ${size(fault.bore)}, so its rest has nowhere to go. Saw a piece of ${size(fault.blank)} off it first, or hold it in a steady.`;
    case 'neck-too-narrow':
      return `${named(fault.feature)}: ${size(fault.length)} wide between larger diameters; the narrowest grooving tool is ${size(fault.least)}. Make it wider, or the part in two pieces.`;
    case 'neck-too-thin':
      return `${named(fault.feature)}: ${size(fault.diameter)} across would have to carry ${size(fault.beyond)} of work beyond it while that is cut. Make it ${size(fault.least)} at least, or the part in two pieces.`;
    case 'groove-at-end':
      return `${named(fault.feature)}: nothing outboard of it is larger, so it is no groove. Lay it out as a journal, or put what closes it beyond it.`;
    case 'offset-blocked':
      return `${named(fault.feature)}: ${the(fault.outboard)} stands in the way of the tool when the work turns off centre; it may be ${size(fault.most)} at most. Put the offset journal outboard, or make it a separate piece.`;
    case 'taper-backwards':
      return `${named(fault.feature)}: its small end points at larger work, where no compound gets behind it. Turn it round, or make it a separate piece.`;
    case 'taper-blocked':
      return `${named(fault.feature)}: ${the(fault.outboard)} stands in front of its small end, where ${size(fault.most)} is the most that lets the tool by. Make that smaller, or put a relief between them.`;
    case 'taper-too-long':
      return `${named(fault.feature)}: ${size(fault.length)} along the slope, and the compound travels ${size(fault.travel)}. Ask for a centre in both ends and set the tailstock over ${size(fault.setOver)}, use a taper attachment, or shorten it.`;
    case 'too-short-to-turn':
      return `${named(fault.feature)}: ${size(fault.length)} long is shorter than what a rough cut stays off its shoulder. Make it a groove or a longer feature.`;
    case 'nothing-to-grip':
      return `No finished length of ${size(fault.needed)} can be held for the second end. Make one of its plain diameters that long, and half as long as it is thick, or ask for a centre in both ends and work between them.`;
    case 'blank-grip':
      return `The blank leaves ${size(fault.has)} in the jaws while the first end is turned, and ${size(fault.needed)} should hold it. Take a piece of ${size(fault.piece)}, which is parted off.`;
    case 'too-slender':
      return `${size(fault.length)} long and ${size(fault.diameter)} thin: it bends away from the tool even with a tailstock. A steady or a follow rest is needed; list it among the tools of the lathe.`;
    case 'bends-too-much':
      return `${named(fault.feature)}: the finishing cut would bend it ${size(fault.bends)} on the diameter, and its window is ${size(fault.window)}. A follow rest, a wider window, or grinding would do.`;
    case 'hole-breaks-out':
      return `${named(fault.feature)}: a hole of ${size(fault.hole)} leaves too thin a wall; ${size(fault.most)} is the most. Choose a smaller one, or make what is round it thicker.`;
    case 'hole-too-deep':
      return `${named(fault.feature)}: ${size(fault.depth)} deep goes through the part, which is ${size(fault.most)} long. Make it shallower.`;
    case 'holes-meet':
      return `${named(fault.feature)}: it and ${the(fault.other)} from the other end would meet by ${size(fault.over)}. Make one of them shallower.`;
    case 'cuts-into-hole':
      return `${named(fault.feature)}: it leaves ${size(fault.wall)} over ${the(fault.hole)}, and ${size(fault.least)} should stay. Make it shallower, or move it.`;
    case 'bore-too-deep':
      return `${named(fault.feature)}: ${size(fault.depth)} deep for its drilled hole; a boring bar that goes in reaches ${size(fault.most)}. Drill it larger, bore it shallower, or ream it.`;
    case 'no-chuck':
      return `No chuck of this lathe holds ${fault.holds}, ${size(fault.diameter)} across${HELD[fault.need]}. What would help: ${CHUCKS[fault.need]}.`;
    case 'no-tool':
      return `${named(fault.feature)}: wants ${TOOLS[fault.tool]}, which the machine's list does not have. Get one, or make the part without.`;
    case 'no-pitch':
      return `${named(fault.feature)}: the gearbox has no pitch of ${size(fault.pitch)}. Fit change gears for it, or cut the thread with a die.`;
  }
}
