import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eventBodySchema, folded, planSchema } from '../../src/job/index.ts';
import { FILE_VERSION, writeJobFile } from '../../src/shelf/index.ts';
import { chainStart, contentDigest, link } from '../../src/shelf/chain.ts';
import { atOnce } from '../../src/shelf/slices.ts';
import type { Json } from '../../src/shelf/json.ts';
import { memoryPages } from '../../src/shelf/memoryPages.ts';
import { shelfOver } from '../../src/shelf/shelfOver.ts';
import { carriedForward, PLAN_STEPS } from '../../src/shelf/steps.ts';
import { golden, goldenText, read } from './sample.ts';

const textOf = (version: number, name: string): string =>
  readFileSync(new URL(`../fixtures/job-files/v${version}/${name}.job.json`, import.meta.url), 'utf8');
const everythingText = textOf(2, 'everything');
const everything = read(everythingText);
const planIn = (text: string): Json => (JSON.parse(text) as { readonly plan: Json }).plan;

describe('golden file of version 2', () => {
  it('holds every kind of event and reads without a notice', () => {
    expect(everything.notices).toEqual([]);
    const kinds = eventBodySchema.options.map((body) => body.shape.type.value);
    expect([...new Set(everything.events.map(({ body }) => body.type))].sort()).toEqual([...kinds].sort());
  });

  it('is written as it was read', () => expect(writeJobFile(everything)).toBe(everythingText));

  it('is worked through to a state, with the route that was made anew and the note of its edit', () => {
    const state = folded(everything.plan, everything.events);
    expect(state.editing.edits).toHaveLength(1);
    expect(state.plan.route.operations.find(({ id }) => id === 'finish-hub-seat')?.note).toBe(
      'Hub is the one from the old machine.',
    );
    expect(state.plan.part.mates.find(({ id }) => id === 'hub')?.readings).toHaveLength(1);
  });

  it('has not been edited', () =>
    expect(atOnce(contentDigest(everything.kept.plan, everything.kept.events))).toBe(
      'b22af58c0538a2940ae0ea346eb4436b010c1baa63a50c7e2f0ed29ef6386256',
    ));
});

describe('a plan of version 1', () => {
  it('says after it is carried forward what its absences meant, and gives the same plan as before', () => {
    const carried = carriedForward(planIn(goldenText), 1, PLAN_STEPS) as typeof golden.plan;
    for (const operation of carried.route.operations)
      expect(operation).toMatchObject({ before: [], why: [], alternatives: [], angle: null, coordinates: [] });
    for (const { cut } of carried.route.operations) if (cut !== null) expect(cut).toMatchObject({ last: null, spring: false });
    for (const setup of carried.route.setups) expect(setup).toMatchObject({ why: [], alternatives: [] });
    expect(planSchema.parse(carried)).toEqual(planSchema.parse(planIn(goldenText)));
  });

  it('is written as one of the newest version, which is not carried any more', () => {
    const written = writeJobFile(golden);
    expect(JSON.parse(written)).toMatchObject({ version: FILE_VERSION });
    const again = read(written);
    expect(again).toEqual({ ...golden, olderPlan: null });
    expect(writeJobFile(again)).toBe(written);
  });

  it('keeps what a hand has set where version 1 had nothing', () => {
    const json = { route: { operations: [{ before: ['Oil in.'], cut: { spring: true } }, 'no operation'], setups: 3 } };
    expect(carriedForward(json, 1, PLAN_STEPS)).toEqual({
      route: {
        operations: [
          { before: ['Oil in.'], why: [], alternatives: [], angle: null, coordinates: [], cut: { last: null, spring: true } },
          'no operation',
        ],
        setups: 3,
      },
    });
  });

  it('is carried or left, never thrown at, whatever it holds; carried twice it is the same (seed 40421)', () => {
    const plans = fc.oneof(
      fc.jsonValue(),
      fc.record({ part: fc.jsonValue(), route: fc.record({ setups: fc.jsonValue(), operations: fc.array(fc.jsonValue()) }) }),
    );
    fc.assert(
      fc.property(plans, (json) => {
        const once = carriedForward(json as Json, 1, PLAN_STEPS);
        expect(carriedForward(once, 1, PLAN_STEPS)).toEqual(once);
      }),
      { seed: 40421, numRuns: 300 },
    );
  });
});

describe('a job that a build of version 1 has stored', () => {
  const origin = atOnce(contentDigest(JSON.stringify(planIn(goldenText)), golden.kept.events));
  async function stored(from: string | null) {
    const pages = memoryPages();
    const [id, startedAt, plan] = ['golden-axle-1', golden.startedAt ?? 0, JSON.stringify(planIn(goldenText))];
    await pages.transact('write', ['jobs', 'heads', 'events'], async (open) => {
      let digest = chainStart(id, startedAt, plan);
      await open.add('jobs', { id, startedAt, version: 1, plan, rest: '{}', digest });
      for (const [index, text] of golden.kept.events.entries()) {
        digest = link(digest, text);
        const event = JSON.parse(text) as { readonly id: string };
        await open.add('events', { job: id, seq: index + 1, id: event.id, text, digest });
      }
      const events = golden.kept.events.length;
      await open.put('heads', {
        job: id,
        title: 'axle',
        invented: true,
        startedAt,
        changedAt: startedAt,
        events,
        digest,
        origin: from,
      });
    });
    return shelfOver(pages, () => 0);
  }
  const at = { newId: 'spare', at: 5 };

  it('opens undamaged with the same plan, and goes out as a file of the newest version', async () => {
    const shelf = await stored(null);
    const opened = await shelf.open('golden-axle-1');
    expect(opened.ok && [opened.value.damage, opened.value.plan]).toEqual([[], golden.plan]);
    const copy = await shelf.copy('golden-axle-1');
    expect(copy.ok && writeJobFile({ ...copy.value, clips: golden.clips })).toBe(writeJobFile(golden));
  });

  it('knows its file again, in the old form and in the new', async () => {
    const shelf = await stored(origin);
    const here = { ok: true, value: { as: 'already-here', id: 'golden-axle-1', newer: 0 } };
    expect(await shelf.take(golden, at)).toEqual(here);
    expect(await shelf.take(read(writeJobFile(golden)), at)).toEqual(here);
    expect(await shelf.take({ ...golden, job: null }, at)).toEqual(here);
  });
});
