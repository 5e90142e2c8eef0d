import type { Grammar } from '../phrasebook/index.ts';
import type { EarEvent, ListeningMode } from './ear-event.ts';
import type { Personal, Take } from './personal/index.ts';

/** What the page tells the ear's worker. The port of `open` brings the microphone's samples, at `rateHz`. */
export type ToWorker =
  | {
      readonly type: 'open';
      readonly modelsUrl: string;
      readonly engine: string | null;
      readonly callName: string;
      /** `performance.timeOrigin` of the page, so that both speak of one clock. */
      readonly timeOrigin: number;
    }
  | { readonly type: 'sound'; readonly port: MessagePort; readonly rateHz: number }
  | { readonly type: 'mode'; readonly mode: ListeningMode }
  | { readonly type: 'grammar'; readonly grammar: Grammar }
  | { readonly type: 'deaf'; readonly deaf: boolean }
  | { readonly type: 'hold' }
  | { readonly type: 'release' }
  | { readonly type: 'clip'; readonly id: number; readonly seconds: number }
  | { readonly type: 'call-name'; readonly callName: string }
  | { readonly type: 'adapt'; readonly personal: Personal | null }
  | { readonly type: 'study'; readonly id: number; readonly said: string }
  | { readonly type: 'fit'; readonly id: number; readonly takes: readonly Take[] };

/** What the worker tells the page. */
export type FromWorker =
  | { readonly type: 'ready' }
  | { readonly type: 'event'; readonly event: EarEvent }
  | { readonly type: 'clip'; readonly id: number; readonly samples: Float32Array }
  | { readonly type: 'studied'; readonly id: number; readonly take: Take | null }
  | { readonly type: 'fitted'; readonly id: number; readonly personal: Personal | null };
