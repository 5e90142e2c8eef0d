// @vitest-environment happy-dom
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { inches } from '../../src/measure/index.ts';
import type { FakeStore } from '../../src/screens/gallery/fakeStore.ts';
import { SCENES } from '../../src/screens/gallery/scenes.ts';
import { loadTable } from '../../src/screens/machine/laterTable.ts';
import { words } from '../../src/screens/words.ts';
import { after, button, calls, keyDown, keyUp, press, show, text, type } from './show.tsx';

function shown(name: string): FakeStore {
  const store = SCENES[name]?.();
  if (store === undefined) throw new Error(`no scene "${name}"`);
  store.calls.length = 0;
  show(store);
  return store;
}

// Fetched after the page; what a key does before it is there is tested in firstKey.test.tsx.
beforeAll(() => loadTable());

const pad = (): Element | null => document.querySelector('.pad');
const question = (): Element | null => document.querySelector('.question');

describe('keys and pedal', () => {
  test.each([
    ['PageDown', { type: 'next' }],
    ['PageUp', { type: 'back' }],
    ['Backspace', { type: 'scratch' }],
    ['Escape', { type: 'cancel' }],
    ['l', { type: 'ask-left' }],
    ['T', { type: 'ask-target' }],
  ])('%s', async (key, intent) => {
    const store = shown('roughing');
    expect(await keyDown(key)).toBe(true);
    expect(calls(store, 'command')).toEqual([[intent]]);
  });

  test('two keys one after the other are one command; anything else between lets the first one go', async () => {
    const store = shown('roughing');
    await type(';t');
    expect(calls(store, 'command')).toEqual([[{ type: 'feel', feel: 'tight' }]]);
    await type(';');
    await keyDown('PageDown');
    await type('t');
    await type(';');
    expect(await keyDown('Escape')).toBe(true);
    await type('t');
    expect(calls(store, 'command').slice(1)).toEqual([[{ type: 'next' }], [{ type: 'ask-target' }], [{ type: 'ask-target' }]]);
    await type(";;'l");
    expect(calls(store, 'command')).toHaveLength(4);
    expect(pad()).not.toBeNull();
  });

  test('a held key counts once, and still does not scroll the page', async () => {
    const store = shown('roughing');
    await keyDown('PageDown');
    expect(await keyDown('PageDown', { repeat: true })).toBe(true);
    await keyDown('PageDown', { repeat: true });
    expect(calls(store, 'command')).toHaveLength(1);
  });

  test('Space holds to talk from down to up, repeats aside, whatever has the focus', async () => {
    const store = shown('roughing');
    button('Next').focus();
    await keyDown(' ');
    await keyDown(' ', { repeat: true });
    expect(calls(store, 'hold')).toHaveLength(1);
    expect(calls(store, 'release')).toHaveLength(0);
    await keyUp(' ');
    expect(calls(store, 'release')).toHaveLength(1);
    expect(calls(store, 'command')).toEqual([]);
  });

  test('talking ends when the page loses the keyboard', async () => {
    const store = shown('roughing');
    await keyDown(' ');
    await after(() => window.dispatchEvent(new Event('blur')));
    await keyUp(' ');
    expect(calls(store, 'release')).toHaveLength(1);
  });

  test('digits open the number pad and Enter types the reading, as a caliper does', async () => {
    const store = shown('roughing');
    await type('1.262');
    expect(text('.pad-number')).toBe('1.262');
    await keyDown('Enter');
    expect(calls(store, 'typed')).toEqual([['1.262']]);
    expect(pad()).toBeNull();
    expect(text('.reply')).toContain('1.262');
  });

  test('an unfinished number is not entered; erasing and Escape leave nothing behind', async () => {
    const store = shown('roughing');
    await type('1.26');
    await keyDown('Backspace');
    expect(text('.pad-number')).toBe('1.2');
    await keyDown('PageDown');
    await keyDown('Escape');
    expect(pad()).toBeNull();
    await type('.');
    await keyDown('Enter');
    expect(pad()).not.toBeNull();
    expect(store.calls).toEqual([]);
  });

  test('a key of a command that wants a number opens its pad', async () => {
    const store = shown('roughing');
    await keyDown('x');
    expect(pad()?.getAttribute('aria-label')).toBe(words.pad.title.took);
    await type('12');
    await keyDown('Enter');
    expect(calls(store, 'command')).toEqual([[{ type: 'took', value: { as: 'one', value: inches(0.012) } }]]);
  });

  test('a text field keeps its keys', async () => {
    const store = shown('roughing');
    const field = document.createElement('input');
    document.body.append(field);
    field.focus();
    expect(await keyDown('PageDown')).toBe(false);
    await type('1 t');
    expect(store.calls).toEqual([]);
    expect(pad()).toBeNull();
  });

  test('with a modifier a key stays the browser’s', async () => {
    const store = shown('roughing');
    expect(await keyDown('r', { ctrlKey: true })).toBe(false);
    expect(store.calls).toEqual([]);
  });
});

describe('buttons', () => {
  test('the row turns over, does what it says, and comes back', async () => {
    const store = shown('roughing');
    await press('More');
    await press('Scratch that');
    expect(calls(store, 'command')).toEqual([[{ type: 'scratch' }]]);
    expect(button('Next')).toBeTruthy();
  });

  test('the fourth place always turns the row', async () => {
    shown('roughing');
    for (let turns = 0; turns < 4; turns += 1) {
      const row = [...document.querySelectorAll('.button-row > *')];
      expect(row).toHaveLength(4);
      expect(row[3]?.classList.contains('turn')).toBe(true);
      await after(() => {
        (row[3] as HTMLButtonElement).click();
      });
      // The next press comes later than a shaking hand's.
      await new Promise((done) => setTimeout(done, 360));
    }
    expect(button('Next')).toBeTruthy();
  });

  test('two presses of a shaking hand are one', async () => {
    const store = shown('roughing');
    await after(() => {
      button('Next').click();
      button('Next').click();
    });
    expect(calls(store, 'command')).toHaveLength(1);
  });

  test('a touch does not take the focus, so that Enter does not press the button again', () => {
    shown('roughing');
    const down = new MouseEvent('mousedown', { bubbles: true, cancelable: true });
    button('Next').dispatchEvent(down);
    expect(down.defaultPrevented).toBe(true);
  });

  test('the talk button is held while the finger is down, and starts the microphone when it is off', async () => {
    const on = shown('roughing');
    const talk = button(words.buttons.talk.hold);
    await after(() => talk.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true, pointerId: 1, button: 0 })));
    expect(calls(on, 'hold')).toHaveLength(1);
    await after(() => talk.dispatchEvent(new PointerEvent('pointerup', { bubbles: true, pointerId: 1 })));
    await after(() => talk.dispatchEvent(new PointerEvent('pointercancel', { bubbles: true, pointerId: 1 })));
    expect(calls(on, 'release')).toHaveLength(1);
  });

  test('the talk button starts the microphone when it is off', async () => {
    const off = shown('off');
    await press(words.buttons.talk.off);
    expect(calls(off, 'listen')).toEqual([['hold']]);
  });

  test('the talk button does not ask anybody to speak before the microphone is there', async () => {
    const starting = shown('off');
    const { listening } = starting.getState();
    await after(() => starting.setState({ listening: { ...listening, state: 'starting' } }));
    const talk = button(words.buttons.talk.starting);
    await after(() => talk.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true, pointerId: 1, button: 0 })));
    await after(() => talk.click());
    expect([talk.textContent, calls(starting, 'hold'), calls(starting, 'listen')]).toEqual(['Starting', [], []]);
    await after(() => starting.setState({ listening: { ...listening, state: 'waiting' } }));
    expect(button(words.buttons.talk.hold)).toBe(talk);
  });

  test('by name, it says to say the name first, and not once that was said', async () => {
    const store = shown('fresh');
    const { listening } = store.getState();
    const told = async (called: boolean): Promise<string> => {
      await after(() =>
        store.setState({
          listening: { ...listening, mode: 'call', state: 'waiting', callName: 'Foreman', called, tooLoud: false },
        }),
      );
      return text('.listening-words');
    };
    expect(await told(false)).toBe(words.callIt('Foreman'));
    expect(await told(true)).toBe(words.listening.waiting.open);
  });

  test('the number pad types, says the place and the instrument, and enters', async () => {
    const store = shown('reading');
    await press(words.buttons.reading);
    for (const key of ['1', '0', '0', '3'])
      await after(() => {
        [...document.querySelectorAll<HTMLButtonElement>('.pad-keys button')]
          .find((one) => one.querySelector('.big-label')?.textContent === key)
          ?.click();
      });
    await press(words.pad.anyPlace);
    await press(words.pad.enter);
    expect(calls(store, 'command')).toEqual([
      [
        {
          type: 'reading',
          spoken: 'typed',
          instrument: null,
          thing: null,
          place: 'at-the-shoulder',
          value: { as: 'one', value: inches(1.003) },
        },
      ],
    ]);
  });

  test('when all is done the third place leads to the record', async () => {
    const store = shown('all-done');
    await press(words.buttons.record);
    expect(calls(store, 'goTo')).toEqual([['record']]);
  });
});

describe('questions', () => {
  test('a doubtful reading is asked about with its reason; yes keeps it', async () => {
    const store = shown('question-sure');
    expect(text('#question-reason')).toBe(words.question.doubt['bigger-than-it-was']);
    expect(text('#question-asks')).toContain('1.2022');
    await press(words.question.yes);
    expect(calls(store, 'answer')).toEqual([['yes']]);
    expect(question()).toBeNull();
    expect(text('.is-last b')).toBe('1.2022');
  });

  test('no keeps nothing', async () => {
    const store = shown('question-sure');
    await press(words.question.no);
    expect(calls(store, 'answer')).toEqual([['no']]);
    expect(text('.is-last b')).toBe('1.0122');
  });

  test.each([
    ['1.260', 'first', '1.260'],
    ['1.206', 'second', '1.206'],
  ])('of two values, %s is taken at once', async (half, choice, stored) => {
    const store = shown('question-which');
    await press(half);
    expect(calls(store, 'answer')).toEqual([[choice]]);
    expect([...document.querySelectorAll('.is-last b, #question-asks')].map((one) => one.textContent).join(' ')).toContain(
      stored,
    );
  });

  test('neither of two values, or Escape, drops the question', async () => {
    const store = shown('question-which');
    await press(words.question.neither);
    await keyDown('Escape');
    expect(calls(store, 'command')).toEqual([[{ type: 'cancel' }], [{ type: 'cancel' }]]);
    expect(question()).toBeNull();
  });

  test('Enter says yes, and a digit answers with another number', async () => {
    const store = shown('question-leave');
    await keyDown('Enter');
    expect(calls(store, 'answer')).toEqual([['yes']]);
    const other = shown('question-sure');
    await type('1.0112');
    await keyDown('Enter');
    expect(calls(other, 'typed')).toEqual([['1.0112']]);
  });
});

describe('what is shown', () => {
  test('target, what is left on the diameter and on the dial, the last reading and the answer', () => {
    shown('reading');
    expect(text('.target-size b')).toBe('1.0013');
    expect(text('.is-left dd')).toBe('2.1 thou');
    expect(text('.amounts')).toContain(words.onTheDial);
    expect(text('.is-last b')).toBe('1.0034');
    expect(text('.reply')).toMatch(/^1\.0034\. 2\.1 thou to go\. /);
    expect(document.querySelector('.reply')?.getAttribute('aria-live')).toBe('polite');
  });

  test('a hazard is shown in full while the step is fresh, and in one line afterwards', async () => {
    shown('caution');
    expect(document.querySelector('.caution-full')).not.toBeNull();
    await type('.96');
    await keyDown('Enter');
    expect(document.querySelector('.caution-full')).toBeNull();
    expect(document.querySelector('.caution-line')).not.toBeNull();
  });

  test('too loud, not hearing and not stored are said in words', () => {
    shown('too-loud');
    expect(text('.listening')).toContain(words.tooLoud);
    shown('no-microphone');
    expect(document.body.textContent).toContain(words.listening.broken);
    shown('unstored');
    expect(document.body.textContent).toContain(words.unstored(2));
  });

  test('a fault in the pictures leaves the target, the keys and the number pad', async () => {
    const store = SCENES['fresh']?.();
    if (store === undefined) throw new Error('no scene');
    const { job } = store.getState();
    if (job === null) throw new Error('no job');
    const [first, ...others] = job.state.plan.part.turned;
    const broken = { ...first, length: null } as unknown as NonNullable<typeof first>;
    const part = { ...job.state.plan.part, turned: [broken, ...others] };
    store.setState({ job: { ...job, state: { ...job.state, plan: { ...job.state.plan, part } } } });
    // React reports the planted fault; the test is about what is left.
    const report = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    show(store);
    report.mockRestore();
    expect(document.querySelector('.failed-part')).not.toBeNull();
    expect(text('.target-size b')).toBe('1.250');
    await type('1.264');
    await keyDown('Enter');
    expect(calls(store, 'typed')).toEqual([['1.264']]);
    await keyDown('PageUp');
    expect(calls(store, 'command')).toEqual([[{ type: 'back' }]]);
  });

  test('a fault in a question leaves the buttons under it', async () => {
    const store = SCENES['question-sure']?.();
    if (store === undefined) throw new Error('no scene');
    store.calls.length = 0;
    const { job } = store.getState();
    const question = job?.talk.question;
    if (job === null || question?.about !== 'sure') throw new Error('no question');
    store.setState({
      job: {
        ...job,
        talk: {
          ...job.talk,
          question: {
            ...question,
            get doubt(): never {
              throw new Error('planted');
            },
          },
        },
      },
    });
    const report = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    show(store);
    report.mockRestore();
    expect(text('.failed-part')).toContain(words.parts.question);
    expect(document.querySelector('.question')).toBeNull();
    await press('Next');
    expect(calls(store, 'command')).toEqual([[{ type: 'next' }]]);
  });
});
