import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { root } from '../../scripts/setup/root.mjs';

/**
 * Where anything lies that could be sound, in every store that a page has: each database, the private files, the caches, local
 * and session storage. A binary of more than a few bytes counts, and so does a long row of numbers or a long word without a
 * space, such as base64: a job and its readings are none of these. In the caches the files of the build itself are left out, by
 * their names.
 */
export async function soundKept(page: Page): Promise<readonly string[]> {
  const { found, cached } = await page.evaluate(async () => {
    const SHORT = 512;
    const found: string[] = [];
    const look = async (where: string, value: unknown): Promise<void> => {
      if (value instanceof Blob) await look(where, new Uint8Array(await value.arrayBuffer()));
      else if (value instanceof ArrayBuffer || ArrayBuffer.isView(value)) {
        if (value.byteLength > SHORT) found.push(`${where}: ${value.byteLength} bytes`);
      } else if (typeof value === 'string') {
        const longest = Math.max(...value.split(/[\s"\\]+/).map((word) => word.length));
        if (longest > SHORT) found.push(`${where}: a word of ${longest} letters`);
      } else if (Array.isArray(value) && value.length > SHORT && value.every((each) => typeof each === 'number'))
        found.push(`${where}: ${value.length} numbers`);
      else if (value instanceof Map || Array.isArray(value)) for (const each of value) await look(where, each);
      else if (typeof value === 'object' && value !== null)
        for (const [name, each] of Object.entries(value)) await look(`${where} ${name}`, each);
    };
    const answer = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error ?? new Error('the database does not answer'));
      });
    for (const { name } of await indexedDB.databases()) {
      if (name === undefined) continue;
      const database = await answer(indexedDB.open(name));
      for (const store of database.objectStoreNames)
        await look(`database ${name} ${store}`, await answer(database.transaction(store).objectStore(store).getAll()));
      database.close();
    }
    const folder = async (where: string, directory: FileSystemDirectoryHandle): Promise<void> => {
      for await (const [name, handle] of directory as unknown as AsyncIterable<[string, FileSystemHandle]>)
        if (handle.kind === 'directory') await folder(`${where} ${name}`, handle as FileSystemDirectoryHandle);
        else {
          const bytes = await (await (handle as FileSystemFileHandle).getFile()).arrayBuffer();
          try {
            await look(`${where} ${name}`, new TextDecoder('utf-8', { fatal: true }).decode(bytes));
          } catch {
            await look(`${where} ${name}`, bytes);
          }
        }
    };
    await folder('file', await navigator.storage.getDirectory());
    for (const [where, storage] of Object.entries({ localStorage, sessionStorage }))
      for (const name of Object.keys(storage)) await look(`${where} ${name}`, storage.getItem(name));
    const cached: string[] = [];
    for (const name of await caches.keys())
      for (const request of await (await caches.open(name)).keys()) cached.push(new URL(request.url).pathname);
    return { found, cached };
  });
  const strange = cached.filter((path) => !existsSync(join(root, 'dist', path.endsWith('/') ? `${path}index.html` : path)));
  return [...found, ...strange.map((path) => `cache ${path}: no file of the build`)];
}
