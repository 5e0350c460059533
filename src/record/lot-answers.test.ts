import { describe, expect, it } from 'vitest';
import { streamLog } from '../../tests/lot-log.ts';
import { planFor } from '../../tests/makes.ts';
import { lotAnswers, monthsBetween } from './lot-answers.ts';
import type { LotRecord, LotTest } from './lot-record.ts';
import { lotUses } from './lot-uses.ts';
import { foldBatch } from './fold.ts';

const NOW = Date.UTC(2026, 10, 25, 12, 0);
const DAY = 86_400_000;

const lot = (said: Partial<LotRecord>): LotRecord => ({ lotId: 'lot:brown', isReceived: true, kind: 'rennet', name: 'Brown', form: 'liquid', strength: null, treatsL: null, massG: null, receivedOn: null, expiresOn: null, amount: null, price: null, sinceAt: 0, usedUpAt: null, counted: null, openedOn: null, usedUpOn: null, tests: [], ...said }); // prettier-ignore
const test = (said: Partial<LotTest>): LotTest => ({ eventId: 'e', at: NOW - 61 * DAY, strengthImcuPerMl: { p5: 85, p50: 150, p95: 265 }, flocculationMin: 14, temperatureC: 33, milk: 'whole', milkMl: 100, drops: 1, makesCurd: 'yes', ...said }); // prettier-ignore
const answers = (said: Partial<LotRecord>, uses = 0) =>
  lotAnswers({ lot: lot(said), now: NOW, uses, instantOf: (day) => Date.parse(day) });

describe('what a bottle answers for a plan', () => {
  it('is the strength that its cup test found, with its span, and its age since then', () => {
    const { rennet } = answers({ tests: [test({})], strength: { value: 200, unit: 'IMCU/mL' } });
    expect(rennet).toMatchObject({ lot: 'lot:brown', form: 'liquid', strengthImcuPerMl: 150 });
    expect(rennet?.testedSpanImcuPerMl).toEqual({ low: 85, high: 265 });
    expect(rennet?.monthsStored).toBeCloseTo(2, 1);
    expect(planFor({ answers: { rennet } }).setup.rennet.testedSpanImcuPerMl).toEqual({ low: 85, high: 265 });
  });

  it('is what the label says where nobody has tested it, and only its age where the label says nothing', () => {
    const labelled = answers({ strength: { value: 200, unit: 'IMCU/mL' }, receivedOn: '2026-10-26' }).rennet;
    expect(labelled).toMatchObject({ strengthImcuPerMl: 200 });
    expect(labelled?.testedSpanImcuPerMl).toBeUndefined();
    expect(labelled?.monthsStored).toBeCloseTo(1, 1);
    expect(answers({}).rennet).toEqual({ lot: 'lot:brown', form: 'liquid' });
  });

  it('takes no strength from milk that was heated high, nor from a cup without curd', () => {
    const old = test({ at: NOW - 200 * DAY });
    for (const spoiled of [
      test({ milkTreatment: 'uht' }),
      test({ milkTreatment: 'high-heat' }),
      test({ makesCurd: 'no' }),
    ]) {
      // prettier-ignore
      expect(answers({ tests: [spoiled] }).rennet?.strengthImcuPerMl).toBeUndefined();
      expect(answers({ tests: [old, spoiled] }).rennet?.monthsStored).toBeGreaterThan(6);
    }
  });

  it('never makes a bottle younger than new', () => {
    expect(monthsBetween({ from: NOW + DAY, to: NOW })).toBe(0);
  });
});

describe('what a packet answers for a plan', () => {
  const packet = { lotId: 'lot:blue', kind: 'culture', form: 'freeze-dried', treatsL: 10, massG: 0.8 } as const;

  it('is what it treats, what it weighs, and the batches recorded with it; none recorded are no answer', () => {
    expect(answers(packet, 3).culture).toEqual({ lot: 'lot:blue', form: 'freeze-dried', packetTreatsL: 10, packetMassG: 0.8, batchesWithLot: 3 }); // prettier-ignore
    expect(answers(packet).culture).not.toHaveProperty('batchesWithLot');
  });

  it('counts only batches into which it went, and never those of the worked example', () => {
    const { make } = planFor();
    const batch = (name: string, input: { lot?: string; went?: boolean; demo?: boolean }) => {
      const answers = { milk: { volumeL: 10 }, ...(input.lot === undefined ? {} : { culture: { lot: input.lot } }) };
      const opened = {
        make,
        answers,
        name,
        lotCode: name,
        zeroAt: NOW,
        ...(input.demo === true ? { demo: true } : {}),
      };
      const added = { ingredient: 'culture', amount: 1, unit: 'packets', fractionOfPlan: 1 };
      return foldBatch(streamLog(`batch:${name}`, [[NOW, 'batchOpened', opened], ...(input.went === true ? [[NOW, 'added', added] as const] : [])])); // prettier-ignore
    };
    const uses = lotUses([
      batch('a', { lot: 'lot:blue', went: true }),
      batch('b', { lot: 'lot:blue', went: true }),
      batch('c', { lot: 'lot:blue' }),
      batch('d', { went: true }),
      batch('e', { lot: 'lot:blue', went: true, demo: true }),
    ]);
    expect([...uses]).toEqual([['lot:blue', 2]]);
  });

  it('says of calcium that it is there, and its strength where the label gives per cent', () => {
    expect(answers({ lotId: 'lot:ca', kind: 'calcium', strength: { value: 33, unit: '%' } }).calcium).toEqual({ has: true, lot: 'lot:ca', solutionPercent: 33 }); // prettier-ignore
    expect(answers({ lotId: 'lot:ca', kind: 'calcium' }).calcium).toEqual({ has: true, lot: 'lot:ca' });
  });
});
