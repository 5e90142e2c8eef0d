import type { CopyFile, CopyFolder } from '../../src/shelf/copyFiles.ts';
import { PagesError } from '../../src/shelf/pages.ts';

/** Files in memory, as the private file system of a browser keeps them; a test may cut and change them. */
export type MemoryFolder = CopyFolder & { readonly files: Map<string, Uint8Array>; refuses: 'disk-full' | 'denied' | null };

export function memoryFolder(): MemoryFolder {
  const files = new Map<string, Uint8Array>();
  const file = (name: string): CopyFile => ({
    size: () => files.get(name)?.length ?? 0,
    read: () => files.get(name)?.slice() ?? new Uint8Array(),
    writeAt(at, bytes) {
      if (folder.refuses !== null) throw new PagesError(folder.refuses, 'as the test wants');
      const before = files.get(name) ?? new Uint8Array();
      const after = new Uint8Array(Math.max(before.length, at + bytes.length));
      after.set(before);
      after.set(bytes, at);
      files.set(name, after);
    },
    cutTo: (size) => void files.set(name, (files.get(name) ?? new Uint8Array()).slice(0, size)),
    flush: () => undefined,
    close: () => undefined,
  });
  const folder: MemoryFolder = {
    files,
    refuses: null,
    names: () => Promise.resolve([...files.keys()]),
    peek: (name) => Promise.resolve(files.get(name)?.slice() ?? null),
    open(name, create) {
      if (!files.has(name) && !create) return Promise.resolve(null);
      if (!files.has(name)) files.set(name, new Uint8Array());
      return Promise.resolve(file(name));
    },
    removeAll() {
      files.clear();
      return Promise.resolve();
    },
  };
  return folder;
}
