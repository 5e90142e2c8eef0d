// @vitest-environment happy-dom
import { describe, expect, test, vi } from 'vitest';
import { SCENES } from '../../src/screens/gallery/scenes.ts';
import { recordWords } from '../../src/screens/record/recordWords.ts';
import { words } from '../../src/screens/words.ts';
import { after, calls, showPage } from './show.tsx';

const rowsOf = (table: string): string[] =>
  [...document.querySelectorAll(`${table} tbody tr`)].map((row) => row.querySelector('.size')?.textContent ?? '');

const scene = (name: string) => {
  const made = SCENES[name]?.();
  if (made === undefined) throw new Error(`no scene "${name}"`);
  return made;
};

describe('the record', () => {
  test('shows the readings that stand first, and the struck ones after, struck out and named so', async () => {
    await showPage(scene('record'));
    expect(rowsOf('.readings:not(.is-struck)')).toEqual(['1.0004', '1.0007', '1.0003', '1.0122', '1.0012', '.9988']);
    expect(rowsOf('.readings.is-struck')).toEqual(['1.0022']);
    const tables = [...document.querySelectorAll('table')];
    expect(tables[0]?.classList.contains('is-struck')).toBe(false);
    expect(document.querySelector('.is-struck s')?.textContent).toBe('1.0022');
    expect(document.querySelector('.is-struck tbody')?.textContent).toContain(recordWords.page.struckMark);
  });

  test('says what was wanted, where each reading lies, with what it was taken, and how it felt', async () => {
    await showPage(scene('record'));
    const page = document.body.textContent;
    for (const said of [
      '.9983 to .9993',
      recordWords.page.inWindow,
      recordWords.page.outside,
      'telescoping gauge',
      recordWords.page.felt('slides'),
      words.invented,
    ])
      expect(page).toContain(said);
  });

  test('saves the job as the file that the assistant gives', async () => {
    const store = scene('record');
    await showPage(store);
    const made = vi.spyOn(URL, 'createObjectURL').mockReturnValue('blob:x');
    const clicked = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => undefined);
    const save = [...document.querySelectorAll('button')].find((one) => one.textContent === recordWords.page.save);
    await after(() => save?.click());
    expect(calls(store, 'exportJob')).toHaveLength(1);
    expect(made).toHaveBeenCalledOnce();
    expect((clicked.mock.contexts[0] as HTMLAnchorElement).download).toBe('here.job.json');
    vi.restoreAllMocks();
  });
});

describe('the record of a piece that was made', () => {
  const pictures = (): string[] =>
    [...document.querySelectorAll('.history-drawing svg')].map((svg) => svg.getAttribute('aria-label') ?? '');

  test('shows what each cut took against what was dialled, and what the filing took', async () => {
    await showPage(scene('record-made'));
    const [cuts = '', filing = ''] = pictures();
    expect(cuts).toContain(
      `${recordWords.cuts('Arm journal', 'diameter')}. 1.1915: 58.9 thou of 60 thou. 1.0725: .119 in of .120 in`,
    );
    expect(filing).toContain(`${recordWords.filing('Arm journal', 'diameter')}. 1.0007: 0.7 thou, 2 rounds`);
    // A bar a row and a line for what was dialled, which no filing has.
    const [cutsDrawn, filingDrawn] = [...document.querySelectorAll('.history-drawing svg')];
    expect(cutsDrawn?.querySelectorAll('rect.is-cuts').length).toBe(cutsDrawn?.querySelectorAll('.history-dialled').length);
    expect(filingDrawn?.querySelectorAll('rect.is-filing')).toHaveLength(3);
    expect(filingDrawn?.querySelectorAll('.history-dialled')).toHaveLength(0);
  });

  test('plays a memo from its sound, and says so where that is gone', async () => {
    const made = vi.spyOn(URL, 'createObjectURL').mockReturnValue('blob:memo');
    vi.spyOn(HTMLMediaElement.prototype, 'play').mockResolvedValue();
    const store = scene('record-made');
    store.setState({ memo: () => Promise.resolve(new Uint8Array([82, 73, 70, 70])) });
    await showPage(store);
    const play = (): HTMLButtonElement | undefined =>
      [...document.querySelectorAll('button')].find((one) => one.getAttribute('aria-label')?.startsWith(recordWords.notes.play));
    await after(() => play()?.focus());
    await after(() => play()?.click());
    expect(document.querySelector('audio')?.getAttribute('src')).toBe('blob:memo');
    expect(document.activeElement).toBe(document.querySelector('audio'));
    expect((made.mock.calls[0]?.[0] as Blob).type).toBe('audio/wav');

    const gone = scene('record-made');
    document.body.replaceChildren();
    await showPage(gone);
    await after(() => play()?.click());
    expect(document.body.textContent).toContain(recordWords.notes.lost);
    expect(calls(gone, 'memo')).toEqual([['clip']]);
    vi.restoreAllMocks();
  });

  test('makes it again: a new job by the same plan', async () => {
    const store = scene('record-made');
    await showPage(store);
    const again = [...document.querySelectorAll('button')].find((one) => one.textContent === recordWords.again);
    await after(() => again?.click());
    expect(calls(store, 'startJob')).toEqual([[store.getState().job?.state.plan]]);
  });
});

describe('the list of jobs', () => {
  test('opens the job that is pressed, and starts either demo', async () => {
    const store = scene('jobs');
    await showPage(store);
    const choices = [...document.querySelectorAll<HTMLButtonElement>('.choice')];
    await after(() => choices[1]?.click());
    expect(calls(store, 'openJob')).toEqual([['b']]);
  });

  test('gives the text of a chosen file to the assistant, the same file twice if need be', async () => {
    const store = scene('jobs');
    await showPage(store);
    const field = document.querySelector<HTMLInputElement>('input[type=file]');
    if (field === null) throw new Error('no file field');
    for (let times = 0; times < 2; times += 1) {
      Object.defineProperty(field, 'files', { configurable: true, value: [new File(['{"a":1}'], 'bracket.json')] });
      await after(() => field.dispatchEvent(new Event('change', { bubbles: true })));
      await vi.waitFor(() => {
        expect(calls(store, 'importJob')).toHaveLength(times + 1);
      });
    }
    expect(calls(store, 'importJob')[1]).toEqual(['bracket.json', '{"a":1}']);
  });
});
