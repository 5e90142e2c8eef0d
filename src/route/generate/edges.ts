import { minus, nanometres, plus, times } from '../../measure/index.ts';
import type { EdgeFeature } from '../../part/index.ts';
import { ALLOWANCES } from './allowances.ts';
import { fluid, groovingCut, rpmAt, speedWhy, TOOL_NAMES } from './cuts.ts';
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
  const swings = bar.offset > 0 ? (['eccentric'] as const) : [];
  return on(work, bar).flatMap((edge): Step[] => {
    if (!here(edge, ends)) return [];
    const name = inSentence(edge);
    switch (edge.kind) {
      case 'undercut': {
        const aim = minus(bar.diameter, times(edge.depth, 2));
        const { undercutOff } = ALLOWANCES[part.unit];
        const cut = groovingCut(lathe, bar.diameter, grooveTool(work, edge.width), swings, false);
        return [
          {
            id: `undercut-${edge.id}`,
            kind: 'groove',
            title: `Cut the ${name}: ${bare(edge.width, part.unit)} wide, down to ${bare(aim, part.unit)}`,
            say: `Cut the ${name}`,
            feature: edge.id,
            target: target('diameter', { low: minus(aim, undercutOff), aim, high: plus(aim, undercutOff) }, bar.diameter, null),
            instrument: 'caliper',
            cut,
            stop: place,
            ...(bar.offset > 0 ? { caution: 'out-of-balance' as const } : {}),
            note: `Against the shoulder of the ${inSentence(bar.feature)}: it gives ${bar.feature.kind === 'thread' ? 'the threading tool' : 'the corner of its mate'} room.`,
            why: [speedWhy(lathe, bar.diameter, ['part', ...swings], cut.speedRpm)],
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
              speedRpm: rpmAt(lathe, bar.diameter, ['part', ...swings]),
              feedPerTurn: null,
              depthOnRadius: null,
              last: null,
              spring: false,
              note: `Half the speed: a wide edge chatters. ${fluid(lathe)}.`,
            },
            stop: place,
            ...(bar.offset > 0 ? { caution: 'out-of-balance' as const } : {}),
            note: 'Touch the diameter and the shoulder, no more; check with a radius gauge.',
            why: [speedWhy(lathe, bar.diameter, ['part', ...swings], rpmAt(lathe, bar.diameter, ['part', ...swings]))],
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
    const swings = bar.offset > 0 ? (['eccentric'] as const) : [];
    const speedRpm = rpmAt(lathe, thinnestOf(bar), swings);
    const across = nanometres(Math.round(edge.size * Math.tan((edge.degrees * Math.PI) / 180)));
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
          speedRpm,
          feedPerTurn: null,
          depthOnRadius: null,
          last: null,
          spring: false,
          note: null,
        },
        ...(bar.offset > 0 ? { caution: 'out-of-balance' as const } : {}),
        note:
          edge.degrees === 45
            ? 'Touch the corner, zero the dial, then feed the size in.'
            : `${bare(edge.size, part.unit)} along is ${bare(across, part.unit)} on the radius: touch the corner, then the cross slide in so far in light cuts, each fed by the compound.`,
        why: [speedWhy(lathe, thinnestOf(bar), swings, speedRpm)],
        angle: edge.degrees,
        minutes: 4,
      },
    ];
  });
}
