/** How the message about a file begins: its name, and a place in it. */
export const PLACE = /^axle\.json: (line \d+, column \d+|the whole file|format: |version|job|startedAt|plan|events|clips)/;
export const WHAT_TO_DO = /(Fetch|Correct|Export|export|Choose|Update)/;

/** Values that do harm where they are not expected. */
const HOSTILE = [
  'null',
  'true',
  '-1',
  '0.5',
  '1e308',
  '1e999',
  '9007199254740993',
  '""',
  '"x"',
  '[]',
  '{}',
  '"\\u0000"',
  '"\\ud800"',
  '"__proto__"',
  '{"__proto__":{"title":1}}',
  '{"constructor":{"prototype":{}}}',
  '[[[[[[]]]]]]',
  `"${'9'.repeat(400)}mm"`,
  '"-5mm"',
  '"1e5mm"',
  '"0/0in"',
  `"${'a'.repeat(5000)}"`,
];

type Span = { readonly at: number; readonly length: number };
const spans = new Map<string, readonly Span[]>();

/** Where values start and end in a text: after a colon, a bracket or a comma, up to the next mark. */
function valuesIn(text: string): readonly Span[] {
  const marks = /(?<=[:[,]\s*)("(?:[^"\\]|\\.)*"|-?\d[\d.]*|true|false|null)/g;
  const found = spans.get(text) ?? [...text.matchAll(marks)].map((match) => ({ at: match.index, length: match[0].length }));
  spans.set(text, found);
  return found;
}

/** A good file damaged in one to three places as `pick` says: cut, changed, doubled, deepened, or with a value that does harm. */
export function damaged(good: string, pick: (below: number) => number): string {
  let text = good;
  for (let times = 1 + pick(3); times > 0; times -= 1) {
    const at = pick(text.length);
    const kind = pick(7);
    if (kind === 0) text = text.slice(0, at);
    else if (kind === 1) text = text.slice(0, at) + text.slice(at + 1 + pick(40));
    else if (kind === 2) text = text.slice(0, at) + String.fromCharCode(pick(0x250)) + text.slice(at + 1);
    else if (kind === 3) text = text.slice(0, at) + text.slice(at, at + pick(400)) + text.slice(at);
    else if (kind === 4) {
      const lines = text.split('\n');
      lines.splice(pick(lines.length), 1 + pick(4));
      text = lines.join('\n');
    } else if (kind === 5) text = '['.repeat(pick(3000)) + text;
    else {
      const values = valuesIn(good);
      const value = values[pick(values.length)];
      if (value !== undefined)
        text = text.slice(0, value.at) + (HOSTILE[pick(HOSTILE.length)] ?? '') + text.slice(value.at + value.length);
    }
  }
  return text;
}
