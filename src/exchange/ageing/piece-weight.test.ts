import { describe, expect, it } from 'vitest';
import { keptStream } from '../../../tests/kept-streams.ts';
import { foldPiece } from '../../record/piece-record.ts';
import { foldPlace } from '../../record/place-record.ts';
import { agedMassKg } from '../../science/ageing.ts';
import { weightCurve } from './piece-weight.ts';

const care = {
  stays: [{ every: { turn: 2 }, temperatureC: 13 }],
  tasteDays: [],
  source: 'common practice (no source)',
};
const body = { shape: 'cylinder', mm: [220, 100] };
const made = { name: 'W', cheese: 'washed curd', madeOn: '2026-03-01', massKg: 4, body, moisturePercent: 42, rind: 'bare', place: 'place:cave', care }; // prettier-ignore
const cave = foldPlace(keptStream('place:cave', [['2026-01-01', 'placeTold', { name: 'Cave', kind: 'cave', temperatureC: 13, humidityPercent: 85 }]])); // prettier-ignore
const at = (day: string): number => Date.parse(`${day}T09:00:00Z`);
type Line = readonly [string, string, object];
const curve = (lines: readonly Line[], place: typeof cave | null = cave, said: object = made) =>
  weightCurve({ piece: foldPiece(keptStream('piece:w', [['2026-03-01', 'pieceMade', said], ...lines])), place, untilAt: at('2026-05-30'), moisturePercent: 43 })!; // prettier-ignore

const cheese = { massKg: 4, body: { shape: 'cylinder', mm: [220, 100] }, moisturePercent: 42, temperatureC: 13, relativeHumidityPercent: 85, rind: 'bare' } as const; // prettier-ignore
const leaky = (days: number): number => agedMassKg({ ...cheese, days, leakFactor: 1.4 });
const weighed = (day: string, days: number): Line => [day, 'pieceWeighed', { massKg: leaky(days) }];
const width = ({ points }: ReturnType<typeof curve>): number => (points.at(-1)?.p95 ?? 0) - (points.at(-1)?.p5 ?? 0);

describe('the weight of a wheel in its cave', () => {
  it('begins at what it weighed and is foreseen with a band before any second weighing', () => {
    const first = curve([]);
    expect(first.points[0]).toMatchObject({ day: 0, massKg: 4 });
    const end = first.points.at(-1)!;
    expect(end.p5).toBeLessThan(end.massKg);
    expect(end.p95).toBeGreaterThan(end.massKg);
    expect(end.massKg).toBeCloseTo(agedMassKg({ ...cheese, days: 90 }), 2);
    expect(first.assumed).toEqual([]);
  });

  it('learns from two weighings that this rind is leakier than usual, and narrows', () => {
    const learned = curve([weighed('2026-03-15', 14), weighed('2026-03-29', 28)]);
    expect(learned.learnedFrom).toBe(2);
    expect(learned.leakFactor).toBeGreaterThan(1.25);
    expect(learned.leakFactor).toBeLessThan(1.5);
    const end = learned.points.at(-1)!;
    expect(end.p5).toBeLessThan(leaky(90));
    expect(end.p95).toBeGreaterThan(leaky(90));
    expect(width(learned)).toBeLessThan(0.5 * width(curve([])));
  });

  it('begins anew where it was waxed, and then loses next to nothing', () => {
    const waxed = curve([['2026-03-29', 'pieceWaxed', { coat: 'wax' }], ['2026-03-30', 'pieceWeighed', { massKg: 3.8 }]]); // prettier-ignore
    expect(waxed.startKg).toBe(3.8);
    expect(waxed.points.at(-1)!.massKg).toBeGreaterThan(3.75);
  });

  it('reads a box without a meter by its lid, and says what it took for granted', () => {
    const box = (droplets: string) => foldPlace(keptStream('place:box', [['2026-01-01', 'placeTold', { name: 'Box', kind: 'box', box: { lid: 'finger', towel: 'none' } }], ['2026-01-02', 'placeChecked', { droplets }]])); // prettier-ignore
    const bare = { ...made, body: undefined, moisturePercent: undefined };
    const wet = curve([], box('drops'), bare);
    expect(wet.humidity.low).toBeGreaterThan(90);
    expect(wet.assumed).toEqual(['size', 'moisture', 'temperature']);
    expect(curve([], null, bare).assumed).toContain('humidity');
    const dry = curve([], box('none'), bare);
    expect(dry.points.at(-1)!.massKg).toBeLessThan(wet.points.at(-1)!.massKg);
  });

  it('does not fall over a weighing above the first', () => {
    expect(curve([['2026-03-10', 'pieceWeighed', { massKg: 4.3 }]]).points.at(-1)!.massKg).toBeLessThanOrEqual(4);
  });

  it('of a piece that nobody weighed there is none', () => {
    const piece = foldPiece(keptStream('piece:w', [['2026-03-01', 'pieceMade', { ...made, massKg: undefined }]]));
    expect(weightCurve({ piece, place: null, untilAt: at('2026-05-30'), moisturePercent: 43 })).toBeNull();
  });
});
