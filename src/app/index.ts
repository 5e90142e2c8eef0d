export type { AssistantState, DraftSummary, HeardLine, ListeningState, Notice, PageName } from './assistantState.ts';
export { Conversation, type ConversationDeps, type Source, type Turn, type TurnReason } from './conversation.ts';
export { createAssistant } from './assistant.ts';
export type { AssistantDeps } from './assistantDeps.ts';
export type { ListeningMode } from '../ear/index.ts';
export type { VoicePort } from './ports.ts';
