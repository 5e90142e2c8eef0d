import { BACKUP_ENDING, type BackupFile, type BackupFolder } from './backup.ts';

/** What the File System Access API (WICG) adds to the DOM's own types. */
type Permitted = FileSystemDirectoryHandle & {
  queryPermission?(how: { readonly mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission?(how: { readonly mode: 'readwrite' }): Promise<PermissionState>;
  values(): AsyncIterable<FileSystemHandle>;
};
type Picker = (how: { readonly id: string; readonly mode: 'readwrite' }) => Promise<FileSystemDirectoryHandle>;

const picker = (): Picker | null => {
  const { showDirectoryPicker } = globalThis as { showDirectoryPicker?: Picker };
  return showDirectoryPicker ?? null;
};

/** Whether this browser lets a page write into a folder that the person chooses. */
export const canChooseFolder = (): boolean => picker() !== null;

/** Lets the person choose a folder; null where they chose none. Call it from a press. */
export async function chooseFolder(): Promise<FileSystemDirectoryHandle | null> {
  try {
    return (await picker()?.({ id: 'backup', mode: 'readwrite' })) ?? null;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return null;
    throw error;
  }
}

/** A folder kept from an earlier session, or null where what was kept is none: settings hold whatever was put there. */
export const folderKept = (value: unknown): FileSystemDirectoryHandle | null =>
  typeof FileSystemDirectoryHandle === 'function' && value instanceof FileSystemDirectoryHandle ? value : null;

/** A chosen folder as a place for backups. The browser writes a file beside the old one and changes them on closing. */
export function folderOf(handle: FileSystemDirectoryHandle): BackupFolder {
  const folder = handle as Permitted;
  return {
    name: handle.name,
    allowed: async () => (await (folder.queryPermission?.({ mode: 'readwrite' }) ?? 'granted')) === 'granted',
    ask: async () => (await (folder.requestPermission?.({ mode: 'readwrite' }) ?? 'granted')) === 'granted',
    async write(name, text) {
      const file = await (await handle.getFileHandle(name, { create: true })).createWritable();
      await file.write(text);
      await file.close();
    },
    async files() {
      const found: BackupFile[] = [];
      for await (const entry of folder.values()) {
        if (entry.kind !== 'file' || !entry.name.endsWith(BACKUP_ENDING)) continue;
        const file = await entry.getFile();
        found.push({ name: entry.name, size: file.size, text: () => file.text() });
      }
      return found.sort((a, b) => (a.name < b.name ? -1 : 1));
    },
  };
}
