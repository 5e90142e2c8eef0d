import fc from 'fast-check';
import { TOOLS } from '../../src/trade/index.ts';
import type { Invented } from './invented.ts';

/** Features that stand on a side, from the collar outward; sizes are whole counts of a grid. */
type Step = {
  readonly kind: 'journal' | 'taper' | 'neck' | 'groove' | 'thread';
  readonly less: number;
  readonly long: number;
  readonly fine: boolean;
  readonly fit: '' | 'bore' | 'tight' | 'bearing';
  readonly width: boolean;
  readonly hand: '' | 'filed' | 'polished';
  readonly edge: '' | 'chamfer' | 'undercut' | 'fillet';
  readonly smooth: boolean;
  readonly cut: '' | 'flat' | 'keyway' | 'hole' | 'box' | 'pocket';
  readonly angle: number;
};

const step: fc.Arbitrary<Step> = fc.record({
  kind: fc.constantFrom('journal', 'journal', 'journal', 'taper', 'neck', 'groove', 'thread'),
  // Nothing, now and then: two lands of one size.
  less: fc.oneof({ arbitrary: fc.integer({ min: 30, max: 300 }), weight: 5 }, { arbitrary: fc.constant(0), weight: 1 }),
  long: fc.integer({ min: 1000, max: 2000 }),
  fine: fc.boolean(),
  fit: fc.constantFrom('', '', 'bore', 'bore', 'tight', 'bearing'),
  width: fc.constantFrom(false, false, true),
  hand: fc.constantFrom('', '', 'filed', 'polished'),
  edge: fc.constantFrom('', '', 'chamfer', 'undercut', 'fillet'),
  smooth: fc.boolean(),
  cut: fc.constantFrom('', '', '', 'flat', 'keyway', 'hole', 'box', 'pocket'),
  angle: fc.constantFrom(0, 0, 30, 90, 180),
});

const steps = fc.array(step, { maxLength: 5 });
const hole = fc.constantFrom('', '', 'centre', 'drilled', 'tapped', 'bored' as const);

const shape = fc.record({
  left: steps,
  right: steps,
  collar: fc.integer({ min: 4000, max: 6000 }),
  long: fc.integer({ min: 3100, max: 4000 }),
  bar: fc.boolean(),
  cam: fc.option(fc.integer({ min: 100, max: 400 }), { freq: 2 }),
  camToward: fc.constantFrom('left', 'left', 'right' as const),
  form: fc.constantFrom('round', 'round', 'round', 'hexagon', 'square' as const),
  inBore: fc.constantFrom('', 'shaft', 'ring' as const),
  /** Lengths between shoulders, from the face of their own side, or all of them from one face. */
  faces: fc.constantFrom('', '', 'apart', 'left', 'right' as const),
  // Now and then a centre in both ends, to be turned between them.
  holes: fc.oneof(
    { arbitrary: fc.tuple(hole, hole), weight: 3 },
    { arbitrary: fc.constant(['centre', 'centre'] as const), weight: 2 },
  ),
  tool: fc.constantFrom(...TOOLS),
  condition: fc.constantFrom(null, 'cold-drawn', 'ground' as const),
  outfit: fc.constantFrom('plain', 'weak', 'geared', 'packed', 'direct' as const),
});

/** A part in the notation, each of its features in a list of its own, so that one of them can be left out. */
export type Drawn = {
  readonly turned: readonly string[];
  /** The place of the collar among them, which is never left out. */
  readonly collar: number;
  readonly edges: readonly { readonly on: number; readonly text: string }[];
  readonly ends: readonly string[];
  readonly milled: readonly { readonly on: number; readonly text: string }[];
  readonly rest: Pick<Invented, 'id' | 'unit' | 'stock' | 'form' | 'tool' | 'condition' | 'lathe'>;
};

const TOOLS_HAD = ['turning', 'facing', 'parting', 'grooving', 'threading', 'boring', 'drilling', 'tapping', 'follow-rest'];

const OUTFITS: Readonly<Record<'plain' | 'weak' | 'geared' | 'packed' | 'direct', Invented['lathe']>> = {
  plain: {},
  weak: { powerKw: 0.4, feeds: ['0.05mm', '0.1mm', '0.2mm', '0.25mm'] },
  geared: {
    feeds: ['0.06mm', '0.09mm', '0.18mm', '0.27mm'],
    spindleBore: '80mm',
    compoundTravel: '90mm',
    betweenCentres: '700mm',
  },
  direct: { crossSlide: { division: '0.02mm', perTurn: '4mm', reads: 'diameter' }, tools: TOOLS_HAD, betweenCentres: '500mm' },
  packed: { chucks: [{ kind: 'three-jaw', least: '3mm', most: '200mm' }], betweenCentres: '600mm' },
};

/**
 * A part in steps of a grid: in millimetres of .01, in inches of .0005, so that each size has an exact text in both. Steps down
 * from
 * a collar on both sides, with necks, grooves, cones, edges, holes in the ends and cuts in the side; now and then a cam outermost
 * on the left. Most can be made.
 */
export const drawnPart = (unit: 'inch' | 'millimetre'): fc.Arbitrary<Drawn> =>
  shape.map((drawn) => {
    const { left, right, collar, long, bar, cam, camToward, form, inBore, faces, tool, condition, outfit } = drawn;
    const grid = (count: number): string => (unit === 'inch' ? (count / 2000).toFixed(4) : (count / 100).toFixed(2));
    const edges: { on: number; text: string }[] = [];
    const milled: { on: number; text: string }[] = [];
    const outward = (
      side: readonly Step[],
      end: 'left' | 'right',
    ): { lines: string[]; steps: readonly Step[]; smallest: number; room: number } => {
      let across = collar;
      let room = 0;
      const lines = side.map(({ kind, less, long: length, fine, fit, width, hand, smooth }, index) => {
        const closed = index + 1 < side.length && side[index + 1]?.kind === 'journal';
        const half = grid(fine ? 1 : 10);
        room += kind === 'groove' ? 300 : length;
        if (kind === 'groove' && closed) return `groove ${grid(across - 900)}~${grid(10)} ${grid(300)}~${grid(10)}`;
        if (kind === 'neck' && closed) return `journal ${grid(across - 1000)}~${half} ${grid(length)}~${grid(10)}`;
        across -= less;
        if (kind === 'thread')
          return `thread ${unit === 'inch' ? '3/4-16' : 'M20x1.5'} ${grid(across)}~${grid(10)} ${grid(length)}~${grid(20)}`;
        if (kind === 'taper') {
          const large = across;
          across -= 300;
          return `taper ${grid(large)}~${grid(10)} ${grid(length)}~${grid(10)} small:${grid(across)} to:${end}`;
        }
        const mate = {
          '': '',
          bore: `bore:${grid(across + 3)}`,
          tight: `bore:${grid(across - 4)}`,
          bearing: `bearing:${grid(across)}`,
        };
        const words = [
          fine ? mate[fit] : '',
          width ? `width:${grid(length - 20)}` : '',
          fine ? hand : '',
          smooth ? 'ra:1.6' : '',
          width || faces === '' ? '' : `face:${faces === 'apart' ? end : faces}`,
        ].filter((word) => word !== '');
        return [`journal ${grid(across)}~${half} ${grid(length)}~${grid(10)}`, ...words].join(' ');
      });
      return { lines, steps: side, smallest: across, room };
    };
    const onLeft = outward(left, 'left');
    const onRight = outward(right, 'right');
    // The cam is outermost on its side, inside what lies behind it, and long enough to be worth it.
    const behind = camToward === 'left' ? onLeft : onRight;
    const cams =
      cam === null
        ? []
        : [`offset ${grid(behind.smallest - 2 * cam - 50)}~${grid(1)} ${grid(1200)}~${grid(10)} throw:${grid(cam)}`];
    const turned = [
      ...(camToward === 'left' ? cams : []),
      ...[...onLeft.lines].reverse(),
      `collar ${grid(collar)}~${grid(10)} ${grid(long)}~${grid(10)}`,
      ...onRight.lines,
      ...(camToward === 'right' ? cams : []),
    ];
    const collarAt = (camToward === 'left' ? cams.length : 0) + left.length;
    const place = (side: 'left' | 'right', index: number): number =>
      side === 'left' ? collarAt - 1 - index : collarAt + 1 + index;
    for (const [side, { steps: on, lines }] of [
      ['left', onLeft],
      ['right', onRight],
    ] as const)
      on.forEach(({ edge, cut, angle }, index) => {
        if (lines[index]?.startsWith('journal') !== true) return;
        const at = place(side, index);
        const inboard = side === 'left' ? 'right' : 'left';
        if (edge === 'chamfer') edges.push({ on: at, text: `chamfer:@,${side},${grid(50)}` });
        if (edge === 'undercut') edges.push({ on: at, text: `undercut:@,${inboard},${grid(200)},${grid(30)}` });
        if (edge === 'fillet') edges.push({ on: at, text: `fillet:@,${inboard},${grid(50)}` });
        const turn = angle === 0 ? '' : ` angle:${angle}`;
        if (cut === 'flat')
          milled.push({ on: at, text: `flat:@,${grid(100)},${grid(600)}${turn}${edge === 'chamfer' ? ' ra:1.6' : ''}` });
        if (cut === 'keyway') milled.push({ on: at, text: `keyway:@,${grid(400)},${grid(200)},${grid(800)}${turn}` });
        if (cut === 'hole') milled.push({ on: at, text: `hole:@,${grid(500)}${turn}` });
        if (cut === 'pocket') milled.push({ on: at, text: `pocket:@,${grid(400)},${grid(300)}` });
        if (cut === 'box')
          milled.push({ on: at, text: `box:@,${grid(700)},${grid(100)},${grid(800)}${turn} along:${grid(500)}` });
      });
    const smoothBore = left.some(({ smooth }) => smooth);
    const ends = (
      [
        ['left', drawn.holes[0]],
        ['right', drawn.holes[1]],
      ] as const
    ).flatMap(([end, what]): string[] => {
      switch (what) {
        case 'centre':
          return [`${end} centre`];
        case 'drilled':
          return [`${end} drilled ${grid(600)} ${grid(900)}`];
        case 'tapped':
          return [`${end} M8x1.25 ${grid(680)} ${grid(900)} ${grid(600)}`];
        case 'bored':
          return [
            `${end} bored ${grid(1000)}~${grid(1)} ${grid(600)}~${grid(10)} ${grid(850)} ${grid(800)}${inBore === '' ? '' : inBore === 'shaft' ? ` shaft:${grid(997)}` : ` ring:${grid(1001)} fit:N7`}${smoothBore ? ' ra:1.6' : ''}`,
          ];
        case '':
          return [];
      }
    });
    const total = long + onLeft.room + onRight.room + (cam === null ? 0 : 1200);
    const roomy = bar || left.length === 0 || right.length === 0 || cam !== null;
    return {
      turned,
      collar: collarAt,
      edges,
      ends,
      milled,
      rest: {
        id: 'drawn',
        unit,
        stock: `${grid(collar + 300)} ${grid(total + (roomy ? 9000 : 200))} steel`,
        tool,
        condition,
        form,
        lathe: OUTFITS[outfit] ?? {},
      },
    };
  });

/** What may be left out of a drawn part: one turned feature with all that stands on it, one edge, one end, one cut. */
export type Without = { readonly turned?: number; readonly edge?: number; readonly end?: number; readonly milled?: number };

/** The drawn part in the notation, with something left out. */
export function asInvented({ turned, edges, ends, milled, rest }: Drawn, without: Without = {}): Invented {
  const name = (on: number): string => `on${without.turned !== undefined && on > without.turned ? on : on + 1}`;
  const on = (list: Drawn['edges'], out: number | undefined): string =>
    list
      .filter((member, index) => index !== out && member.on !== without.turned)
      .map(({ on: at, text }) => text.replace('@', name(at)))
      .join('; ');
  return {
    ...rest,
    turned: turned.filter((_, index) => index !== without.turned).join('; '),
    edges: on(edges, without.edge),
    ends: ends.filter((_, index) => index !== without.end).join('; '),
    milled: on(milled, without.milled),
  };
}

/** Everything that may be left out, one at a time. */
export const leavable = ({ turned, collar, edges, ends, milled }: Drawn): readonly Without[] => [
  ...turned.map((_, index) => ({ turned: index })).filter(({ turned: index }) => index !== collar),
  ...edges.map((_, index) => ({ edge: index })),
  ...ends.map((_, index) => ({ end: index })),
  ...milled.map((_, index) => ({ milled: index })),
];
