import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keptStream } from '../../../../tests/kept-streams.ts';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { foldBrine } from '../../../record/brine-record.ts';
import { foldBatch } from '../../../record/fold.ts';
import { brineView, openUses } from './brine-view.ts';

const words = JSON.parse(readFileSync('words/en-GB/brine.json', 'utf8')) as object;
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': { brine: words } } }));
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const plain = (text: string): string => text.replace(/[\u202F\u00A0]/g, ' ');
const made = { name: 'Tub', madeOn: '2026-03-01', volumeL: 10, strength: { value: 18, unit: 'percent-by-mass' }, aimPercent: 18, temperatureC: 12 }; // prettier-ignore
const brine = (...lines: (readonly [string, string, object])[]) => foldBrine(keptStream('brine:tub', [['2026-03-01', 'brineMade', made], ...lines])); // prettier-ignore
const view = (of: ReturnType<typeof brine>) => brineView({ brine: of, now: Date.parse('2026-03-10T09:00:00Z'), say, write })!; // prettier-ignore

describe('the brine on its card', () => {
  it('says its strength in the unit of the float that read it last, and by mass beside it', () => {
    const floated = view(brine(['2026-03-05', 'brineChecked', { strength: { value: 18, unit: 'baume' } }]));
    expect(floated.strength).toEqual({ number: '18.0', unit: '°Bé' });
    expect(plain(floated.strengthSays)).toMatch(/^°Baumé, 18\.\d % by mass, as read$/);
  });

  it('says what to add in a line each, and notes the same when it is put in', () => {
    const used = view(brine(['2026-03-05', 'brineUsed', { cheeseKg: 2, saltTakenKg: 0.03, waterGivenKg: 0.06 }]));
    expect(used.strengthSays).toContain('reckoned since the last reading');
    expect(used.add.map(plain)).toEqual([expect.stringMatching(/^43 g of salt, up to 18\.0 %$/)]);
    expect(used.topUp?.body).toMatchObject({ saltKg: 0.043 });
    expect(view(brine()).add).toEqual([]);
    expect(used.history.map(({ words: line }) => plain(line))[0]).toBe(
      'a batch: 2.00 kg of cheese, took 30.0 g of salt',
    );
  });

  it('offers the batches that were brined and stand in no book yet', () => {
    const at = Date.parse('2026-03-04T09:00:00Z');
    const make = { steps: [{ id: 'brine', verb: 'brine' }], aims: [{ quantity: 'saltPercent', aim: 1.6 }], model: { waterPerSalt: { mean: 2 } } }; // prettier-ignore
    const batch = foldBatch(keptStream('batch:a', [[at, 'batchOpened', { make, answers: { milk: { volumeL: 10 } }, name: 'Ash', lotCode: 'A', zeroAt: at }], [at, 'stepStarted', { stepId: 'brine' }], [at, 'weighed', { what: 'cheese', massKg: 1.5 }], [at, 'batchFinished', {}]])); // prettier-ignore
    const [use] = openUses({ records: [batch], brines: [brine()] });
    expect(use).toMatchObject({ name: 'Ash', cheeseKg: 1.5 });
    expect(use?.body.saltTakenKg).toBeCloseTo(0.024, 9);
    const taken = brine(['2026-03-05', 'brineUsed', { ...use?.body }]);
    expect(openUses({ records: [batch], brines: [taken] })).toEqual([]);
  });
});
