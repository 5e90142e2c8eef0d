/**
 * Lists what sounds alike: sentences of different commands that are one phone apart (or two, where they are long), and number
 * words that are two phones apart. Pronunciations: the packaged dictionary and models/pronunciations.txt.
 * What was done about each is in docs/phrasebook.md. Run: npx tsx scripts/sound-alikes.ts
 */
import { readFileSync } from 'node:fs';
import { numberWords, samples, vocabulary } from '../src/phrasebook/index.ts';

const print = (line: string): void => void process.stdout.write(`${line}\n`);

const root = new URL('../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');

const spoken = new Map<string, string[][]>();
function take(text: string, own: boolean): void {
  const ownWords = new Set<string>();
  for (const line of text.split('\n')) {
    const [head, ...phones] = line.trim().split(/\s+/);
    if (head === undefined || head === '' || head.startsWith('#') || phones.length === 0) continue;
    const word = head.toLowerCase().replace(/\(\d+\)$/, '');
    // A word of the shop sounds as the shop's own file says, and in no other way.
    if (own && !ownWords.has(word)) spoken.delete(word);
    if (own) ownWords.add(word);
    spoken.set(word, [...(spoken.get(word) ?? []), phones]);
  }
}
take(read('node_modules/soundswallower/model/en-us/dict.txt'), false);
take(read('models/pronunciations.txt'), true);

const missing = vocabulary().filter((word) => !spoken.has(word));
if (missing.length > 0) print(`without a pronunciation: ${missing.join(', ')}`);

/** Phones to be changed, added or dropped to make one of the other; stops counting above `most`. */
function distance(a: readonly string[], b: readonly string[], most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let row = b.map((_, index) => index + 1);
  row.unshift(0);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1)
      next[j] = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1));
    if (Math.min(...next) > most) return most + 1;
    row = next;
  }
  return row[b.length] ?? 0;
}

const phonesOf = (sentence: string): string[] => sentence.split(' ').flatMap((word) => spoken.get(word)?.[0] ?? []);
const closest = (a: string, b: string, most: number): number =>
  Math.min(...(spoken.get(a) ?? []).flatMap((one) => (spoken.get(b) ?? []).map((other) => distance(one, other, most))));

const sentences = samples(120, { size: ['six'], small: ['six'], signed: ['six'], step: ['six'], temperature: ['six'] })
  .map((each) => ({ ...each, phones: phonesOf(each.sentence) }))
  .sort((a, b) => a.phones.length - b.phones.length);
print(`\nSentences of different commands (${sentences.length} compared)`);
for (const [index, one] of sentences.entries())
  for (const other of sentences.slice(index + 1)) {
    const most = one.phones.length >= 10 ? 2 : 1;
    if (other.phones.length - one.phones.length > most) break;
    if (one.command === other.command) continue;
    const apart = distance(one.phones, other.phones, most);
    if (apart <= most) print(`${apart}  "${one.sentence}" (${one.command})  "${other.sentence}" (${other.command})`);
  }

print('\nNumber words');
const numerals = numberWords();
for (const [index, one] of numerals.entries())
  for (const other of numerals.slice(index + 1)) {
    const apart = closest(one, other, 2);
    if (apart <= 1 || (apart === 2 && Math.min(one.length, other.length) >= 5)) print(`${apart}  ${one}  ${other}`);
  }
