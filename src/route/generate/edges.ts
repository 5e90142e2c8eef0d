import { minus, plus, thou, times } from '../../measure/index.ts';
import type { EdgeFeature } from '../../part/index.ts';
import { groovingCut, rpmAt, TOOL_NAMES } from './cuts.ts';
import { bare, inSentence, target, type Step, type Work } from './draft.ts';
import { thinnestOf, type Bar } from './layout.ts';
import { grooveTool } from './necks.ts';
import type { Place } from './sideSteps.ts';

const on = ({ part }: Work, bar: Bar): readonly EdgeFeature[] => part.edges.filter((edge) => edge.on === bar.feature.id);

/** An edge of a bar that is cut where the work is held now; `all` for a bar of a side, else the end that faces that side. */
const here = (edge: EdgeFeature, ends: 'all' | 'left' | 'right'): boolean => ends === 'all' || edge.at === ends;

/** Undercuts, and fillets in shoulders: cut as soon as the diameter beside them is to size, before a thread needs the room. */
export function recessSteps(work: Work, bar: Bar, place: Place, ends: 'all' | 'left' | 'right' = 'all'): Step[] {
  const { part, lathe } = work;
  return on(work, bar).flatMap((edge): Step[] => {
    if (!here(edge, ends)) return [];
    const name = inSentence(edge);
    switch (edge.kind) {
      case 'undercut': {
        const aim = minus(bar.diameter, times(edge.depth, 2));
        return [
          {
            id: `undercut-${edge.id}`,
            kind: 'groove',
            title: `Cut the ${name}: ${bare(edge.width, part.unit)} wide, down to ${bare(aim, part.unit)}`,
            say: `Cut the ${name}`,
            feature: edge.id,
            target: target('diameter', { low: minus(aim, thou(5)), aim, high: plus(aim, thou(5)) }, bar.diameter, null),
            instrument: 'caliper',
            cut: groovingCut(lathe, bar.diameter, grooveTool(edge.width), bar.offset > 0 ? ['eccentric'] : [], false),
            stop: place,
            ...(bar.offset > 0 ? { caution: 'out-of-balance' as const } : {}),
            note: `Against the shoulder of the ${inSentence(bar.feature)}: it gives ${bar.feature.kind === 'thread' ? 'the threading tool' : 'the corner of its mate'} room.`,
            minutes: 6,
          },
        ];
      }
      case 'fillet':
        return [
          {
            id: `fillet-${edge.id}`,
            kind: 'fillet',
            title: `Form the ${name}, radius ${bare(edge.radius, part.unit)}`,
            say: `Form the ${name}`,
            feature: edge.id,
            cut: {
              tool: `radius tool, ${bare(edge.radius, part.unit)}, ${TOOL_NAMES[lathe.tool]}`,
              speedRpm: rpmAt(lathe, bar.diameter, ['part', ...(bar.offset > 0 ? (['eccentric'] as const) : [])]),
              feedPerTurn: null,
              depthOnRadius: null,
              last: null,
              spring: false,
              note: 'Half the speed and cutting oil: a wide edge chatters.',
            },
            stop: place,
            ...(bar.offset > 0 ? { caution: 'out-of-balance' as const } : {}),
            note: 'Touch the diameter and the shoulder, no more; check with a radius gauge.',
            minutes: 6,
          },
        ];
      case 'chamfer':
        return [];
    }
  });
}

/** Chamfers: once the diameters and lengths beside them are to size. */
export function chamferSteps(work: Work, bar: Bar, ends: 'all' | 'left' | 'right' = 'all'): Step[] {
  const { part, lathe } = work;
  return on(work, bar).flatMap((edge): Step[] => {
    if (edge.kind !== 'chamfer' || !here(edge, ends)) return [];
    const name = inSentence(edge);
    return [
      {
        id: `chamfer-${edge.id}`,
        kind: 'chamfer',
        title: `Chamfer the ${inSentence(bar.feature)}: ${bare(edge.size, part.unit)} at ${String(edge.degrees)} degrees`,
        say: `Cut the ${name}`,
        feature: edge.id,
        cut: {
          tool:
            edge.degrees === 45
              ? `chamfering tool, 45 degrees, ${TOOL_NAMES[lathe.tool]}`
              : `turning tool, compound at ${String(edge.degrees)} degrees, ${TOOL_NAMES[lathe.tool]}`,
          speedRpm: rpmAt(lathe, thinnestOf(bar), bar.offset > 0 ? ['eccentric'] : []),
          feedPerTurn: null,
          depthOnRadius: null,
          last: null,
          spring: false,
          note: null,
        },
        ...(bar.offset > 0 ? { caution: 'out-of-balance' as const } : {}),
        note: 'Touch the corner, zero the dial, then feed the size in.',
        angle: edge.degrees,
        minutes: 4,
      },
    ];
  });
}
