import { beforeEach, describe, expect, it } from 'vitest';
import { describeTrouble, TroubleWatch, type HearingTrouble } from '../../src/ear/index.ts';

let clock: number;
let watch: TroubleWatch;
beforeEach(() => {
  clock = 0;
  watch = new TroubleWatch(() => clock);
});

/** Seconds of readings, ten a second. */
function level(seconds: number, rmsDb: number, floorDb: number, clipping = false): void {
  for (let reading = 0; reading < seconds * 10; reading += 1) {
    clock += 100;
    watch.level({ rmsDb, floorDb, tooLoud: false, clipping });
  }
}

describe('why the ear cannot hear', () => {
  it('says nothing in a quiet room', () => {
    level(5, -50, -60);
    expect(watch.trouble).toBeNull();
  });

  it('the machine is too loud by what speech lacks over it', () => {
    level(1, -20, -24);
    expect(watch.trouble).toEqual({ why: 'machine-too-loud', byDb: 4 });
    // Somebody who is known to speak up is heard over the same machine.
    watch.speaksAt(-15);
    level(1, -20, -24);
    expect(watch.trouble).toBeNull();
  });

  it('a microphone without any sound is silent after three seconds, and well again with the first', () => {
    level(2.9, -100, -100);
    expect(watch.trouble).toBeNull();
    level(0.2, -100, -100);
    expect(watch.trouble).toEqual({ why: 'microphone-silent' });
    level(0.1, -70, -100);
    expect(watch.trouble).toBeNull();
  });

  it('one clipped reading is no overload, three in three seconds are', () => {
    level(0.1, -1, -60, true);
    expect(watch.trouble).toBeNull();
    level(0.2, -1, -60, true);
    expect(watch.trouble).toEqual({ why: 'overloaded' });
    level(3, -30, -60);
    expect(watch.trouble).toBeNull();
  });

  it('the button held three times with nothing said is another microphone; a word heard ends it', () => {
    for (const refusal of ['silence', 'not-speech', 'silence'] as const) watch.heard(refusal, true);
    expect(watch.trouble).toEqual({ why: 'wrong-microphone' });
    watch.heard(null, true);
    expect(watch.trouble).toBeNull();
  });

  it('four strange utterances in twenty seconds are another talker; spread out they are not, nor with the button held', () => {
    for (let at = 0; at < 4; at += 1) watch.heard('not-in-grammar', false);
    expect(watch.trouble).toEqual({ why: 'another-talker' });
    clock += 20_000;
    expect(watch.trouble).toBeNull();
    for (let at = 0; at < 4; at += 1) watch.heard('unsure', true);
    expect(watch.trouble).toBeNull();
  });

  it.each<[HearingTrouble, string]>([
    [{ why: 'machine-too-loud', byDb: 6 }, '6 dB'],
    [{ why: 'microphone-silent' }, '"Desk"'],
    [{ why: 'wrong-microphone' }, '"Desk"'],
    [{ why: 'overloaded' }, '"Desk"'],
    [{ why: 'another-talker' }, 'button'],
  ])('%o is said with what to do', (trouble, part) => {
    expect(describeTrouble(trouble, 'Desk')).toContain(part);
    expect(describeTrouble(trouble, null)).not.toContain('"');
  });
});
