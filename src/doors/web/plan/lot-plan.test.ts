import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { streamLog } from '../../../../tests/lot-log.ts';
import { makeNamed } from '../../../../tests/makes.ts';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { keptLots } from '../lots/kept-lots.ts';
import { factRows, usualAssumptions } from './assumed-view.ts';
import { rennetOf, withRennet } from './cartons.ts';
import { withLot } from './chosen-lots.ts';
import { draftOf } from './draft-of.ts';
import { firstDraft, withFact, type Draft } from './draft.ts';
import { chosenOf, lotFacts, withLotFacts, withoutLotFacts } from './lot-facts.ts';
import { takenOf } from './lot-says.ts';
import { planFor } from './plan-for.ts';

const NOW = Date.UTC(2026, 10, 25, 12, 0);
const MONTH = 30.44 * 86_400_000;
const tested = { strengthImcuPerMl: { p5: 100, p50: 150, p95: 225 }, flocculationMin: 14, temperatureC: 33, milk: 'whole', milkTreatment: 'pasteurised', milkMl: 100, rennetMl: 0.05, makesCurd: 'yes' }; // prettier-ignore
const ball = makeNamed('stretched-ball');
const answers = { milk: { volumeL: 10 }, culture: { lot: 'lot:blue' } };
const made = (name: string) => streamLog(`batch:${name}`, [[NOW, 'batchOpened', { make: ball, answers, name, lotCode: name, zeroAt: NOW }], [NOW, 'added', { ingredient: 'culture', amount: 1, unit: 'packets', fractionOfPlan: 1 }]]); // prettier-ignore
const streams = new Map([
  ['lot:brown', streamLog('lot:brown', [[NOW - MONTH, 'lotReceived', { lotKind: 'rennet', name: 'Brown', form: 'liquid' }], [NOW - MONTH, 'lotTested', tested]])],
  ['lot:blue', streamLog('lot:blue', [[NOW, 'lotReceived', { lotKind: 'culture', name: 'Blue', form: 'freeze-dried', treatsL: 20, massG: 0.8 }]])],
  ['batch:a', made('a')],
  ['batch:b', made('b')],
]); // prettier-ignore
const lots = keptLots(streams);
const typed = firstDraft({ today: '2026-11-26', makeId: ball.id, units: 'metric' });
const factsOf = (draft: Draft, now = NOW) => lotFacts({ chosen: draft.lots, lots, now, units: 'metric' });
const merged = (draft: Draft): Draft => withLotFacts(draft, factsOf(draft));
const withBrown = withRennet(typed, 'lot:brown');
const withBoth = withLot(withBrown, { kind: 'culture', lotId: 'lot:blue' });
const plan = (draft: Draft) => planFor({ draft: merged(draft), make: ball, units: 'metric' }).plan!;

describe('a bottle of the list in the plan', () => {
  it('brings its tested strength, its span and its age, and the plan measures out by it', () => {
    const { rennet } = plan(withBrown).setup;
    expect(rennet).toMatchObject({ form: 'liquid', strengthImcuPerMl: 150, testedSpanImcuPerMl: { low: 100, high: 225 }, monthsStored: 1 }); // prettier-ignore
    const ml = (draft: Draft): number => plan(draft).amounts.find(({ id }) => id === 'rennet')?.value ?? 0;
    expect(ml(withBrown)).toBeGreaterThan(1.25 * ml(typed)); // weaker than a common one
    expect(plan(withBrown).assumed.find(({ field }) => field === 'rennet.strengthImcuPerMl')?.span).toEqual({ low: 100, high: 225 }); // prettier-ignore
  });

  it('ages while the plan waits', () => {
    expect(factsOf(withBrown, NOW + 5 * MONTH)['rennet.monthsStored']).toBe('6');
    expect(factsOf(withBrown)['rennet.monthsStored']).toBe('1');
  });

  it('narrows the time from rennet to cutting', () => {
    const band = (draft: Draft): number => {
      const { steps } = simulate({ plan: plan(draft), members: 200, seed: 1 });
      const set = steps.find(({ stepId }) => stepId === 'set');
      return (set?.endMin.p95 ?? 0) - (set?.endMin.p5 ?? 0);
    };
    expect(band(withBrown)).toBeLessThan(0.85 * band(typed)); // heating up to rennet is in both
  });

  it('gives way to another choice and to a typed strength, span and all', () => {
    const other = withRennet(merged(withBrown), 'known');
    const kept = withoutLotFacts({ draft: other, kept: withBrown, facts: factsOf(withBrown) });
    expect([rennetOf(kept), kept.facts['rennet.testedSpanImcuPerMl.low'], kept.lots.rennet]).toEqual(['known', undefined, undefined]); // prettier-ignore
    const brought = { ...typed, facts: { ...typed.facts, 'rennet.strengthImcuPerMl': '150', 'rennet.testedSpanImcuPerMl.low': '100', 'rennet.testedSpanImcuPerMl.high': '225' } }; // prettier-ignore
    expect(withFact(brought, 'rennet.strengthImcuPerMl', '180').facts).not.toHaveProperty('rennet.testedSpanImcuPerMl.low'); // prettier-ignore
  });

  it('is chosen no more when it has left the list', () => {
    const gone = { ...typed, lots: { rennet: 'lot:gone' } };
    expect(plan(gone).setup.rennet.strengthImcuPerMl).toBeUndefined();
    expect(rennetOf(gone, new Set(['lot:brown']))).toBe('some');
    expect(rennetOf(withBrown, new Set(['lot:brown']))).toBe('lot:brown');
  });
});

describe('a packet of the list in the plan', () => {
  it('brings what it treats and weighs, and the makes recorded with it', () => {
    expect(plan(withBoth).setup.culture).toMatchObject({ packetTreatsL: 20, packetMassG: 0.8, batchesWithLot: 2 });
    expect(planFor({ draft: merged(withBoth), make: ball, units: 'metric' }).answers?.culture?.lot).toBe('lot:blue');
  });

  it('is overruled by what is typed, and asked again when that is taken back', () => {
    const more = withFact(merged(withBoth), 'culture.batchesWithLot', '9');
    const kept = withoutLotFacts({ draft: more, kept: withBoth, facts: factsOf(withBoth) });
    expect(kept.facts['culture.batchesWithLot']).toBe('9');
    expect(plan(kept).setup.culture).toMatchObject({ batchesWithLot: 9, packetMassG: 0.8 });
    const back = withoutLotFacts({ draft: withFact(merged(kept), 'culture.batchesWithLot', null), kept, facts: factsOf(kept) }); // prettier-ignore
    expect(plan(back).setup.culture.batchesWithLot).toBe(2);
  });

  it('keeps nothing of what a lot says in the draft, so that the lot is asked again', () => {
    const kept = withoutLotFacts({ draft: merged(withBoth), kept: withBoth, facts: factsOf(withBoth) });
    expect(kept).toEqual(withBoth);
    const { answers } = planFor({ draft: merged(withBoth), make: ball, units: 'metric' });
    expect(draftOf({ planned: { makeId: ball.id, answers: answers!, startAt: NOW }, units: 'metric' })).toMatchObject({ facts: withBoth.facts, lots: withBoth.lots }); // prettier-ignore
  });
});

describe('what was assumed', () => {
  const rows = (draft: Draft) =>
    factRows({ assumed: plan(draft).assumed, usual: usualAssumptions({ plan: plan(draft) }), draft: merged(draft), lotFacts: factsOf(draft), units: 'metric', narrowest: null }); // prettier-ignore

  it('leaves every row in its place when one is answered', () => {
    const before = rows(typed).map(({ path }) => path);
    for (const [path, text] of [
      ['pot.keptWarm', 'towels'],
      ['room.temperatureC', '15'],
      ['milk.homogenised', 'yes'],
    ] as const) {
      // prettier-ignore
      const after = rows(withFact(typed, path, text)).map((row) => row.path);
      expect(after, path).toEqual(before);
    }
  });

  it('says of a packet’s own facts that they come from the list, and of the bottle how its strength is known', () => {
    expect(rows(withBoth).find(({ path }) => path === 'culture.packetMassG')).toMatchObject({ isFromLot: true, isAssumed: false, text: '0.8' }); // prettier-ignore
    const words = (file: string): object => JSON.parse(readFileSync(new URL(`../../../../words/en-GB/${file}.json`, import.meta.url), 'utf8')) as object; // prettier-ignore
    const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': { plan: words('plan'), lots: words('lots'), bench: words('bench') } } })); // prettier-ignore
    const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
    const [brown] = takenOf({ lots: chosenOf({ chosen: withBrown.lots, lots }), rennet: plan(withBrown).setup.rennet, now: NOW, say, write }); // prettier-ignore
    expect(brown?.title).toBe('From Brown:');
    expect(brown?.lines.join(' ').replace(/[\u202F\u00A0]/g, ' ')).toMatch(/150 IMCU\/mL by the cup test of .*, 30 days ago; about 149 IMCU\/mL now.*9 times in 10 between 100 and 225 IMCU\/mL/); // prettier-ignore
  });
});
