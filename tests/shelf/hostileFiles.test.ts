import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeFileFault, memoryShelf, readJobFile, writeJobFile, type JobFile } from '../../src/shelf/index.ts';
import { elementText, findJsonFault, listNamed } from '../../src/shelf/jsonText.ts';
import { atOnce } from '../../src/shelf/slices.ts';
import { damaged, PLACE, WHAT_TO_DO } from './damage.ts';
import { seeded } from '../seeded.ts';
import { golden, goldenText } from './sample.ts';

describe('damaged and hostile files', () => {
  it.each([1, 2, 3, 4])('seed %i: 400 files neither throw nor pass in silence, and each message names a place', (seed) => {
    const pick = seeded(seed * 7919);
    let refused = 0;
    for (let count = 0; count < 400; count += 1) {
      const text = damaged(goldenText, pick);
      const file = readJobFile(text);
      if (file.ok) {
        // What still reads must be a job like any other: it is written and read again as the same.
        const again = readJobFile(writeJobFile(file.value));
        expect(again.ok && again.value.kept).toEqual(file.value.kept);
        continue;
      }
      refused += 1;
      const line = describeFileFault(file.error, 'axle.json');
      expect(line).toMatch(PLACE);
      expect(line).toMatch(WHAT_TO_DO);
      expect(line).not.toMatch(/[\p{Cc}\p{Cf}]/u);
      expect(line.length).toBeLessThan(750);
    }
    expect(refused).toBeGreaterThan(250);
  }, 30_000);

  it('seed 11: what is taken in of 150 damaged files changes no job that was stored before', async () => {
    const pick = seeded(11);
    const shelf = memoryShelf(() => 0);
    const first = await shelf.take(golden, { newId: 'unused', at: 0 });
    expect(first.ok).toBe(true);
    for (let count = 0; count < 150; count += 1) {
      const file = readJobFile(damaged(goldenText, pick));
      if (!file.ok) continue;
      const taken = await shelf.take(file.value, { newId: `copy-${count}`, at: 0 });
      expect(taken.ok).toBe(true);
    }
    const copy = await shelf.copy('golden-axle-1');
    const before = (file: JobFile): JobFile['kept'] => ({ ...file.kept, events: file.kept.events.slice(0, golden.kept.events.length) });
    expect(copy.ok && before(copy.value)).toEqual(golden.kept);
  });

  it('a million brackets, and thirty thousand unknown fields, are answered in good time', () => {
    const deep = readJobFile('['.repeat(1_000_000));
    expect(deep.ok ? null : deep.error.key).toBe('too-deep');
    const names = Array.from({ length: 30_000 }, (_, index) => `"field${index}":${index}`).join(',');
    const wide = readJobFile(goldenText.replace('"invented": true,', `"invented": true,${names},`));
    expect(wide.ok && wide.value.notices).toHaveLength(30_000);
  }, 20_000);

  it.each(['a', '9'])('a value of five thousand times %s leaves room in the line for the place and what to do', (letter) => {
    const file = readJobFile(goldenText.replace('"low": "0.6235in"', `"low": "${letter.repeat(5000)}"`));
    const line = file.ok ? 'it reads' : describeFileFault(file.error, 'axle.json');
    expect(line).toMatch(/^axle\.json: plan\.part\.turned\[1\]\.diameter\.low /);
    expect(line).toMatch(/Correct it in a text editor, or export the job again\.$/);
  });

  it('names of the language do not reach the objects of the program', () => {
    const file = readJobFile(goldenText.replace('"invented": true', '"invented": true, "__proto__": {"title": "polluted"}, "constructor": 1'));
    expect(file.ok && file.value.plan.title).toBe(golden.plan.title);
    expect(({} as { title?: string }).title).toBeUndefined();
  });
});

describe('finding where a text stops being JSON', () => {
  const parses = (text: string): boolean => {
    try {
      JSON.parse(text);
      return true;
    } catch {
      return false;
    }
  };
  /** Whether both agree that the text is JSON, or is not; a number past a double is ours to refuse and does not count. */
  const agreed = (text: string): boolean => {
    const fault = atOnce(findJsonFault(text, 100));
    return fault?.key === 'number-too-large' || (fault === null) === parses(text);
  };
  const marks = fc.constantFrom('{', '}', '[', ']', ',', ':', '"', '"a"', '1', '-', '0', '.5', 'e3', 'true', 'nul', 'null', ' ', '\n', '\\', '\\u00e9', 'é');

  it('seed 21: agrees with the engine on short texts of JSON marks', () => {
    fc.assert(
      fc.property(fc.array(marks, { maxLength: 9 }).map((parts) => parts.join('')), (text) => {
        expect(agreed(text)).toBe(true);
      }),
      { seed: 21, numRuns: 20000 },
    );
  });

  it('seed 22: agrees with the engine on events, and on events with one letter changed', () => {
    fc.assert(
      fc.property(fc.constantFrom(...golden.kept.events), fc.nat(), marks, (text, where, letter) => {
        expect(atOnce(findJsonFault(text, 100))).toBeNull();
        const at = where % text.length;
        const changed = text.slice(0, at) + letter + text.slice(at + 1);
        expect(agreed(changed)).toBe(true);
      }),
      { seed: 22, numRuns: 2000 },
    );
  }, 30_000);

  it('seed 23: finds the elements of the list at the top as the engine reads them, the last list of the name', () => {
    const space = fc.constantFrom('', ' ', '\n  ', '\t');
    const value = fc.oneof(fc.json({ maxDepth: 2 }), fc.constantFrom('"a,"', '" ]"', '[]', '{"events":[1]}'));
    const element = fc.tuple(space, value, space).map((parts) => parts.join(''));
    const list = fc.array(element, { maxLength: 4 }).chain((elements) => space.map((gap) => `[${gap}${elements.join(',')}]`));
    const field = fc.tuple(fc.constantFrom('"events"', '"\\u0065vents"', '"other"'), space, fc.oneof(list, list, value));
    const text = fc.array(field, { maxLength: 4 }).map((fields) => `{${fields.map(([name, gap, is]) => `${gap}${name}:${is}`).join(',')}}`);
    fc.assert(
      fc.property(text, (json) => {
        const found = listNamed('events');
        if (atOnce(findJsonFault(json, 100, found)) !== null) return;
        const { events } = JSON.parse(json) as { readonly events?: unknown };
        expect(found.from >= 0).toBe(Array.isArray(events));
        if (!Array.isArray(events)) return;
        expect(found.starts.map((_, index) => JSON.parse(elementText(json, found, index)) as unknown)).toEqual(events);
        const around = json.slice(0, found.from + 1) + json.slice(found.end);
        expect(JSON.parse(around)).toEqual({ ...(JSON.parse(json) as object), events: [] });
      }),
      { seed: 23, numRuns: 2000 },
    );
  });
});
