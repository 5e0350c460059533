/**
 * Which of a sum's results is said first, what is drawn, and where it stands in the list. The words are in the
 * catalogue `bench`; the sums are in `exchange/calc`. A sum that is not in this table is shown all the same.
 */
export const GROUPS = ['milk', 'heat', 'acid', 'curd', 'salt', 'keeping', 'kitchen'] as const;
export type SumGroup = (typeof GROUPS)[number];

export interface PlotLine {
  /** Path inside a point: `pH`, `curdMoisturePercent.p50`. */
  readonly y: string;
  readonly low?: string;
  readonly high?: string;
  /** What the band's ends are, where they are not the one in twenty. */
  readonly ends?: 'quickToSlow';
}

export type PlotShape =
  | {
      /** Points that the sum itself gives back. */
      readonly kind: 'curve';
      readonly points: string;
      readonly x: string;
      readonly lines: readonly PlotLine[];
      /** Readings given with the question. */
      readonly marks?: { readonly rows: string; readonly x: string; readonly y: string };
      /** Values wanted, drawn across: a list among the blanks, or one of the results. */
      readonly aims?: string;
    }
  | {
      /** The sum asked again for a run of values of one blank. */
      readonly kind: 'sweep';
      readonly over: string;
      /** Blanks left out meanwhile, because `over` takes their place. */
      readonly without: readonly string[];
      /** The run of values: fixed, or up to so many times the answer's own. */
      readonly from: number | { readonly input: string };
      readonly to: number | { readonly result: string; readonly times: number } | { readonly input: string };
      /** Which of the two is drawn along the bottom. */
      readonly x: 'over' | { readonly result: string };
      readonly lines: readonly PlotLine[];
    };

export interface SumShape {
  readonly group: SumGroup;
  /** Results said large. With blanks that exclude each other, by which of them is filled. */
  readonly first: readonly string[] | Readonly<Record<string, readonly string[]>>;
  /** Results that are not listed: parts of a drawing, or said elsewhere. */
  readonly quiet?: readonly string[];
  /** Once this blank is filled, blanks that else exclude each other are asked for together. */
  readonly bothWhen?: string;
  /** Blanks that no maker needs on a screen. */
  readonly hidden?: readonly string[];
  /** A result whose unit is named by another result, or by a blank. */
  readonly unitFrom?: Readonly<Record<string, string>>;
  readonly plot?: PlotShape;
}

export const SHAPES: Readonly<Record<string, SumShape>> = {
  milk: { group: 'milk', first: ['solidsNotFatPercent', 'caseinPercent'], quiet: ['species'] },
  standardise: { group: 'milk', first: ['addL', 'addKg'], bothWhen: 'alsoWith' },
  pasteurise: {
    group: 'milk',
    first: ['meetsMinimum'],
    plot: {
      kind: 'curve',
      points: 'input:readings',
      x: 'minute',
      lines: [{ y: 'temperatureC' }],
      aims: 'result:minimum.temperatureC',
    },
  },
  heat: {
    group: 'heat',
    first: ['minutes', 'heatOffC'],
    plot: {
      kind: 'sweep',
      over: 'toC',
      without: [],
      from: { input: 'fromC' },
      to: { input: 'toC' },
      x: { result: 'minutes' },
      lines: [{ y: 'over' }],
    },
  },
  hold: {
    group: 'heat',
    first: ['endC'],
    plot: { kind: 'curve', points: 'curve', x: 'minute', lines: [{ y: 'temperatureC' }] },
  },
  'vat-fit': { group: 'heat', first: ['lossWPerK', 'heaterW'] },
  wash: { group: 'heat', first: { addL: ['finalC'], targetC: ['addL', 'finalC'] } },
  'stretch-water': {
    group: 'heat',
    first: ['realWaterKg', 'waterKg'],
    quiet: ['mixAfterPoursC'],
    plot: { kind: 'curve', points: 'curve', x: 'minute', lines: [{ y: 'waterC' }, { y: 'meanC' }, { y: 'coreC' }] },
  },
  cool: {
    group: 'heat',
    first: { targetCoreC: ['minutes'], minutes: ['coreC'] },
    plot: {
      kind: 'sweep',
      over: 'minutes',
      without: ['targetCoreC'],
      from: 0,
      to: { result: 'minutes', times: 1.5 },
      x: 'over',
      lines: [{ y: 'coreC' }, { y: 'meanC' }, { y: 'surfaceC' }],
    },
  },
  acid: {
    group: 'acid',
    first: { targetPH: ['gPerL'], gPerL: ['pH'] },
    plot: {
      kind: 'sweep',
      over: 'gPerL',
      without: ['targetPH'],
      from: 0,
      to: { result: 'gPerL', times: 1.3 },
      x: 'over',
      lines: [{ y: 'pH', low: 'span.pH.quick', high: 'span.pH.slow', ends: 'quickToSlow' }],
    },
  },
  'acidity-units': { group: 'acid', first: ['gLacticPerL', 'dornic', 'soxhletHenkel', 'thorner', 'percentLactic'] },
  ripen: {
    group: 'acid',
    first: ['minutesToPH'],
    hidden: ['members', 'seed'],
    plot: {
      kind: 'curve',
      points: 'curve',
      x: 'minute',
      lines: [{ y: 'pH', low: 'p5', high: 'p95' }],
      marks: { rows: 'readings', x: 'minute', y: 'pH' },
      aims: 'targets',
    },
  },
  rennet: {
    group: 'curd',
    first: ['amount'],
    quiet: ['unit', 'mL', 'strengthNowIMCUPerML'],
    unitFrom: { amount: 'unit' },
  },
  'rennet-test': { group: 'curd', first: ['strengthIMCUPerML', 'makesCurd'] },
  clot: {
    group: 'curd',
    first: ['flocculationMinutes'],
    plot: {
      kind: 'sweep',
      over: 'temperatureC',
      without: [],
      from: 28,
      to: 42,
      x: 'over',
      lines: [{ y: 'flocculationMinutes.p50', low: 'flocculationMinutes.p5', high: 'flocculationMinutes.p95' }],
    },
  },
  'cut-time': { group: 'curd', first: ['cutMinutesAfterRennet'] },
  calcium: { group: 'curd', first: ['mL'] },
  whey: {
    group: 'curd',
    first: ['curve.last.curdMoisturePercent', 'curve.last.wheyL'],
    plot: {
      kind: 'curve',
      points: 'curve',
      x: 'minute',
      lines: [{ y: 'curdMoisturePercent.p50', low: 'curdMoisturePercent.p5', high: 'curdMoisturePercent.p95' }],
    },
  },
  yield: { group: 'curd', first: ['kgPer100L'] },
  standards: { group: 'curd', first: ['meets'] },
  brine: { group: 'salt', first: ['saltKg', 'waterKg'] },
  'brine-time': {
    group: 'salt',
    first: { targetSaltPercent: ['hours'], hours: ['saltPercent'] },
    plot: { kind: 'curve', points: 'profile', x: 'depthMm', lines: [{ y: 'saltInMoisturePercent' }] },
  },
  'dry-salt': { group: 'salt', first: ['saltG'] },
  'water-activity': { group: 'keeping', first: ['waterActivity'], quiet: ['error'] },
  listeria: { group: 'keeping', first: ['category', 'log10Increase'], quiet: ['rule', 'canGrow'] },
  age: {
    group: 'keeping',
    first: ['lossPercent', 'massKg'],
    plot: {
      kind: 'curve',
      points: 'curve',
      x: 'day',
      lines: [{ y: 'massKg', low: 'p5', high: 'p95' }],
      marks: { rows: 'weighings', x: 'day', y: 'massKg' },
    },
  },
  scald: { group: 'heat', first: ['secondsToBlister', 'secondsToDeepBurn'], quiet: ['isUpperBound'] },
  measure: { group: 'kitchen', first: ['value'], quiet: ['exact'], unitFrom: { value: 'input:to' } },
};

const UNKNOWN: SumShape = { group: 'kitchen', first: [] };

export const shapeOf = (name: string): SumShape => SHAPES[name] ?? UNKNOWN;

/** The results said first, for the blanks as they are filled. */
export function firstOf(input: {
  readonly shape: SumShape;
  readonly given: Readonly<Record<string, unknown>>;
}): readonly string[] {
  const { first } = input.shape;
  if (isList(first)) return first;
  return (
    Object.entries(first).find(([blank]) => input.given[blank] !== undefined)?.[1] ?? Object.values(first)[0] ?? []
  );
}

const isList = (first: SumShape['first']): first is readonly string[] => Array.isArray(first);
