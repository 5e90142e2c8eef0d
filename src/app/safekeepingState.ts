import type { CopyStanding, Persistence, SetAsideEvent } from '../shelf/index.ts';

/** A file to be saved: its name and its text. */
export type NamedText = { readonly fileName: string; readonly text: string };

/** What keeps the record safe, as the screens see it. The functions are safe to call at any time and none throws. */
export type Safekeeping = {
  /** Whether this browser can write backups into a folder by itself. */
  readonly canChoose: boolean;
  readonly folder: { readonly name: string; readonly standing: 'kept' | 'asks' | 'failed' } | null;
  /** When the open job was last written to the folder or saved as a file, and how many events that file holds. */
  readonly saved: { readonly at: number; readonly events: number } | null;
  readonly persistence: Persistence;
  /** Whether each log is kept twice in this browser. */
  readonly copy: CopyStanding['as'];
  /** Events of the open job that were found damaged and set aside. */
  readonly setAside: readonly SetAsideEvent[];
  chooseFolder(): Promise<void>;
  /** Asks for the folder again, as a browser wants after it was closed; call it from a press. */
  allowFolder(): Promise<void>;
  leaveFolder(): Promise<void>;
  restoreFolder(): Promise<void>;
  setAsideFile(): NamedText | null;
  diagnosticFile(withJob: boolean): Promise<NamedText>;
};
