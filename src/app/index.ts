export type { AssistantState, HeardLine, ListeningMode, ListeningState, Notice } from './assistantState.ts';
export { Conversation, type ConversationDeps, type Source, type Turn, type TurnReason } from './conversation.ts';
