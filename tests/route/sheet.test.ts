import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { spokenRoute } from '../../src/cli/spokenRoute.ts';
import { draftOfPart, readDraft, readPartFile } from '../../src/part/index.ts';
import { sizeWords, hyphened } from '../../src/phrasebook/index.ts';
import { CAUTIONS, routeFor, routeSheet } from '../../src/route/index.ts';
import { demoPlan, DEMOS } from './demos.ts';

const goldens = (demo: string): string => readFileSync(new URL(`golden/demo-${demo}-computed.txt`, import.meta.url), 'utf8');

describe.each(DEMOS)('the sheet of demo:%s', (demo) => {
  const { part, machines, ...rest } = demoPlan(demo);
  const route = routeFor(part, machines, 'high-speed-steel');
  if (!route.ok) throw new Error('it cannot be made');
  const sheet = routeSheet(part, machines, route.value);

  test('is no wider than a page', () => {
    for (const line of [...sheet.split('\n'), ...goldens(demo).split('\n')]) expect(line.length).toBeLessThanOrEqual(100);
  });

  test('gives every step a box to tick, and every size room for its reading', () => {
    expect(sheet.match(/^ *\d+ \[ \] /gm)?.length).toBe(route.value.operations.length);
    expect(sheet.match(/^ +read +_/gm)?.length).toBe(route.value.operations.filter(({ target }) => target !== null).length);
  });

  test('says each caution in full once', () => {
    for (const key of new Set(route.value.operations.flatMap(({ caution }) => (caution === null ? [] : [caution])))) {
      const [opening = ''] = CAUTIONS[key].shown.split('. ');
      const running = sheet.replace(/\n +/g, ' ');
      expect(running.split(opening).length - 1).toBe(1);
    }
  });

  test('marks what is passed over', () => {
    const [first] = route.value.operations;
    const marked = routeSheet(part, machines, route.value, [first?.id ?? '']);
    expect(marked).toContain(`  1 [-] ${first?.title ?? ''} (skipped)`);
  });

  test('is spoken from the same data: each step by its number, with the size that is printed', () => {
    const said = spokenRoute({ ...rest, part, machines, route: route.value }, [])
      .trimEnd()
      .split('\n');
    expect(said.length).toBe(route.value.operations.length);
    route.value.operations.forEach(({ say, target }, index) => {
      expect(said[index]).toContain(say.replace(/\.$/, ''));
      if (target?.quantity === 'diameter') expect(said[index]).toContain(hyphened(sizeWords(target.aim, part.unit)));
    });
  });
});

describe('names within a sentence', () => {
  const file = readPartFile(readFileSync(new URL('../fixtures/part-files/v3/everything.part.json', import.meta.url), 'utf8'));
  if (!file.ok) throw new Error('the example does not read');
  // Laid out at the desk, where a mate is called by its name: "Bore of the hub".
  const read = readDraft(draftOfPart(file.value.part, file.value.machines, 'd'));
  if (read.part === null || read.machines === null) throw new Error('the draft does not read');
  const { part, machines } = { part: read.part, machines: read.machines };

  test('stand without their capital, on the sheet and when they are spoken', () => {
    const route = routeFor(part, machines, 'high-speed-steel');
    if (!route.ok) throw new Error('it cannot be made');
    const texts = [
      ...route.value.setups.flatMap(({ title, say, holding, why, alternatives }) => [
        title,
        say,
        holding,
        ...why,
        ...alternatives,
      ]),
      ...route.value.operations.flatMap(({ title, say, note, before, why, alternatives }) => [
        title,
        say,
        note ?? '',
        ...before,
        ...why,
        ...alternatives,
      ]),
    ];
    expect(texts).toContain('Measure the bore of the hub');
    const names = [...part.mates, ...part.turned, ...part.edges, ...part.ends, ...part.milled].map(({ name }) => name);
    const capital = names.filter((name) => /^\p{Lu}\p{Ll}/u.test(name));
    expect(capital.length).toBeGreaterThan(15);
    for (const name of capital) for (const text of texts) expect(text).not.toMatch(new RegExp(`[a-z,] ${name}\\b`));
  });
});
