import type { EarPort } from './ports.ts';

export function openPageEar(_base: string): Promise<EarPort> {
  return Promise.reject(new Error('The ear is not built in yet.'));
}
