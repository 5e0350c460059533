/** A brine in words: how strong, how sour, how old; what to add; what it asks for; batches that may have gone through it. */
import { z } from 'zod';
import { brineState, type BrineState, takenByCheese } from '../../../exchange/ageing/brine-book.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { BrineRecord } from '../../../record/brine-record.ts';
import { isDemoStream } from '../../../record/event.ts';
import type { KeepingBody } from '../../../record/keeping-events.ts';
import type { KeptLine } from '../../../record/kept-log.ts';
import { strengthInEveryUnit, type StrengthUnit } from '../../../science/brine-strength.ts';
import type { Note } from '../log/event-log.ts';

export interface BrineView {
  readonly brineId: string;
  readonly name: string;
  /** In the unit that the maker measures in. */
  readonly strength: { readonly number: string; readonly unit: string };
  /** The same by mass, where the maker measures otherwise; and whether it was read or is reckoned. */
  readonly strengthSays: string;
  readonly facts: readonly string[];
  readonly findings: readonly { readonly words: string; readonly source: string; readonly isStop: boolean }[];
  /** What to add, one line each; empty where nothing. */
  readonly add: readonly string[];
  readonly topUp: Omit<Note, 'kinds'> | null;
  readonly history: readonly { readonly eventId: string; readonly when: string; readonly words: string; readonly canUndo: boolean }[];
} // prettier-ignore

const LEAST_SALT_KG = 0.005; // our own choice: what a float does not see in a tub
const LEAST_WATER_L = 0.05; // our own choice: the same
const LEAST_ML = 0.5; // our own choice: half a drop of a syringe

/** The unit that this brine's strength was last given in. */
export function unitOf(brine: BrineRecord): StrengthUnit {
  const read = brine.checks.flatMap(({ strength }) => strength?.unit ?? []).at(-1);
  return read ?? brine.made?.strength.unit ?? 'percent-by-mass';
}

/** Strength as a maker writes it: one decimal for per cent and Baumé, none for grams and densities. */
export function strengthWritten(input: { readonly percent: number; readonly unit: StrengthUnit; readonly temperatureC: number | null; readonly write: Writer }): { readonly number: string; readonly unit: string } {
  const { percent, unit, write } = input;
  const said = strengthInEveryUnit({ saltFraction: percent / 100, temperatureC: Math.min(40, Math.max(0, input.temperatureC ?? 12)) });
  switch (unit) {
    case 'percent-by-mass':
      return { number: write.number(said.percentByMass, 1), unit: '%' };
    case 'baume':
      return { number: write.number(said.baume, 1), unit: '°Bé' };
    case 'saturation-percent':
      return { number: write.number(said.saturationPercent, 0), unit: '%' };
    case 'g-per-L-water':
      return { number: write.number(said.gPerLWater, 0), unit: 'g/L' };
    case 'g-per-L-brine':
      return { number: write.number(said.gPerLBrine, 0), unit: 'g/L' };
    case 'density':
      return { number: write.number(said.densityKgPerM3 / 1000, 3), unit: 'kg/L' };
  }
} // prettier-ignore

/** Everything that the brine's card says; null for one whose figures are no brine. */
export function brineView(input: { readonly brine: BrineRecord; readonly now: number; readonly say: Say; readonly write: Writer }): BrineView | null {
  const { brine, now, say, write } = input;
  const state = brineState({ brine, now });
  if (state === null || brine.made === null) return null;
  const unit = unitOf(brine);
  const { percent, temperatureC } = state;
  return {
    brineId: brine.brineId,
    name: brine.made.name,
    strength: strengthWritten({ percent, unit, temperatureC, write }),
    strengthSays: [
      say(unit === 'percent-by-mass' ? 'brine:mass' : `brine:unit.${unit}`),
      ...(unit === 'percent-by-mass' ? [] : [say('brine:byMass', { percent: write.percent(percent, 1).text })]),
      say(state.isRead ? 'brine:read' : 'brine:reckoned'),
    ].join(', '),
    facts: factsOf({ state, say, write }),
    findings: state.findings.map(({ act, reason, source }) => ({ words: say(`brine:finding.${reason}`), source, isStop: act === 'stop' })),
    ...toAdd({ state, brineId: brine.brineId, say, write }),
    history: [...brine.lines].reverse().map((line) => ({ eventId: line.eventId, when: write.shortDate(line.at), words: historyWords({ line, say, write }), canUndo: line.kind !== 'brineMade' })),
  };
} // prettier-ignore

function factsOf(input: { readonly state: BrineState; readonly say: Say; readonly write: Writer }): string[] {
  const { state, say, write } = input;
  return [
    write.litres(state.volumeL).text,
    ...(state.pH === null ? [] : [say('brine:pH', { pH: write.pH(state.pH).text })]),
    ...(state.temperatureC === null ? [] : [write.temperature(state.temperatureC).text]),
    ...(state.calciumGPerL === null ? [] : [say('brine:calcium', { amount: write.number(state.calciumGPerL, 1) })]),
    ...(state.look == null ? [] : [say(`brine:look.${state.look}`)]),
    say('brine:clean', { count: state.uses, days: Math.floor(state.days) }),
  ];
} // prettier-ignore

function toAdd(input: { readonly state: BrineState; readonly brineId: string; readonly say: Say; readonly write: Writer }): Pick<BrineView, 'add' | 'topUp'> {
  const { state, brineId, say, write } = input;
  const { saltKg, waterL, calciumSolutionMl, vinegarMl } = state.topUp;
  const has = { salt: saltKg >= LEAST_SALT_KG, water: waterL >= LEAST_WATER_L, calcium: calciumSolutionMl >= LEAST_ML, vinegar: vinegarMl >= LEAST_ML };
  const add = [
    ...(has.salt ? [say('brine:add.salt', { amount: saltWritten(saltKg, write), aim: write.percent(state.aimPercent, 1).text })] : []),
    ...(has.water ? [say('brine:add.water', { amount: write.litres(waterL).text, aim: write.percent(state.aimPercent, 1).text })] : []),
    ...(has.calcium ? [say('brine:add.calcium', { amount: write.millilitres(calciumSolutionMl).text })] : []),
    ...(has.vinegar ? [say('brine:add.vinegar', { amount: write.millilitres(vinegarMl).text })] : []),
  ];
  const body: KeepingBody<'brineTopped'> = {
    ...(has.salt ? { saltKg: round(saltKg) } : {}),
    ...(has.water ? { waterL: round(waterL) } : {}),
    ...(has.calcium ? { calciumG: round(calciumSolutionMl * CALCIUM_G_PER_ML) } : {}),
    ...(has.vinegar ? { vinegarMl: round(vinegarMl) } : {}),
  };
  return { add, topUp: add.length === 0 ? null : { kind: 'brineTopped', streamId: brineId, body } };
} // prettier-ignore
/** Whole grams below a kilogram: what a kitchen scale shows. */
const saltWritten = (kg: number, write: Writer): string =>
  write.units === 'metric' && kg < 1 ? `${write.number(kg * 1000, 0)}\u202Fg` : write.kilograms(kg).text;
const CALCIUM_G_PER_ML = 0.33 * 1.33; // 33 % solution, 1.33 g/mL, from memory
const round = (value: number): number => Math.round(1000 * value) / 1000;

const strengthSchema = z.looseObject({ value: z.number(), unit: z.string() });

function historyWords(input: { readonly line: KeptLine; readonly say: Say; readonly write: Writer }): string {
  const { line, say, write } = input;
  const { body } = line;
  const figure = (key: string): number | null => (typeof body[key] === 'number' ? body[key] : null);
  const part = (key: string, text: (value: number) => string): string[] => {
    const value = figure(key);
    return value === null || value === 0 ? [] : [text(value)];
  };
  const { how, look } = body;
  const given = strengthSchema.safeParse(body['strength']);
  const parts = [
    ...(given.success ? [say('brine:history.strength', { value: given.data.value, unit: say(`brine:short.${given.data.unit}`) })] : []),
    ...part('pH', (value) => say('brine:pH', { pH: write.pH(value).text })),
    ...part('temperatureC', (value) => write.temperature(value).text),
    ...part('volumeL', (value) => write.litres(value).text),
    ...part('cheeseKg', (value) => say('brine:history.cheese', { mass: write.kilograms(value).text })),
    ...part('saltTakenKg', (value) => say('brine:history.took', { mass: write.kilograms(value).text })),
    ...part('saltKg', (value) => say('brine:history.salt', { mass: write.kilograms(value).text })),
    ...part('waterL', (value) => say('brine:history.water', { volume: write.litres(value).text })),
    ...part('calciumG', (value) => say('brine:history.calcium', { mass: write.grams(value).text })),
    ...part('vinegarMl', (value) => say('brine:history.vinegar', { volume: write.millilitres(value).text })),
    ...(typeof look === 'string' ? [say(`brine:look.${look}`)] : []),
  ];
  const what = line.kind === 'brineCared' && typeof how === 'string' ? say(`brine:care.${how}`) : say(`brine:history.${line.kind}`);
  return parts.length === 0 ? what : `${what}: ${parts.join(', ')}`;
} // prettier-ignore

/** A batch that was brined and is in no brine's book yet. */
export interface OpenUse {
  readonly batchId: string;
  readonly name: string;
  readonly at: number;
  readonly cheeseKg: number;
  readonly body: KeepingBody<'brineUsed'>;
}

const WATER_PER_SALT = 2; // g/g, where the make does not say: common practice (no source)
const SALT_PERCENT = 1.5; // stretched cheese 1.5 to 1.6 %: Dairy Ingredients for Food Processing (2011), p. 279, seen

/** Finished batches with a brine step that no brine has yet, newest first. */
export function openUses(input: { readonly records: readonly BatchRecord[]; readonly brines: readonly BrineRecord[] }): readonly OpenUse[] {
  const taken = new Set(input.brines.flatMap(({ uses }) => uses.flatMap(({ batch }) => batch ?? [])));
  const demo = input.brines.some(({ brineId }) => isDemoStream(brineId));
  return input.records
    .filter((record) => record.finishedAt !== null && !taken.has(record.batchId) && (!record.demo || demo))
    .flatMap((record) => useOf(record) ?? [])
    .sort((a, b) => b.at - a.at)
    .slice(0, MOST_OPEN);
} // prettier-ignore
const MOST_OPEN = 6;

/** What of a make tells how much salt its cheese takes; read loosely, for a record may hold a make of a newer version. */
const brinedSchema = z.looseObject({
  steps: z.array(z.looseObject({ id: z.string(), verb: z.string() })),
  aims: z.array(z.looseObject({ quantity: z.string(), aim: z.number() })),
  model: z.record(z.string(), z.looseObject({ mean: z.number() })),
});

function useOf(record: BatchRecord): OpenUse | null {
  const read = brinedSchema.safeParse(record.make);
  const cheeseKg = cheeseOf(record);
  if (!read.success || cheeseKg === null) return null;
  const { steps, aims, model } = read.data;
  const step = steps.find(({ verb }) => verb === 'brine');
  const ran = record.steps.find(({ stepId }) => stepId === step?.id);
  if (step === undefined || ran === undefined) return null;
  const saltPercent = aims.find(({ quantity }) => quantity === 'saltPercent')?.aim ?? SALT_PERCENT;
  const taken = takenByCheese({ cheeseKg, saltPercent, waterPerSalt: model['waterPerSalt']?.mean ?? WATER_PER_SALT });
  const at = ran.startedAt ?? ran.endedAt ?? record.zeroAt;
  return {
    batchId: record.batchId,
    name: record.name,
    at,
    cheeseKg,
    body: { batch: record.batchId, cheeseKg, ...taken },
  };
}

/** As last weighed whole, else the sum of its pieces. */
function cheeseOf({ weighed }: BatchRecord): number | null {
  const whole = weighed.filter(({ what }) => what === 'cheese').at(-1);
  if (whole !== undefined) return whole.massKg;
  const pieces = weighed.filter(({ what }) => what === 'piece');
  return pieces.length === 0 ? null : pieces.reduce((sum, { massKg }) => sum + massKg, 0);
}
