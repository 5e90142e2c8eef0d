export type { AssistantState, HeardLine, ListeningMode, ListeningState, Notice } from './assistantState.ts';
export { Conversation, type ConversationDeps, type Source, type Turn, type TurnReason } from './conversation.ts';
export { createAssistant, type AssistantDeps } from './assistant.ts';
export type { EarEvent, EarPort, HearingTimes, VoicePort } from './ports.ts';
