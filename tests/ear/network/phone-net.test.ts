import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPhoneNet, type PhoneNet } from '../../../src/ear/network/phone-net.ts';

// Made by models/training/export.py: what torch makes of these mels with the same 8-bit weights.
const { mels, phones } = JSON.parse(readFileSync(new URL('phone-net.json', import.meta.url), 'utf8')) as { mels: number[][]; phones: number[][] };
const model = readFileSync(new URL('../../../models/swarfnet/swarfnet.onnx', import.meta.url));

let net: PhoneNet;
beforeAll(async () => {
  net = await openPhoneNet(model, { wasmUrl: null });
}, 120_000);
afterAll(() => net.close());

describe('the network', () => {
  it('gives what torch gives', { timeout: 60_000 }, async () => {
    const heard = await net.hear(Float32Array.from(mels.flat()));
    expect([heard.steps, heard.classes]).toEqual([phones.length, phones[0]?.length]);
    phones.flat().forEach((value, at) => expect(Math.abs(heard.log[at]! - value), `value ${at}`).toBeLessThan(5e-3));
  });

  it('is small enough to be carried', () => {
    expect(model.length).toBeLessThan(4_000_000);
  });

  it('says which file is no network', async () => {
    await expect(openPhoneNet(new Uint8Array([1, 2, 3]), { wasmUrl: null })).rejects.toThrow('the network could not be loaded');
  });
});
