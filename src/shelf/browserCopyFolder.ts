import type { CopyFile, CopyFolder } from './copyFiles.ts';
import { PagesError } from './pages.ts';

/** How long another window may take to let a file go, and how often it is asked. */
const PATIENCE_MS = 5_000;
const ASK_EVERY_MS = 25;

const named = (error: unknown, ...names: readonly string[]): boolean =>
  error instanceof DOMException && names.includes(error.name);

/** What the browser says of a file that it does not write, as the store's fault. */
export function copyFailure(error: unknown): PagesError {
  if (error instanceof PagesError) return error;
  const detail = error instanceof Error || error instanceof DOMException ? `${error.name}: ${error.message}` : String(error);
  return new PagesError(
    named(error, 'QuotaExceededError') || /quota|no space|disk (is )?full/i.test(detail) ? 'disk-full' : 'denied',
    detail,
  );
}

function file(handle: FileSystemSyncAccessHandle): CopyFile {
  return {
    size: () => handle.getSize(),
    read() {
      const bytes = new Uint8Array(handle.getSize());
      handle.read(bytes, { at: 0 });
      return bytes;
    },
    writeAt(at, bytes) {
      const written = handle.write(bytes, { at });
      if (written < bytes.length) throw new PagesError('disk-full', `${written} of ${bytes.length} bytes were written`);
    },
    cutTo: (size) => handle.truncate(size),
    flush: () => handle.flush(),
    close: () => handle.close(),
  };
}

/** Tries until it works or another window has had the file for too long; `ask` asks it each time. */
async function patiently<T>(attempt: () => Promise<T>, ask: () => void): Promise<T> {
  for (let waitedMs = 0; ; waitedMs += ASK_EVERY_MS) {
    try {
      return await attempt();
    } catch (error) {
      if (!named(error, 'NoModificationAllowedError', 'InvalidStateError') || waitedMs >= PATIENCE_MS) throw error;
      ask();
      await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
    }
  }
}

/**
 * A folder in the private file system of this origin, for a worker: only there files are written in step. A file is open in
 * one window at a time; `ask` tells the others to let go of a job's file, or of all (null).
 */
export function browserCopyFolder(folder: string, ask: (job: string | null) => void): CopyFolder {
  const root = (): Promise<FileSystemDirectoryHandle> => navigator.storage.getDirectory();
  async function found<T>(what: () => Promise<T>): Promise<T | null> {
    try {
      return await what();
    } catch (error) {
      if (named(error, 'NotFoundError')) return null;
      throw error;
    }
  }
  const directory = async (create: boolean): Promise<FileSystemDirectoryHandle | null> => {
    const top = await root();
    return await found(() => top.getDirectoryHandle(folder, { create }));
  };
  return {
    async names() {
      const names: string[] = [];
      for await (const name of (await directory(false))?.keys() ?? []) names.push(name);
      return names;
    },
    async peek(name) {
      const within = await directory(false);
      if (within === null) return null;
      // A file that grows while it is read is read again.
      for (let tries = 0; ; tries += 1) {
        try {
          const handle = await found(() => within.getFileHandle(name));
          return handle === null ? null : new Uint8Array(await (await handle.getFile()).arrayBuffer());
        } catch (error) {
          if (!named(error, 'NotReadableError') || tries >= 20) throw error;
          await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
        }
      }
    },
    async open(name, create) {
      const within = await directory(create);
      const handle = within === null ? null : await found(() => within.getFileHandle(name, { create }));
      if (handle === null) return null;
      return file(
        await patiently(
          () => handle.createSyncAccessHandle(),
          () => ask(name),
        ),
      );
    },
    async removeAll() {
      const top = await root();
      await patiently(
        () => found(() => top.removeEntry(folder, { recursive: true })),
        () => ask(null),
      );
    },
  };
}
