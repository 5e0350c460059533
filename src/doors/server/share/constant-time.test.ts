import { beforeEach, describe, expect, it, vi } from 'vitest';
import { PairingCode } from './pairing-code.ts';
import { isSecretOf, newToken, readToken } from './token.ts';

/** Every comparison that this machine makes in constant time, with the lengths of both sides. */
const compared = vi.hoisted((): [number, number][] => []);

vi.mock('node:crypto', async (original) => {
  const crypto = await original<typeof import('node:crypto')>();
  return {
    ...crypto,
    timingSafeEqual(a: NodeJS.ArrayBufferView, b: NodeJS.ArrayBufferView) {
      compared.push([a.byteLength, b.byteLength]);
      return crypto.timingSafeEqual(a, b);
    },
  };
});
beforeEach(() => void compared.splice(0));

describe('what is compared with a secret', () => {
  it('is compared whole, whichever sign is wrong and however many there are: a code', () => {
    const code = new PairingCode({ role: 'helper', now: () => 0, random: () => 12_345_678 });
    for (const [given, role] of [
      ['12345678', 'helper'],
      ['02345678', null],
      ['12345670', null],
      ['1', null],
      ['', null],
      ['1'.repeat(5000), null],
    ] as const) {
      // prettier-ignore
      expect(code.roleFor(given)).toBe(role);
    }
    expect(compared).toEqual(Array.from({ length: 6 }, () => [32, 32]));
  });

  it('and the secret of a device', () => {
    const { token, secretHash } = newToken();
    const secret = readToken(token)?.secret ?? '';
    for (const [given, isRight] of [
      [secret, true],
      [`A${secret.slice(1)}x`, false],
      [secret.slice(0, -1), false],
      ['', false],
    ] as const) {
      // prettier-ignore
      expect(isSecretOf(given, secretHash)).toBe(isRight);
    }
    expect(compared).toEqual(Array.from({ length: 4 }, () => [32, 32]));
  });
});
