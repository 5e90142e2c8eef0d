import { spawn } from 'node:child_process';
import { ensurePackages } from './setup/packages.mjs';
import { root, say } from './setup/root.mjs';

// The page from its sources, reloading as they change; without a service worker, which would keep old ones.
try {
  await ensurePackages();
  const args = ['node_modules/vite/bin/vite.js', '--config', 'config/vite.config.ts', ...process.argv.slice(2)];
  const child = spawn(process.execPath, args, { cwd: root, stdio: 'inherit' });
  child.on('close', (code) => (process.exitCode = code ?? 1));
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
