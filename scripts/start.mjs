import { parseArgs } from 'node:util';
import { ensureBuild } from './setup/build.mjs';
import { ensurePackages } from './setup/packages.mjs';
import { say } from './setup/root.mjs';

/** What the browser keeps belongs to the address, so the port should be the same every day. */
const USUAL_PORT = 4173;

/**
 * The port asked for in an environment variable, or the usual one.
 * @param {string} name
 * @param {number | undefined} usual
 */
function wantedPort(name, usual) {
  const text = process.env[name];
  if (text === undefined || text === '') return usual;
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new Error(`${name} is not a port number: ${text}`);
}

/** `--lan` serves to the network as well; `--share` lets devices that know the code work on the same jobs at the same time. */
function wanted() {
  const usage = 'npm start -- [--lan] [--share]';
  try {
    const { values } = parseArgs({
      options: { lan: { type: 'boolean', default: false }, share: { type: 'boolean', default: false } },
    });
    return values;
  } catch (error) {
    throw new Error(`${error instanceof Error ? error.message.split('.')[0] : String(error)}. It is: ${usage}`);
  }
}

try {
  const options = wanted();
  const port = wantedPort('PORT', USUAL_PORT) ?? USUAL_PORT;
  const lanPort = wantedPort('LAN_PORT', undefined);
  await ensurePackages();
  await ensureBuild();
  // Only now are the packages there that the server itself needs.
  const { serve } = await import('./setup/serve.mjs');
  const share = options.share ? (await import('./setup/share.mjs')).share() : null;
  const served = await serve(port, undefined, share?.prepare);
  if (port !== 0 && served.port !== port) {
    say(`Port ${port} is taken. Jobs kept in the browser under that address are not seen under the one below.`);
  }
  process.stdout.write(`Swarfside is at ${served.url} (Ctrl-C ends it)\n`);
  const running = [served];
  if (options.lan) {
    const { serveOnNetwork } = await import('./setup/lan.mjs');
    const lan = await serveOnNetwork({
      code: share?.code ?? null,
      ...(share === null ? {} : { prepare: share.prepare }),
      ...(lanPort === undefined ? {} : { port: lanPort }),
    });
    running.push(lan.served);
    process.stdout.write(lan.text);
  } else if (share !== null) process.stdout.write(`Code for working together: ${share.code}\n`);
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) {
    process.once(signal, () => {
      share?.close();
      void Promise.all(running.map((each) => each.close())).then(() => process.exit(0));
    });
  }
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
