import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { codeInHalves, codeInHash, deviceLines, digitsOf, kindOfDevice, lacksOf, problemOf } from './pairing-view.ts';

const pairing = JSON.parse(readFileSync('words/en-GB/pairing.json', 'utf8')) as object;
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': { pairing } } }));
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const NOON = Date.parse('2026-11-12T12:00:00Z');

describe('pairing a device', () => {
  it('takes the code with whatever stands between its digits, from the picture only where it is whole', () => {
    expect(digitsOf('1234 5678')).toBe('12345678');
    expect(digitsOf(' 12-34x56789')).toBe('12345678');
    expect(codeInHash('#12345678')).toBe('12345678');
    expect(codeInHash('#1234')).toBe('');
    expect(codeInHash('#12345678&x')).toBe('');
    expect(codeInHalves('12345678')).toBe('1234 5678');
    expect(codeInHalves('123', '·')).toBe('123· ····');
    expect(codeInHalves('1234')).toBe('1234');
  });

  it('says what went wrong and what to do, with the seconds to wait', () => {
    expect(problemOf({ is: 'wait', seconds: 42 }, say)).toContain('42 seconds');
    for (const is of ['wrong', 'dead', 'name', 'not-shared', 'held', 'full', 'away'] as const) expect(problemOf({ is }, say)).toMatch(/\w+.*\.$/); // prettier-ignore
    expect(problemOf({ is: 'paired', role: 'helper' }, say)).toBeNull();
  });

  it('lists the device heard last first, and says which of them this is', () => {
    const device = { role: 'helper', pairedAt: 0, isAsking: false } as const;
    const lines = deviceLines({ devices: [
      { ...device, id: 'old', name: 'Old tablet', seenAt: NOON - 3 * 86_400_000 },
      { ...device, id: 'own', name: 'Desk', role: 'maker', seenAt: NOON - 5_000, isAsking: true },
      { ...device, id: 'phone', name: 'Phone', role: 'reader', seenAt: NOON - 3_600_000 },
    ], now: NOON, say, write }); // prettier-ignore
    expect(lines.map(({ name, role, seen }) => `${name}, ${role}, ${seen}`)).toEqual([
      'Desk (this device), Maker, here now',
      'Phone, Reader, last heard at 11:00',
      'Old tablet, Helper, last heard on 9 Nov',
    ]);
  });

  it('names what plain HTTP withholds, and nothing where the page is safe', () => {
    expect(lacksOf(true)).toEqual([]);
    for (const lack of lacksOf(false)) expect(say(`pairing:lacks.${lack}`)).not.toContain('pairing:');
    expect(kindOfDevice(390)).toBe('phone');
    expect(kindOfDevice(820)).toBe('tablet');
    expect(kindOfDevice(1280)).toBe('computer');
  });
});
