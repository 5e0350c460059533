/** How each style of cheese is usually aged: rooms, rhythm, when it is eaten. A first plan, for the maker to change. */
import type { Care, Stay } from '../../record/care-plan.ts';
import type { Rind } from '../../science/ageing.ts';
import type { GrowthRind } from '../../science/rind-growth.ts';

export const STYLES = [
  'washed-curd', 'cheddared', 'alpine', 'grating', 'tomme', 'bloomy', 'blue', 'washed-rind', 'stretched-aged', 'brined', 'own',
] as const; // prettier-ignore
export type Style = (typeof STYLES)[number];

export interface StyleCare {
  readonly rind: Rind;
  readonly growthRind: GrowthRind;
  /** Of the cheese as it comes to the shelf [%]: means of its family, for the drying curve alone. */
  readonly moisturePercent: number;
  readonly care: Care;
}

const FB = 'table of processing characteristics, Food Biochemistry and Food Processing (seen)';
const THOM_FISK = 'Thom & Fisk (1918) The Book of Cheese (seen)';
const CURING = 'university page on ripening rooms: washed 90 to 95 %, mould 85 to 90 %, dry rind 80 to 85 % (seen)';
const RHYTHM = 'rhythm of turning and weighing: common practice (no source)';
const from = (...parts: readonly string[]): string => [...parts, RHYTHM].join('; ');

/** A stay from its figures: days (0 goes on), °C, % humidity, and the rhythm in days. */
const stay = (days: number, temperatureC: number, humidityPercent: number, every: Stay['every'], more: Partial<Stay> = {}): Stay => ({ ...(days === 0 ? {} : { days }), temperatureC, humidityPercent, every, ...more }); // prettier-ignore
const move: Partial<Stay> = { once: ['move'] };

export const STYLE_CARE: Readonly<Record<Style, StyleCare>> = {
  'washed-curd': {
    rind: 'bare', growthRind: 'natural', moisturePercent: 43,
    care: { stays: [stay(14, 13, 83, { turn: 1, weigh: 7 }), stay(0, 13, 83, { turn: 3, weigh: 14 })], tasteDays: [42, 60], readyDays: { from: 60, to: 120 }, source: from(FB, CURING) },
  },
  cheddared: {
    rind: 'bare', growthRind: 'natural', moisturePercent: 37,
    care: { stays: [stay(14, 11, 82, { turn: 1, weigh: 7 }), stay(0, 11, 82, { turn: 4, weigh: 14 })], tasteDays: [90, 150], readyDays: { from: 90, to: 365 }, source: from(FB, CURING) },
  },
  alpine: {
    rind: 'washed', growthRind: 'washed', moisturePercent: 38,
    care: { stays: [stay(10, 12, 90, { turn: 1, wash: 2, weigh: 7 }), stay(0, 13, 90, { turn: 3, wash: 4, weigh: 14 })], tasteDays: [90, 150], readyDays: { from: 150, to: 540 }, source: from('cooked cheese, 10 °C for 5 to 10 days: Dairy Ingredients for Food Processing (2011), p. 285 (seen)', CURING) },
  },
  grating: {
    rind: 'bare', growthRind: 'natural', moisturePercent: 33,
    care: { stays: [stay(30, 14, 82, { turn: 2, brush: 7, weigh: 14 }), stay(0, 14, 82, { turn: 7, brush: 14, weigh: 30 })], tasteDays: [180, 300], readyDays: { from: 270, to: 1000 }, source: from(FB, CURING) },
  },
  tomme: {
    rind: 'bare', growthRind: 'natural', moisturePercent: 44,
    care: { stays: [stay(8, 9, 92, { turn: 1, look: 1 }), stay(0, 12, 92, { turn: 2, brush: 4, weigh: 14 }, move)], tasteDays: [42, 60], readyDays: { from: 42, to: 120 }, source: from('6 to 10 °C for 1 to 8 days: a national decree (seen at second hand)', THOM_FISK) },
  },
  bloomy: {
    rind: 'mould', growthRind: 'bloomy', moisturePercent: 54,
    care: { stays: [stay(1, 13, 85, { turn: 1 }), stay(11, 13, 95, { turn: 1, look: 1 }), stay(0, 6, 85, { turn: 3, look: 2 }, { once: ['pack', 'move'] })], tasteDays: [21, 28], readyDays: { from: 21, to: 42 }, source: from('University of Guelph, Camembert cheese (seen): 12 to 14 °C, a day at 85 %, then 95 % for 6 to 12 days, then 4 to 8 °C wrapped') },
  },
  blue: {
    rind: 'mould', growthRind: 'blue', moisturePercent: 45,
    care: { stays: [stay(30, 9, 92, { turn: 2, look: 2 }), stay(0, 6, 88, { turn: 4, look: 4 }, { once: ['pack', 'move'] })], tasteDays: [60, 90], readyDays: { from: 90, to: 180 }, source: from(`${THOM_FISK}: slime above 85 to 90 %, cracks below`, FB) },
  },
  'washed-rind': {
    rind: 'washed', growthRind: 'washed', moisturePercent: 48,
    care: { stays: [stay(14, 15, 93, { turn: 1, wash: 2, look: 1 }), stay(28, 13, 93, { turn: 2, wash: 3 }), stay(0, 5, 90, { turn: 4, look: 4 }, { once: ['pack', 'move'] })], tasteDays: [30, 45], readyDays: { from: 35, to: 90 }, source: from(`${THOM_FISK}: 15.5 to 18 °C at 90 %, rubbed, for 4 to 6 weeks`, CURING) },
  },
  'stretched-aged': {
    rind: 'bare', growthRind: 'natural', moisturePercent: 42,
    care: { stays: [stay(0, 15, 85, { turn: 4, weigh: 14 })], tasteDays: [30, 60], readyDays: { from: 30, to: 180 }, source: from(FB) },
  },
  brined: {
    rind: 'vacuum', growthRind: 'fresh', moisturePercent: 55,
    care: { stays: [stay(10, 16, 90, { look: 2 }), stay(0, 4, 90, { look: 7 }, move)], tasteDays: [60], readyDays: { from: 60, to: 240 }, source: from('two months in brine, first up to 15 days at 18 °C and less, then 2 to 4 °C: a published specification (seen at second hand)') },
  },
  own: {
    rind: 'bare', growthRind: 'natural', moisturePercent: 42,
    care: { stays: [stay(0, 12, 85, { turn: 2 })], tasteDays: [], source: 'the maker' },
  },
}; // prettier-ignore

/** Family of a make, as the make language names it, and the style that its cheese is aged in. */
const STYLE_OF_FAMILY: Readonly<Record<string, Style>> = {
  cheddar: 'cheddared',
  stretched: 'stretched-aged',
  washed: 'washed-curd',
  bloomy: 'bloomy',
  alpine: 'alpine',
  brined: 'brined',
  hard: 'grating',
  blue: 'blue',
  smear: 'washed-rind',
  tomme: 'tomme',
};

/** The style of a family; `own` for one that is eaten fresh or is not known. */
export const styleOfFamily = (family: string): Style => STYLE_OF_FAMILY[family] ?? 'own';

export const isStyle = (name: string): name is Style => STYLES.some((one) => one === name);
