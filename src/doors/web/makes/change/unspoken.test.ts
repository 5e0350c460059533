import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../../../../tests/makes.ts';
import { put } from './edit.ts';
import { asKept } from './unspoken.ts';

const TOLD: Readonly<Record<string, string>> = { 'Stretched ball': 'Bola de pasta hilada', 'Warm the milk': 'Calentar la leche' }; // prettier-ignore
const book = { tell: (text: string): string => TOLD[text] ?? text };
const ball = makeNamed('stretched-ball');

describe('a make written in another language', () => {
  it('keeps the sentences that were left alone as they were written, and what was changed as it was typed', () => {
    const opened = put(put({ ...ball }, ['name'], 'Bola de pasta hilada'), ['steps', 0, 'name'], 'Calentar la leche');
    expect(asKept({ written: opened, basis: [ball], book })).toEqual(ball);
    const changed = put(opened, ['steps', 0, 'name'], 'Calentar despacio');
    expect(asKept({ written: changed, basis: [ball], book })).toEqual(put({ ...ball }, ['steps', 0, 'name'], 'Calentar despacio')); // prettier-ignore
  });

  it('leaves other names alone, even one that a sentence is told by', () => {
    const named = put({ ...ball }, ['aliases'], ['Bola de pasta hilada']);
    expect(asKept({ written: named, basis: [ball], book })['aliases']).toEqual(['Bola de pasta hilada']);
  });
});
