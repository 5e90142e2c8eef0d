import type { ShelfFault } from '../shelf/index.ts';
import type { AssistantState } from './assistantState.ts';

/** What the screens of the desk can do. */
export type DeskActions = Pick<
  AssistantState,
  'newDraft' | 'openDraft' | 'keepDraft' | 'dropDraft' | 'draftFromJob' | 'startJob' | 'memo' | 'pieceOf'
>;

/** What the desk touches of the rest of the assistant. */
export type DeskEdges = {
  readonly get: () => AssistantState;
  readonly set: (change: Partial<AssistantState>) => void;
  readonly trouble: (fault: ShelfFault) => void;
  readonly say: (text: string) => void;
  readonly openJob: (id: string) => Promise<void>;
};
