import type { Spread } from '../numbers/stats.ts';
import type { Finding } from '../science/finding.ts';

/**
 * What will happen, with honest bands. A forecast can be computed again exactly from the plan, the history, the
 * beliefs, the seed, the member count and the model version.
 */
export interface Forecast {
  readonly seed: number;
  readonly members: number;
  readonly modelVersion: string;
  readonly nowMin: number;
  /** Since when the plan is taken to have been kept, because nobody noted anything; left out while the make is followed. */
  readonly assumedFromMin?: number;
  /** Common time grid of all bands, minutes since the batch's zero. */
  readonly gridMin: readonly number[];
  /** Bands over time; NaN where fewer than a tenth of the members are still there. */
  readonly bands: Readonly<Record<BandQuantity, Band>>;
  /** One entry a step of the plan, in order. */
  readonly steps: readonly StepForecast[];
  readonly outcome: Outcome;
  /** Amounts that follow curd and clock, as bands: what to heat, freeze and mix. */
  readonly needs: Needs;
  readonly aims: readonly AimForecast[];
  readonly findings: readonly Finding[];
  /** Kish's effective number of members after readings and judgements; equals `members` before any. */
  readonly effectiveMembers: number;
  /** How the members came to explain what was observed (`ensemble.ts`). */
  readonly method: 'prior' | 'weighed' | 'redrawn' | 'moved';
  /** What the bands rest on, as catalogue codes: `first-time-with-packet`, `no-curd-reading-yet`. */
  readonly restsOn: readonly string[];
  /** A reading that would change when the running step is ended; null where none is worth the trouble. */
  readonly invitation: Invitation | null;
  /** Readings outside 98 % of what was forecast just before them; asked about, never dropped. */
  readonly surprises: readonly Surprise[];
}

/** `pH` is the milk's, then the curd's; `wheyPH` exists between cutting and draining. */
export type BandQuantity = 'pH' | 'wheyPH' | 'temperatureC' | 'curdMoisturePercent' | 'curdKg' | 'saltPercent';

export interface Band {
  readonly p5: readonly number[];
  readonly p25: readonly number[];
  readonly p50: readonly number[];
  readonly p75: readonly number[];
  readonly p95: readonly number[];
}

export interface StepForecast {
  readonly stepId: string;
  readonly state: 'done' | 'running' | 'coming';
  /** Minutes since zero. For a step that is over, all five are the noted time. */
  readonly startMin: Spread;
  readonly endMin: Spread;
  /** Twenty equally likely end times, ascending, for counting; Infinity = not within the horizon. */
  readonly endDots: readonly number[];
  /** Which floor on the band applied (acidification notes 5.5, rule 3). */
  readonly phase: 'milk' | 'curd-in-whey' | 'drained' | 'after';
  /** Best moments for the first and the next look or test, where the step ends by judgement. */
  readonly looksMin: readonly number[];
  /** The value expected when the step ends, where it has one: pH, temperature. */
  readonly endPH: Spread | null;
  readonly endTemperatureC: Spread | null;
}

export interface Outcome {
  readonly cheeseKg: Spread;
  readonly curdKg: Spread;
  readonly moisturePercent: Spread;
  readonly fatInDryMatterPercent: Spread;
  readonly saltPercent: Spread;
  readonly saltInMoisturePercent: Spread;
  readonly pHAtStretch: Spread;
  readonly wheyL: Spread;
  readonly pieces: Spread;
  /** Chance that the curd is ready to stretch before the plan's own rest is over. */
  readonly readyWithinPlannedRest: number;
  /** Minutes from culture to ready to stretch. */
  readonly cultureToReadyMin: Spread;
}

export interface Needs {
  /** Turn the burner off here and it coasts to the step's target. */
  readonly heatOffC: readonly {
    readonly stepId: string;
    readonly offC: Spread;
    readonly targetC: number;
    readonly minutes: Spread;
  }[];
  readonly wheyDrawnL: Spread | null;
  /** Depth that the drawn whey stands in this pot. */
  readonly wheyDrawnCm: Spread | null;
  readonly washWaterL: Spread | null;
  readonly stretchWaterKg: Spread | null;
  readonly stretchWaterC: number | null;
  /** Minutes this burner needs for the stretching water. */
  readonly stretchWaterHeatMin: Spread | null;
  readonly iceKg: Spread | null;
  readonly coolMin: Spread | null;
  readonly brineKg: Spread | null;
  readonly brineSaltKg: Spread | null;
  readonly brineMin: Spread | null;
  readonly filledPotKg: Spread | null;
}

export interface AimForecast {
  /** Index into `make.aims`. */
  readonly aim: number;
  readonly spread: Spread;
  readonly probability: number;
}

/** A reading worth taking now, and what it would do to the span of the running step's end, nine times in ten. */
export interface Invitation {
  readonly stepId: string;
  /** One of the two: something read, or something judged. */
  readonly quantity?: 'pH' | 'temperatureC';
  readonly sample?: 'milk' | 'whey' | 'curd';
  readonly judgement?: 'stretch' | 'wheyTaste';
  readonly spanMin: number;
  /** The span expected after it. */
  readonly thenMin: number;
}

export interface Surprise {
  readonly quantity: string;
  readonly value: number;
  readonly elapsedMin: number;
  readonly expected: { readonly p1: number; readonly p99: number };
}
