import { describe, expect, it } from 'vitest';
import { calculatorNamed } from '../../src/exchange/calc/answer.ts';
import { taken } from './complaint.ts';

const atVat = { volumeL: 10, fromC: 11, toC: 37, heaterW: 800, roomC: 5 };
const looks = (gapMin: number) => [
  { minute: 0, temperatureC: 22.4, heaterOn: true },
  { minute: gapMin, temperatureC: 46.5, heaterOn: false },
  { minute: 22.4, temperatureC: 44.2, heaterOn: false },
];
const ball = { shape: 'sphere', moisturePercent: 57, brinePercent: 18, temperatureC: 10 };

/** Inputs that once gave no number, a crash, or an error about a field nobody gave. */
const FOUND: readonly (readonly [why: string, name: string, input: unknown])[] = [
  ['a crumb is salt through before a second is over', 'brine-time', { ...ball, mm: [0.1006], targetSaltPercent: 1 }],
  ['a trace of salt is there at once', 'brine-time', { ...ball, mm: [48.5], targetSaltPercent: 5e-324 }],
  ['a ball thinner than any grain is no cheese', 'brine-time', { ...ball, mm: [5e-324], hours: 1 }],
  ['a pot that loses nothing coasts like any other', 'heat', { ...atVat, lossWPerK: 5e-324 }],
  ['a small pot in a gale comes to the room', 'hold', { volumeL: 0.8, atC: 86, minutes: 464, roomC: 0, how: 'towels', lossWPerK: 451 }],
  ['whey two millimetres deep comes to the room', 'wash', { vatL: 9.8, vatC: 37, drawL: 3, waterC: 62, addL: 2.9, potInsideMm: 2530, minutes: 224 }],
  ['a thermometer without any error does not exist', 'vat-fit', { readings: looks(10), volumeL: 9, roomC: 20, thermometerErrorC: 5e-324 }],
  ['two readings in one moment tell no rate', 'vat-fit', { readings: looks(1e-12), volumeL: 8, roomC: 20 }],
  ['milk at freezing in a cool room loses almost nothing', 'vat-fit', {
    readings: [{ minute: 0, temperatureC: 0, heaterOn: true }, { minute: 2, temperatureC: 0, heaterOn: false }], volumeL: 150, roomC: 2.5,
  }],
  ['a bowl in a gale comes to the room', 'stretch-water', { curdKg: 2, curdC: 31, targetC: 58, waterC: 79.4, pours: 2, bowlWPerK: 500 }],
  ['curd at the boil is beyond the model', 'stretch-water', { curdKg: 490, curdC: 100, targetC: 100, waterC: 100, pours: 6 }],
  ['vinegar without acid is water', 'acid', { milk: { species: 'goat' }, acid: 'vinegar', targetPH: 5.4, vinegarPercent: 5e-324 }],
  ['a cheese that is a third salt is no cheese', 'water-activity', { moisturePercent: 49, saltPercent: 15 }],
  ['milk of ninety percent fat is no milk', 'standardise', { milkL: 70, milkFatPercent: 90, targetCaseinToFat: 2.8, with: 'powder', withFatPercent: 5 }],
  ['a bath for a million cheeses is no bath', 'cool', { shape: 'sphere', mm: [61], fromC: 58, bathC: 1, targetCoreC: 20, pieces: 8_000_000 }],
]; // prettier-ignore

describe('what fuzzing found', () => {
  it.each(FOUND)('%s', (_, name, input) => {
    expect(taken(calculatorNamed(name), input).complaint).toBeNull();
  });
});
