import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { activePower } from '../../src/cli/noise/active.ts';
import { makeNoise, NOISE_KINDS } from '../../src/cli/noise/kinds.ts';
import { withNoise } from '../../src/cli/noise/mix.ts';
import { seeded } from '../../src/cli/noise/random.ts';
import { InputFault } from '../../src/cli/fault.ts';
import { readScoreManifest } from '../../src/cli/scoring/manifest.ts';
import { readScoreRequest } from '../../src/cli/scoring/request.ts';
import { tallies, wordErrors, type Outcome } from '../../src/cli/scoring/tally.ts';

describe('wordErrors', () => {
  test.each([
    ['', '', 0],
    ['six twenty seven', 'six twenty seven', 0],
    ['six twenty seven', 'six twenty', 1],
    ['six twenty seven', 'six twenty one', 1],
    ['six twenty seven', 'reads six twenty seven', 1],
    ['next', '', 1],
    ['', 'next done', 2],
    ['one two three', 'three one two', 2],
  ])('"%s" heard as "%s" is %d', (said, heard, errors) => {
    const words = (text: string): string[] => (text === '' ? [] : text.split(' '));
    expect(wordErrors(words(said), words(heard))).toBe(errors);
  });
});

describe('tallies', () => {
  const outcome = (group: string, said: string, heard: string | null): Outcome => ({
    group,
    said,
    heard,
    confidence: 0.5,
    audioS: 2,
    workS: 0.1,
  });
  const sums = tallies([
    outcome('digits', 'six', 'six'),
    outcome('digits', 'two', 'three'),
    outcome('digits', 'two', null),
    outcome('noise', '', null),
    outcome('noise', '', 'six'),
  ]);

  test('count right, wrong and rejected by group', () => {
    expect(sums.map(({ group, utterances, right, wrong, rejected }) => [group, utterances, right, wrong, rejected])).toEqual([
      ['digits', 3, 1, 1, 1],
      ['noise', 2, 1, 1, 1],
      ['all', 5, 2, 2, 2],
    ]);
  });
  test('give word errors of what was said and false accepts of what was not', () => {
    expect(sums.map((each) => each.wordErrorRate)).toEqual([2 / 3, null, 2 / 3]);
    expect(sums.map((each) => each.falseAcceptsPerHour)).toEqual([null, 900, 900]);
    expect(sums[2]!.realTimeFactor).toBeCloseTo(0.05);
  });
});

describe('noise', () => {
  test.each(NOISE_KINDS)('%s has unit power, is the same for the same seed and another for another', (kind) => {
    const one = makeNoise(kind, 16_000, seeded(5));
    expect(one.reduce((sum, value) => sum + value * value, 0) / one.length).toBeCloseTo(1, 3);
    expect(makeNoise(kind, 16_000, seeded(5))).toEqual(one);
    expect(makeNoise(kind, 16_000, seeded(6))).not.toEqual(one);
    expect(one.every(Number.isFinite)).toBe(true);
  });

  test.each([20, 10, 0])('lies %d dB under the speech while it sounds', (snrDb) => {
    const speech = new Float32Array(16_000);
    for (let at = 4_000; at < 9_000; at += 1) speech[at] = 0.05 * Math.sin(at * 0.3);
    const noise = withNoise(speech, { kind: 'hiss', snrDb, seed: 3 }, 0).map((value, at) => value - speech[at]!);
    const power = noise.reduce((sum, value) => sum + value * value, 0) / noise.length;
    expect(10 * Math.log10(activePower(speech) / power)).toBeCloseTo(snrDb, 1);
  });

  test('does not overload', () => {
    const speech = Float32Array.from({ length: 8_000 }, (_, at) => 0.9 * Math.sin(at * 0.2));
    expect(withNoise(speech, { kind: 'motor', snrDb: -10, seed: 1 }, 0).every((value) => Math.abs(value) <= 1)).toBe(true);
  });
});

describe('npm run score', () => {
  const folder = mkdtempSync(join(tmpdir(), 'swarfside-score-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const score = (...args: string[]) => {
    const { status, stdout, stderr } = spawnSync(process.execPath, ['scripts/run.mjs', 'src/cli/score.ts', ...args], {
      cwd: root,
      encoding: 'utf8',
    });
    return {
      status,
      stdout,
      lines: stderr.split('\n').filter((line) => line !== '' && !/ExperimentalWarning|trace-warnings/u.test(line)),
    };
  };
  const put = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const wav = join(root, 'tests/fixtures/wav/synthetic-next.wav');
  const good = put(
    'good.jsonl',
    `${JSON.stringify({ wav, text: 'next', group: 'synthetic' })}\n${JSON.stringify({ wav, text: '', group: 'refuse' })}\n`,
  );

  test.each([
    ['no manifest', [], /Name a manifest/u],
    ['two manifests', [good, good], /stands alone/u],
    ['a noise that is unknown', [good, '--noise', 'drum', '--snr', '10'], /no noise is called that; there are motor/u],
    ['a noise without its level', [good, '--noise', 'motor'], /--noise needs --snr/u],
    ['a level without its noise', [good, '--snr', '10'], /--noise KIND/u],
    ['a level that is no number', [good, '--noise', 'motor', '--snr', 'loud'], /--snr loud: this is not a number/u],
    ['ends that are neither', [good, '--ends', 'some'], /--ends some: it is whole or by-ear/u],
    ['an option that is unknown', [good, '--fast'], /--fast/u],
  ])('refuses %s', (_, args, message) => {
    expect(() => readScoreRequest(args)).toThrow(message);
    expect(() => readScoreRequest(args)).toThrow(InputFault);
  });

  test.each([
    ['is not there', join(folder, 'gone.jsonl'), /gone\.jsonl: there is no such file/u],
    ['is not JSON', put('a.jsonl', 'wav,text\n'), /a\.jsonl, line 1: this is not JSON/u],
    ['has a line without its group', put('b.jsonl', `\n{"wav":"x.wav","text":""}\n`), /b\.jsonl, line 2: "group"/u],
    ['is empty', put('c.jsonl', '\n'), /c\.jsonl: there is no line/u],
  ])('refuses a manifest that %s', async (_, path, message) => {
    await expect(readScoreManifest(path)).rejects.toThrow(message);
    await expect(readScoreManifest(path)).rejects.toThrow(InputFault);
  });

  test.each([
    ['a WAV that is not there', [put('d.jsonl', `{"wav":"x.wav","text":"","group":"g"}\n`)], /x\.wav: there is no such file/u],
    ['a WAV that is none', [put('e.jsonl', `{"wav":"a.jsonl","text":"","group":"g"}\n`)], /a\.jsonl: this is not a WAV/u],
    ['an engine that is unknown', [good, '--engine', 'ears'], /no recogniser is called "ears"; there are: .*soundswallower/u],
  ])(
    'ends for %s with one line and exit code 2',
    (_, args, message) => {
      const { status, stdout, lines } = score(...args);
      expect(lines.length).toBe(1);
      expect(lines[0]).toMatch(message);
      expect([status, stdout]).toEqual([2, '']);
    },
    60_000,
  );

  test('prints the sums by group, an object a line', () => {
    const { status, stdout } = score(good, '--json');
    expect(status).toBe(0);
    const sums = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(sums.map(({ group, utterances, right, wrong }) => [group, utterances, right, wrong])).toEqual([
      ['synthetic', 1, 1, 0],
      ['refuse', 1, 0, 1],
      ['all', 2, 1, 1],
    ]);
  }, 120_000);
});
