// @vitest-environment happy-dom
import { describe, expect, test } from 'vitest';
import { deviationsOf, madeFits } from '../../src/job/index.ts';
import { inches, thou, type Length } from '../../src/measure/index.ts';
import { fitLayout } from '../../src/screens/drawing/fitLayout.ts';
import { draftOfPart, editDraft, readDraft } from '../../src/part/index.ts';
import { routeFor, type Route } from '../../src/route/index.ts';
import { inchPlan } from '../../src/screens/gallery/plans.ts';
import { SCENES } from '../../src/screens/gallery/scenes.ts';
import { changeLines } from '../../src/screens/layout/changeLines.ts';
import { readKeyMap, USUAL_KEYS, withKey } from '../../src/screens/machine/keyMap.ts';
import { keyDeed } from '../../src/screens/machine/keys.ts';
import { after, calls, keyDown, showPage } from './show.tsx';

const scene = (name: string) => {
  const made = SCENES[name]?.();
  if (made === undefined) throw new Error(`no scene "${name}"`);
  return made;
};

describe('the picture of a fit', () => {
  const hole = { low: inches(1), high: inches(1.0004), uncertainty: thou(0.1) };
  const shaft = { low: inches(0.9983), high: inches(0.9993) };

  test('holds hole and shaft to one scale, the hole above a shaft that is clear of it', () => {
    const layout = fitLayout(hole, shaft, []);
    expect(layout.shaft.to).toBeLessThan(layout.hole.from);
    const perThou = (layout.shaft.to - layout.shaft.from) / 1;
    expect((layout.hole.from - layout.shaft.to) / 0.7).toBeCloseTo(perThou, 9);
  });

  test('says which way a reading lies that the picture cannot hold', () => {
    const readings = [inches(1.01), inches(0.9988), inches(0.99)].map((value, at) => ({
      id: String(at),
      value,
      within: 0 as Length,
    }));
    expect(fitLayout(hole, shaft, readings).readings.map(({ off }) => off)).toEqual(['over', null, 'under']);
  });
});

describe('the record', () => {
  test('names what was done without being measured, and draws the fit to the measured bore', () => {
    const state = scene('record').getState().job?.state;
    if (state === undefined) throw new Error('no job');
    expect(deviationsOf(state)).toContainEqual({ key: 'not-measured', name: 'Collar', quantity: 'diameter' });
    expect(madeFits(state).map(({ name, hole }) => [name, hole.low, hole.high])).toEqual([
      ['Arm journal', inches(1.0003), inches(1.0007)],
    ]);
  });
});

describe('keys of one’s own', () => {
  test('a key is given to one thing only, and never one that means something here', () => {
    expect(withKey(USUAL_KEYS, 'next', 'PageUp')).toBe('twice');
    for (const key of ['5', 'Enter', 'Escape', 'Backspace', 't', 'Tab']) expect(withKey(USUAL_KEYS, 'talk', key)).toBe('taken');
    expect(withKey(USUAL_KEYS, 'talk', 'F9')).toEqual({ ...USUAL_KEYS, talk: 'F9' });
  });

  test('does what it was given, and the key before it no more', () => {
    const map = { ...USUAL_KEYS, next: 'ArrowRight' };
    const press = (key: string) => keyDeed({ key, withModifier: false, inField: false, onControl: false }, map);
    expect([press('ArrowRight'), press('PageDown'), press('PageUp')]).toEqual([{ do: 'next' }, null, { do: 'back' }]);
  });

  test.each([[null], ['not json'], ['[]'], ['{"next":"5","back":"PageDown"}'], ['7']])(
    'kept keys that make no sense (%s) are the usual ones',
    (kept) => {
      expect(readKeyMap(kept)).toEqual(USUAL_KEYS);
    },
  );
});

describe('the desk', () => {
  test('says what cannot be read at its field, and keeps what was typed', async () => {
    await showPage(scene('layout-wrong'));
    const wrong = [...document.querySelectorAll<HTMLInputElement>('input[aria-invalid=true]')];
    expect(wrong.map(({ value }) => value)).toEqual(['about an inch']);
    const under = document.getElementById(wrong[0]?.getAttribute('aria-describedby') ?? '');
    expect(under?.textContent).toContain('is not a size');
    expect(document.querySelector('.wanted h2')?.textContent).toMatch(/still wanted/);
  });

  test('a new row is kept at once, and undo takes it back', async () => {
    const store = scene('layout-inch');
    await showPage(store);
    const before = store.getState().draft?.turned.length ?? 0;
    const add = document.querySelector<HTMLButtonElement>('button[aria-label="Add: Collar"]');
    await after(() => add?.click());
    expect(store.getState().draft?.turned).toHaveLength(before + 1);
    expect(calls(store, 'keepDraft')).toHaveLength(1);
    await after(() => document.dispatchEvent(new KeyboardEvent('keydown', { key: 'z', ctrlKey: true, bubbles: true })));
    expect(store.getState().draft?.turned).toHaveLength(before);
  });

  test('the very next key after a row was added goes into its first field', async () => {
    const store = scene('layout-inch');
    await showPage(store);
    let focused: Element | null = null;
    await after(() => {
      document.querySelector<HTMLButtonElement>('button[aria-label="Add: Journal"]')?.click();
      focused = document.activeElement;
    });
    const added = store.getState().draft?.turned.at(-1)?.id;
    expect(focused).not.toBeNull();
    expect(focused).toBe(document.getElementById(`field-${added}-name`));
  });

  test('Escape closes what was opened, keeps a note that was typed, and gives the focus back', async () => {
    const store = scene('layout-inch');
    await showPage(store);
    const fits = document.querySelector<HTMLButtonElement>('.fit-chooser > button');
    await after(() => fits?.click());
    await after(() => document.querySelector<HTMLButtonElement>('.fits td button')?.focus());
    await keyDown('Escape');
    expect(document.querySelector('.fits')).toBeNull();
    expect(document.activeElement).toBe(fits);
    await after(() => document.dispatchEvent(new KeyboardEvent('keydown', { key: '4', altKey: true, bubbles: true })));
    const change = document.querySelector<HTMLButtonElement>('button[aria-label^="Change: Turn the collar"]');
    await after(() => change?.click());
    const note = document.querySelector<HTMLInputElement>('[id^="note-"]');
    await after(() => note?.focus());
    await after(() => {
      Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(note, 'Brass shim under the jaws');
      note?.dispatchEvent(new Event('input', { bubbles: true }));
    });
    await keyDown('Escape');
    expect(document.querySelector('[id^="note-"]')).toBeNull();
    expect(document.activeElement).toBe(change);
    expect(document.querySelector('.layout-sheet')?.textContent).toContain('Brass shim under the jaws');
  });

  test('a step that cannot be moved says so at the step, not at the top of a long list', async () => {
    const store = scene('layout-inch');
    await showPage(store);
    await after(() => document.dispatchEvent(new KeyboardEvent('keydown', { key: '4', altKey: true, bubbles: true })));
    const down = document.querySelector<HTMLButtonElement>('button[aria-label^="Down: Part off"]');
    await after(() => down?.click());
    const said = document.querySelector('[role=alert]');
    expect(said?.textContent).toContain('Move it within that set-up');
    expect(said?.closest('.route-step')?.contains(down)).toBe(true);
  });
});

describe('what a new reading of a mate changed', () => {
  const routeAt = (readings: string): Route => {
    const draft = draftOfPart(inchPlan.part, inchPlan.machines, 'd');
    const [bore, journal] = [draft.mates[0], draft.turned.find(({ values }) => values['name'] === 'Arm journal')];
    const edited = editDraft(
      editDraft(draft, { edit: 'type', group: 'mates', row: bore?.id ?? '', field: 'readings', text: readings }),
      { edit: 'type', group: 'turned', row: journal?.id ?? '', field: 'diameter', text: 'slide' },
    );
    const { part, machines } = readDraft(edited);
    const route = part === null || machines === null ? null : routeFor(part, machines, edited.tool);
    if (route?.ok !== true) throw new Error('no route');
    return route.value;
  };

  test('is a line for each size that moved, with what it was; what follows from it is not said again', () => {
    expect(changeLines(routeAt('1.0004, 1.0006'), routeAt('1.0010, 1.0012'), 'inch')).toEqual([
      'Rough the arm journal to 1.0344: 1.0344 in, was 1.0338 in',
      'Rough the arm journal to 1.0344: depth of cut .037 in, now .036 in',
      'Finish the arm journal to 1.0024, with its shoulder: 1.0019 to 1.0029 in, was 1.0013 to 1.0023 in',
      'File the arm journal to .9999: .9996 to 1.0002 in, was .9990 to .9996 in',
    ]);
  });

  test('the same reading again moves nothing', () => {
    expect(changeLines(routeAt('1.0004, 1.0006'), routeAt('1.0006, 1.0004'), 'inch')).toEqual([]);
  });
});
