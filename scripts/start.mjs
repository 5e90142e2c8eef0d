import { ensureBuild } from './setup/build.mjs';
import { ensurePackages } from './setup/packages.mjs';
import { say } from './setup/root.mjs';

/** What the browser keeps belongs to the address, so the port should be the same every day. */
const USUAL_PORT = 4173;

/** The port asked for in PORT, or the usual one. */
function wantedPort() {
  const text = process.env['PORT'];
  if (text === undefined || text === '') return USUAL_PORT;
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new Error(`PORT is not a port number: ${text}`);
}

try {
  const wanted = wantedPort();
  await ensurePackages();
  await ensureBuild();
  // Only now are the packages there that the server itself needs.
  const { serve } = await import('./setup/serve.mjs');
  const served = await serve(wanted);
  if (wanted !== 0 && served.port !== wanted) {
    say(`Port ${wanted} is taken. Jobs kept in the browser under that address are not seen under the one below.`);
  }
  process.stdout.write(`Swarfside is at ${served.url} (Ctrl-C ends it)\n`);
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) {
    process.once(signal, () => void served.close().then(() => process.exit(0)));
  }
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
