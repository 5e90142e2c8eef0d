import { build } from './setup/build.mjs';
import { ensurePackages } from './setup/packages.mjs';
import { say } from './setup/root.mjs';

try {
  await ensurePackages();
  await build();
  say('The page is in dist/.');
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
