/**
 * Renders the clips that are wanted and not there yet, drops those no longer wanted, and writes the sprite and its list.
 * Run: npm run clips (`-- --fresh` renders all again; `-- --check` only says what is missing, exit code 1 when anything is)
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { adpcmBytes, clipListSchema, encodeAdpcm, VOICE_RATE_HZ, type ClipList, type ClipPlace } from '../../src/voice/index.ts';
import { clipFingerprint, VOICE } from './fingerprint.ts';
import { openSynthesiser } from './flite.ts';
import { ADDED_PRONUNCIATIONS } from './pronunciations.ts';
import { treated, TREATMENT } from './treat.ts';
import { wantedClips } from './wanted.ts';

const LIST = new URL('../../public/voice/clips.json', import.meta.url);
const SPRITE = new URL('../../public/voice/clips.bin', import.meta.url);

type Kept = { readonly samples: number; readonly bytes: Uint8Array };

/** Clips of the sprite that stands, by fingerprint: what is unchanged is copied, byte for byte. */
function keptClips(): ReadonlyMap<string, Kept> {
  const kept = new Map<string, Kept>();
  if (!existsSync(LIST) || !existsSync(SPRITE)) return kept;
  const list = clipListSchema.safeParse(JSON.parse(readFileSync(LIST, 'utf8')));
  const sprite = new Uint8Array(readFileSync(SPRITE));
  if (!list.success || list.data.bytes !== sprite.length) return kept;
  for (const { start, samples, made } of Object.values(list.data.clips))
    kept.set(made, { samples, bytes: sprite.slice(start, start + adpcmBytes(samples)) });
  return kept;
}

const flags = new Set(process.argv.slice(2));
const wanted = wantedClips().map((clip) => ({ ...clip, made: clipFingerprint(clip) }));
const kept = flags.has('--fresh') ? new Map<string, Kept>() : keptClips();
const missing = wanted.filter((clip) => !kept.has(clip.made));

if (flags.has('--check')) {
  for (const clip of missing) process.stderr.write(`no clip of "${clip.key}" (${clip.reason})\n`);
  process.stdout.write(`${wanted.length} clips wanted, ${missing.length} missing\n`);
  process.exit(missing.length === 0 ? 0 : 1);
}

const startedAt = performance.now();
const made = new Map(kept);
if (missing.length > 0) {
  const synthesiser = await openSynthesiser(VOICE, TREATMENT.stretch, ADDED_PRONUNCIATIONS.join('\n'));
  for (const clip of missing) {
    const sound = treated(await synthesiser.render(clip.text));
    made.set(clip.made, { samples: sound.length, bytes: encodeAdpcm(sound) });
  }
  synthesiser.close();
}

const places: Record<string, ClipPlace> = {};
const parts: Uint8Array[] = [];
let start = 0;
let samples = 0;
for (const clip of wanted) {
  const sound = made.get(clip.made)!;
  places[clip.key] = { start, samples: sound.samples, made: clip.made };
  parts.push(sound.bytes);
  start += sound.bytes.length;
  samples += sound.samples;
}
const sprite = Buffer.concat(parts);
const list: ClipList = {
  version: 1,
  coding: 'ima-adpcm',
  rateHz: VOICE_RATE_HZ,
  voice: `flite ${VOICE}`,
  bytes: sprite.length,
  sha256: createHash('sha256').update(sprite).digest('hex'),
  clips: places,
};
// One clip a line, so that a change of one phrase is a change of few lines.
const { clips, ...head } = list;
const lines = Object.entries(clips).map(([key, place]) => `  ${JSON.stringify(key)}: ${JSON.stringify(place)}`);
writeFileSync(LIST, `${JSON.stringify(head).slice(0, -1)},"clips":{\n${lines.join(',\n')}\n}}\n`);
writeFileSync(SPRITE, sprite);
process.stdout.write(
  `${wanted.length} clips (${missing.length} rendered in ${((performance.now() - startedAt) / 1000).toFixed(1)} s), ` +
    `${(samples / VOICE_RATE_HZ).toFixed(0)} s of speech, ${sprite.length} bytes\n`,
);
