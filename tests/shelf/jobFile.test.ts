import { describe, expect, it } from 'vitest';
import { describeFileFault, MOST_FILE_LENGTH, readJobFile, writeJobFile, jobFileOf } from '../../src/shelf/index.ts';
import { atOnce } from '../../src/shelf/slices.ts';
import { contentDigest } from '../../src/shelf/chain.ts';
import { carriedForward, EVENT_STEPS, PLAN_STEPS } from '../../src/shelf/steps.ts';
import { golden, goldenText, plan, reading } from './sample.ts';

type Change = readonly [from: string | RegExp, to: string];

/** What is changed in the golden file, and the line that must come of it after the file's name. */
const faults: readonly (readonly [name: string, change: Change, line: string])[] = [
  ['an empty file', [/^[^]*$/, ''], 'line 1, column 1: a value expected, the end of the file found; the file is damaged or cut short. Fetch it or export it again.'],
  ['a file cut short', [/"operations": \[[^]*$/, '"operations": ['], 'line 166, column 22 (plan.route.operations[0]): a value or "]" expected, the end of the file found; the file is damaged or cut short. Fetch it or export it again.'],
  ['a missing comma', [/"kind": "finish",/, '"kind": "finish"'], 'line 193, column 11 (plan.route.operations[1].kind): a comma or a closing bracket expected, "\\"title\\": \\"Fi" found; the file is damaged or cut short. Fetch it or export it again.'],
  ['a comma too many', ['800\n', '800,\n'], 'line 152, column 9 (plan.machines[0].spindleSpeeds[4]): a value expected, "]" found; the file is damaged or cut short. Fetch it or export it again.'],
  ['single quotes', ['"v":1', "'v':1"], 'line 229, column 45 (events[0].at): a name in double quotes expected, "\'v\':1,\\"body\\"" found; the file is damaged or cut short. Fetch it or export it again.'],
  ['text after the end', [/\}\n$/, '}\nx'], 'line 253, column 1: nothing more after the closing bracket expected, "x" found; the file is damaged or cut short. Fetch it or export it again.'],
  ['nesting past all use', [/^[^]*$/, `{"a":${'['.repeat(40)}`], 'line 1, column 37 (a[0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0]): nested deeper than 32 levels, which no job file is. Nothing was read; export the job again.'],
  ['a number past all bounds', ['"minutes": 3', '"minutes": 3e999'], 'line 187, column 22 (plan.route.operations[0].minutes): the number 3e999 is too large. Correct it in a text editor, or export the job again.'],
  ['another format', ['swarfside-job', 'shopping-list'], 'format: "shopping-list", where a job file has "swarfside-job". Choose a file that was exported as a job.'],
  ['no format', [/^[^]*$/, '[1,2]'], 'format: missing, where a job file has "swarfside-job". Choose a file that was exported as a job.'],
  ['a newer version', ['"version": 1', '"version": 9'], 'version: 9, written by a newer Swarfside; this one reads up to 2. Update this device, then open the file again.'],
  ['no version', ['  "version": 1,\n', ''], 'version is missing. Correct it in a text editor, or export the job again.'],
  ['version zero', ['"version": 1', '"version": 0'], 'version must be at least 1; it is 0. Correct it in a text editor, or export the job again.'],
  ['version as text', ['"version": 1', '"version": "1"'], 'version must be a number, not "1". Correct it in a text editor, or export the job again.'],
  ['no plan', ['"plan"', '"plam"'], 'plan is missing. Correct it in a text editor, or export the job again.'],
  ['events that are no list', [/"events": \[[^]*\n {2}\]/, '"events": {}'], 'events must be a list in [ ], not a group of fields. Correct it in a text editor, or export the job again.'],
  ['a job id with a path in it', ['golden-axle-1', '../../x'], 'job is "../../x": a job id is up to 64 letters, digits and dashes. Correct it in a text editor, or export the job again.'],
  ['a length without its unit', ['"low": "0.6235in",\n            "high": "0.6245in",\n            "aim"', '"low": "0.6235",\n            "high": "0.6245in",\n            "aim"'], 'plan.route.operations[1].target.low ("Finish the arm journal") is wrong: "0.6235" is not a length with its unit, such as "0.627in" or "15.94mm". Correct it in a text editor, or export the job again.'],
  ['a window upside down', ['"low": "0.6235in",\n            "high": "0.6245in",\n            "aim": "0.624in"', '"low": "0.6265in",\n            "high": "0.6245in",\n            "aim": "0.624in"'], 'plan.route.operations[1].target.low ("Finish the arm journal") is "0.6265in": the low limit is above the high limit. Correct it in a text editor, or export the job again.'],
  ['an unknown kind', ['"kind": "finish"', '"kind": "polish"'], 'plan.route.operations[1].kind ("Finish the arm journal") must be one of measure-mate, grip, dial-in, face, centre, rough, finish, file, part-off, offset, drill, tap, thread, groove, chamfer, length, find-edge, find-high-spot, mill, deburr, try-fit, taper, bore, fillet, assemble; it is "polish". Correct it in a text editor, or export the job again.'],
  ['no spindle speed', [/"spindleSpeeds": \[[^\]]*\]/, '"spindleSpeeds": []'], 'plan.machines[0].spindleSpeeds ("Engine lathe") must be at least 1 entry long; it is a list. Correct it in a text editor, or export the job again.'],
  ['a speed below zero', ['"speedRpm": 800', '"speedRpm": -800'], 'plan.route.operations[1].cut.speedRpm ("Finish the arm journal") must be more than 0; it is -800. Correct it in a text editor, or export the job again.'],
  ['a title that is missing', ['          "title": "Measure the arm bore",\n', ''], 'plan.route.operations[0].title ("bore") is missing. Correct it in a text editor, or export the job again.'],
  ['an empty name', ['"name": "Engine lathe"', '"name": " "'], 'plan.machines[0].name ("lathe") must be at least 1 letter long; it is " ". Correct it in a text editor, or export the job again.'],
  ['a temperature out of this world', ['"celsius":31.5', '"celsius":3150'], 'events[11].body.celsius ("g-12") must be at most 400; it is 3150. Correct it in a text editor, or export the job again.'],
  ['an event without a time', ['"at":1750000004000,', ''], 'events[3].at ("g-04") is missing. Correct it in a text editor, or export the job again.'],
  ['an event that is missing', [/ {4}\{"id":"g-07".*\n/, ''], 'events[6].seq: event 7 expected, 8 found: an event is missing, doubled or moved. Export the job again.'],
  ['two events of one id', ['"id":"g-08"', '"id":"g-07"'], 'events[7].id ("g-07") is "g-07": an earlier event has the same id. Correct it in a text editor, or export the job again.'],
  ['an event at no operation', ['"operation":"bore","standing"', '"operation":"boar","standing"'], 'events[2].body.operation ("g-03") is "boar": no operation of the plan has this id. Correct it in a text editor, or export the job again.'],
  ['an event of no mate', ['"mate":"arm"', '"mate":"leg"'], 'events[1].body.mate ("g-02") is "leg": no mate of the plan has this id. Correct it in a text editor, or export the job again.'],
  ['a strike of what comes later', ['"event":"g-09"', '"event":"g-15"'], 'events[9].body.event ("g-10") is "g-15": no earlier event has this id. Correct it in a text editor, or export the job again.'],
  ['a clip that is not base64', ['UklGR', '?klGR'], 'clips.memo-1 is "?klGRjQAAABXQVZFZm10IBAAAAABAAEAgD4AAAB9AAACABAAZGF0YRAA…: a sound clip is written in base64. Correct it in a text editor, or export the job again.'],
];

describe('a file that does not read is answered with one line that says what, where and what to do', () => {
  it.each(faults)('%s', (_name, [from, to], line) => {
    const text = goldenText.replace(from, to);
    expect(text).not.toBe(goldenText);
    const file = readJobFile(text);
    expect(file.ok ? 'it reads' : describeFileFault(file.error, 'axle.json')).toBe(`axle.json: ${line}`);
  });

  it('a file that is too long', () => {
    const file = readJobFile(' '.repeat(MOST_FILE_LENGTH + 1));
    expect(file.ok ? 'it reads' : describeFileFault(file.error, 'axle.json')).toBe(
      'axle.json: the whole file: 97 million characters, and at most 96 million characters are read. Export the job without its sound clips.',
    );
  });

  it('a file that would paint over the line', () => {
    const file = readJobFile(goldenText.replace('"format": "swarfside-job"', '"format": "\\u001b[31m\\u202ered\\nalert"'));
    expect(file.ok ? 'it reads' : describeFileFault(file.error, 'a\u001b[2J\nb.json')).toBe(
      'a [2J b.json: format: " [31m red alert", where a job file has "swarfside-job". Choose a file that was exported as a job.',
    );
  });
});

describe('round trip', () => {
  it('reads a byte order mark and other line ends as the same job', () => {
    const file = readJobFile(`\uFEFF${goldenText.replaceAll('\n', '\r\n')}`);
    expect(file.ok && file.value).toEqual(golden);
  });

  it('reads what was written of a job in memory', () => {
    const events = [1, 2, 3].map((seq) => reading(seq));
    const file = readJobFile(writeJobFile(jobFileOf({ id: 'job-1', startedAt: 7, plan, events })));
    expect(file.ok && file.value).toMatchObject({ job: 'job-1', startedAt: 7, plan, events, notices: [] });
  });
});

describe('golden file of version 1', () => {
  it('holds every kind of event once and reads without a notice', () => {
    expect(golden.notices).toEqual([]);
    expect(golden.events.map((event) => event.body.type)).toEqual([
      'OperationOpened', 'MateMeasured', 'OperationFinished', 'CautionGiven', 'TouchedOff', 'DialZeroed', 'DialSet', 'CutTaken', 'ReadingLogged',
      'EventStruck', 'ReadingLogged', 'TemperatureNoted', 'WorkingChanged', 'FitFelt', 'JawRead', 'IndicatorRead', 'EdgeFound', 'MemoKept',
      'OperationSkipped',
    ]);
  });

  it('gives the lengths that were written, to the nanometre', () => {
    // 0.6273 in at 25.4 mm an inch (NIST SP 811, App. B) and 15.925 mm.
    expect(golden.events[8]?.body).toMatchObject({ value: 15_933_420 });
    expect(golden.events[10]?.body).toMatchObject({ value: 15_925_000 });
  });

  it('has not been edited', () =>
    expect(atOnce(contentDigest(golden.olderPlan ?? '', golden.kept.events))).toBe('2eab28eb8b1d3770303190daa15374ec7eb1b7ab1e6754405142d1d50c5ff51e'));
});

describe('steps from version to version', () => {
  const doubled = { from: 1, change: (json: unknown) => [json, 'second'] as never };
  const tripled = { from: 2, change: (json: unknown) => [json, 'third'] as never };

  it.each([[EVENT_STEPS], [PLAN_STEPS]])('run from 1 to the newest without a gap', (steps) => {
    expect(carriedForward('same', steps.length + 1, steps)).toBe('same');
  });
  it('are taken in order, from the version that was stored', () => {
    expect(carriedForward('a', 1, [doubled, tripled])).toEqual([['a', 'second'], 'third']);
    expect(carriedForward('a', 2, [doubled, tripled])).toEqual(['a', 'third']);
    expect(carriedForward('a', 3, [doubled, tripled])).toBe('a');
  });
  it.each([[[tripled]], [[doubled, doubled]], [[tripled, doubled]]])('with a gap or out of order are a bug', (steps) => {
    expect(() => carriedForward('a', 1, steps)).toThrow('Broken invariant');
  });
});
