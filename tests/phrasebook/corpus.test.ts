import { describe, expect, test } from 'vitest';
import { interpret } from '../../src/phrasebook/index.ts';
import { CONTEXTS } from './contexts.ts';
import { corpus, got, wanted } from './corpus.ts';

for (const { file, lines } of corpus) {
  describe(file, () => {
    test.each(lines.map((line) => [line.context, line.words, line] as const))('%s: "%s"', (_context, _words, line) => {
      expect(got(line, interpret(line.words, CONTEXTS[line.context]))).toBe(wanted(line));
    });
  });
}

test('the corpus is large enough, and enough of it has a source', () => {
  const lines = corpus.flatMap((each) => each.lines);
  expect(lines.length).toBeGreaterThanOrEqual(600);
  expect(lines.filter((line) => line.source !== undefined).length).toBeGreaterThanOrEqual(60);
});
