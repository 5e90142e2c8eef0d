/**
 * A thousand kills of the browser while readings are taken: acknowledged and missing, and whether the log opens each time. Run:
 * npm run bench -- kills; by itself: npx tsx scripts/bench/kills.ts [--kills N] [--seed N] [--lanes N]
 */
import { parseArgs } from 'node:util';
import { forgetProfile, freshProfile } from '../../tests/e2e/harness.ts';
import { killAgainAndAgain } from '../../tests/e2e/kills/again-and-again.ts';
import { killServer } from '../../tests/e2e/kills/server.ts';

const { values: options } = parseArgs({
  options: {
    kills: { type: 'string', default: '1000' },
    seed: { type: 'string', default: '1' },
    lanes: { type: 'string', default: '3' },
  },
});
const lanes = Number(options.lanes);
const kills = Math.ceil(Number(options.kills) / lanes);
const seed = Number(options.seed);
const server = await killServer();
const begun = performance.now();
/** How the run stands, told every so many kills: it takes an hour. */
const TOLD_EVERY = 25;
let done = 0;
let risked = 0;
const wrongOf = new Map<string, readonly string[]>();
function tellOf(lane: string, atRisk: number, wrong: readonly string[]): void {
  done += 1;
  risked += atRisk;
  wrongOf.set(lane, wrong);
  const found = [...wrongOf.values()].flat();
  if (done % TOLD_EVERY === 0 || found.length > 0)
    process.stderr.write(
      `${done} kills, ${risked} acknowledged, ${((performance.now() - begun) / 1000).toFixed(0)} s, wrong: ${found.join('; ') || 'nothing'}\n`,
    );
}
const profiles = Array.from({ length: lanes }, () => freshProfile());
try {
  const killed = await Promise.all(
    profiles.map((profile, index) => {
      const lane = `lane${index}`;
      return killAgainAndAgain(server, profile, {
        lane,
        kills,
        seed: seed + index,
        onKill: (atRisk, wrong) => tellOf(lane, atRisk, wrong),
      });
    }),
  );
  const jobs = killed.flatMap((lane) => lane.jobs).map(server.job);
  const atRisk = killed.flatMap((lane) => lane.atRisk).toSorted((a, b) => a - b);
  const acknowledged = atRisk.reduce((sum, each) => sum + each, 0);
  const wrong = jobs.flatMap((job) => job.wrong);
  const seconds = (performance.now() - begun) / 1000;
  process.stdout.write(
    `killed ${kills * lanes} times (seeds ${seed} to ${seed + lanes - 1}) in ${seconds.toFixed(0)} s: ${acknowledged} events acknowledged ` +
      `(a kill: ${atRisk[0]} to ${atRisk.at(-1)}, median ${atRisk[atRisk.length >> 1]}), ` +
      `${jobs.reduce((sum, job) => sum + job.putBack, 0)} put back from the second copy, ` +
      `${wrong.length === 0 ? 'none missing, every log opened sound' : wrong.join('; ')}\n`,
  );
  process.exitCode = wrong.length === 0 ? 0 : 1;
} finally {
  await server.close();
  profiles.forEach(forgetProfile);
}
