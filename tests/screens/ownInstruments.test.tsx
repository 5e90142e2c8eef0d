// @vitest-environment happy-dom
import { describe, expect, test } from 'vitest';
import { madeFits, planSchema, type Plan } from '../../src/job/index.ts';
import { thou, type OwnInstrument } from '../../src/measure/index.ts';
import { draftOfPart, editDraft, readDraft } from '../../src/part/index.ts';
import { jobFileOf, readJobFile, writeJobFile } from '../../src/shelf/index.ts';
import { inchPlan } from '../../src/screens/gallery/plans.ts';
import { SCENES } from '../../src/screens/gallery/scenes.ts';
import { layoutWords } from '../../src/screens/layout/layoutWords.ts';
import { planOf } from '../../src/screens/layout/planOf.ts';
import { routeOf } from '../../src/screens/layout/useRoute.ts';
import { recordWords } from '../../src/screens/record/recordWords.ts';
import { words } from '../../src/screens/words.ts';
import { after, press, showPage } from './show.tsx';

const w = layoutWords.instruments;
const scene = (name: string) => {
  const made = SCENES[name]?.();
  if (made === undefined) throw new Error(`no scene "${name}"`);
  return made;
};
const own: readonly OwnInstrument[] = [{ kind: 'caliper', resolution: thou(1), permissibleError: thou(1.5) }];

describe('own instruments from the desk to the file and back', () => {
  const draft = draftOfPart(inchPlan.part, inchPlan.machines, 'd');
  const planned = (from: typeof draft): Plan => {
    const reading = readDraft(from);
    const plan = planOf(reading, routeOf(from, reading));
    if (plan === null) throw new Error(JSON.stringify(reading.problems));
    return plan;
  };

  test('a plan, its file, and a draft of it hold them as they were typed', () => {
    const typed = [
      { edit: 'type-instrument', kind: 'caliper', figure: 'resolution', text: '.001' },
      { edit: 'type-instrument', kind: 'caliper', figure: 'permissibleError', text: '1.5 thou' },
    ] as const;
    const plan = planned(typed.reduce(editDraft, draft));
    expect(plan.instruments).toEqual(own);
    const read = readJobFile(writeJobFile(jobFileOf({ id: 'j', startedAt: 0, plan, events: [] })));
    if (!read.ok) throw new Error(JSON.stringify(read.error));
    expect(read.value.plan).toEqual(plan);
    const { part, machines, instruments } = read.value.plan;
    expect(readDraft(draftOfPart(part, machines, 'again', instruments)).instruments).toEqual(own);
  });

  test('a plan without any names none', () => {
    expect(planned(draft)).not.toHaveProperty('instruments');
    expect(planSchema.encode(planned(draft))).not.toHaveProperty('instruments');
  });
});

describe('the table of instruments at the desk', () => {
  const field = (column: string): HTMLInputElement => {
    const label = w.field(words.instruments.caliper, column);
    const found = document.querySelector<HTMLInputElement>(`input[aria-label="${label}"]`);
    if (found === null) throw new Error(`no field "${label}"`);
    return found;
  };
  const type = (into: HTMLInputElement, text: string): Promise<void> =>
    after(() => {
      Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(into, text);
      into.dispatchEvent(new Event('input', { bubbles: true }));
    });
  const key = (pressed: string, held: KeyboardEventInit): Promise<void> =>
    after(() => document.dispatchEvent(new KeyboardEvent('keydown', { key: pressed, bubbles: true, ...held })));

  test('shows the standard figures where nothing is typed, keeps what is, says what is wrong, and goes back in one press', async () => {
    const store = scene('layout-inch');
    await showPage(store);
    await key('3', { altKey: true });
    const step = w.columns.step;
    expect([field(step).value, field(step).placeholder]).toEqual(['', '0.5 thou']);
    await type(field(step), '.00');
    await type(field(step), '.001');
    expect(store.getState().draft?.instruments).toEqual([{ kind: 'caliper', resolution: '.001', permissibleError: '' }]);
    await type(field(w.columns.error.inch), 'half a thou');
    const wrong = field(w.columns.error.inch);
    expect([wrong.value, wrong.getAttribute('aria-invalid')]).toEqual(['half a thou', 'true']);
    expect(document.getElementById(wrong.getAttribute('aria-describedby') ?? '')?.textContent).toContain('is not a size');
    expect(document.querySelector('.wanted')?.textContent).toContain('caliper, Off by at most');
    // Undo takes back a field at a time, as in every other table.
    await key('z', { ctrlKey: true });
    expect(field(w.columns.error.inch).value).toBe('');
    expect(field(step).value).toBe('.001');
    await press(layoutWords.named(w.standard, words.instruments.caliper));
    expect(store.getState().draft?.instruments).toEqual([]);
    await key('z', { ctrlKey: true });
    expect(field(step).value).toBe('.001');
  });
});

describe('the record of a job with own instruments', () => {
  const withOwn = () => {
    const store = scene('record');
    const { job } = store.getState();
    if (job === null) throw new Error('no job');
    const gauge: OwnInstrument = { kind: 'telescoping-gauge', resolution: null, permissibleError: thou(0.7) };
    const unused: OwnInstrument = { kind: 'rule', resolution: null, permissibleError: thou(10) };
    store.setState({ job: { ...job, state: { ...job.state, plan: { ...job.state.plan, instruments: [gauge, unused] } } } });
    return store;
  };

  test('names the figures of those that were read with, and no others', async () => {
    await showPage(withOwn());
    const said = recordWords.page.ownInstruments(
      [recordWords.page.ownInstrument(words.instruments['telescoping-gauge'], null, '0.7 thou')],
      'inch',
    );
    expect(document.querySelector('.sheet')?.textContent).toContain(said);
  });

  test('draws the bore with what its gauge may be off', () => {
    const state = withOwn().getState().job?.state;
    if (state === undefined) throw new Error('no job');
    expect(madeFits(state).map(({ hole }) => hole.uncertainty)).toEqual([thou(0.7)]);
  });

  test('says nothing of instruments where all are standard', async () => {
    await showPage(scene('record'));
    expect(document.querySelector('.sheet')?.textContent).not.toContain('own instruments');
  });
});
