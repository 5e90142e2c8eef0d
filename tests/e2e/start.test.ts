import { spawn, type ChildProcess } from 'node:child_process';
import { createServer } from 'node:http';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { root } from '../../scripts/setup/root.mjs';

type Started = { readonly child: ChildProcess; readonly said: () => string; readonly remarked: () => string };

/** `npm start` without npm, on a tree whose packages and build are current. */
function start(port: string): Started {
  const child = spawn(process.execPath, [join(root, 'scripts/start.mjs')], { env: { ...process.env, PORT: port } });
  let said = '';
  let remarked = '';
  child.stdout.on('data', (chunk) => (said += String(chunk)));
  child.stderr.on('data', (chunk) => (remarked += String(chunk)));
  return { child, said: () => said, remarked: () => remarked };
}

const ended = (child: ChildProcess): Promise<number | null> => new Promise((done) => child.once('exit', (code) => done(code)));

async function address({ child, said }: Started): Promise<string> {
  while (!said().includes('\n')) {
    if (child.exitCode !== null) throw new Error(`npm start ended with code ${child.exitCode}`);
    await pause(50);
  }
  return /http:\S+/.exec(said())?.[0] ?? '';
}

describe('npm start', () => {
  test('says where the page is in one line, serves it, and ends with Ctrl-C', async () => {
    const started = start('0');
    const url = await address(started);
    expect(started.said()).toMatch(/^Swarfside is at http:\/\/localhost:\d+\/ \(Ctrl-C ends it\)\n$/);
    expect(await (await fetch(url)).text()).toContain('<title>Swarfside');
    expect(started.remarked()).not.toContain('taken');
    const end = ended(started.child);
    started.child.kill('SIGINT');
    expect(await end).toBe(0);
  });

  test('takes another port when the usual one is taken, and says what that means', async () => {
    const squatter = createServer((_request, response) => response.end('not Swarfside'));
    const port = await new Promise<number>((done) => {
      squatter.listen(0, '127.0.0.1', () => {
        const at = squatter.address();
        done(typeof at === 'object' && at !== null ? at.port : 0);
      });
    });
    const started = start(String(port));
    const url = await address(started);
    expect(url).not.toBe(`http://localhost:${port}/`);
    expect(await (await fetch(url)).text()).toContain('<title>Swarfside');
    expect(started.remarked()).toContain(`Port ${port} is taken.`);
    const end = ended(started.child);
    started.child.kill('SIGTERM');
    expect(await end).toBe(0);
    squatter.close();
  });

  test('a port that is none is refused in one line', async () => {
    const started = start('usual');
    expect(await ended(started.child)).toBe(1);
    expect([started.said(), started.remarked()]).toEqual(['', 'PORT is not a port number: usual\n']);
  });
});
