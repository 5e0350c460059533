/**
 * The judgements as data: what each looks at, its grades in order, where they lie on that state and how far makers differ.
 * What they say as evidence: `judgements.ts`.
 */

export const STRETCH_GRADES = ['crumbles', 'tears-short', 'pulls-rough', 'long-smooth', 'runs'] as const;
export const CLEAN_BREAK_GRADES = ['not-yet', 'ragged', 'clean', 'gone-far'] as const;
export const GRIP_GRADES = ['smears', 'holds-loosely', 'grips', 'rubble'] as const;
export const WHEY_TASTE_GRADES = ['sweet', 'flat', 'sharp'] as const;
export const TANG_GRADES = ['none', 'faint', 'clear'] as const;
export const FLOCCULATION_GRADES = ['liquid', 'flecks', 'thick'] as const;
export const ACID_GEL_GRADES = ['liquid', 'wobbly', 'set', 'pulls-away'] as const;
export const FLOCS_GRADES = ['milky', 'cloudy', 'clear', 'sandy'] as const;
export const MILL_TEAR_GRADES = ['rubbery', 'short', 'fibres', 'mushy'] as const;
export const PAN_TRACK_GRADES = ['runs-back', 'closes-slowly', 'stays', 'crumbles'] as const;

export type JudgementId =
  | 'stretch' | 'cleanBreak' | 'grip' | 'wheyTaste' | 'tang' | 'flocculation' | 'acidGel' | 'flocs' | 'millTear' | 'panTrack'; // prettier-ignore
/** The state a judgement looks at. */
export type JudgedState =
  'curdPH' | 'firmnessPa' | 'curdMoisturePercent' | 'wheyPH' | 'milkPHFall' | 'clottingProgress';

export interface JudgementModel {
  readonly id: JudgementId;
  readonly state: JudgedState;
  readonly unit: string;
  /** In the order in which they come during a make, too early first. */
  readonly grades: readonly string[];
  /** State at which half of the makers call the next grade, one fewer than the grades. */
  readonly thresholds: readonly number[];
  /** True where the state falls during a make (pH, moisture). */
  readonly falls: boolean;
  /** Standard deviation of where a maker calls it, in the state's unit. */
  readonly sd: number;
  readonly source: string;
}

export const JUDGEMENTS: Readonly<Record<JudgementId, JudgementModel>> = {
  stretch: {
    id: 'stretch',
    state: 'curdPH',
    unit: 'pH',
    grades: STRETCH_GRADES,
    // Cultured curd pulls long at pH 5.0-5.3 (Gonçalves and Cardarelli 2021, Table 1, seen; Chandan and Kilara 2011 p. 279,
    // seen): half of the makers call it one standard deviation below the window's upper edge, so that five in six stretch
    // inside it; the other three are our own choice
    thresholds: [5.6, 5.38, 5.23, 4.95],
    falls: true,
    sd: 0.07, // our own choice
    source: 'window 5.0-5.3: Gonçalves and Cardarelli 2021, Table 1, seen; grades and widths our own',
  },
  cleanBreak: {
    id: 'cleanBreak',
    state: 'firmnessPa',
    unit: 'Pa',
    grades: CLEAN_BREAK_GRADES,
    // 30-40 Pa at normal cutting ("Viscoelastic properties of coagulating milk", abstract seen); the other two our own choice
    thresholds: [14, 35, 75],
    falls: false,
    // Our own choice: makers differ by 7 Pa (the seen span of 30-40 Pa read as an 80 % span, rounded up), and the firmness that
    // the gel is reckoned to have is out by 30 % (`firmness.ts`; nine in ten, at 35 Pa: 6.4). No maker can tell the two apart.
    sd: 9.5,
    source: 'normal cutting 30-40 Pa, abstract seen; other grades and widths our own',
  },
  grip: {
    id: 'grip',
    state: 'curdMoisturePercent',
    unit: '%',
    grades: GRIP_GRADES,
    thresholds: [64, 57, 46], // common practice (no source): smears = too wet, rubble = too dry; sizes our own
    falls: true,
    sd: 4, // our own choice
    source: 'common practice (no source)',
  },
  wheyTaste: {
    id: 'wheyTaste',
    state: 'wheyPH',
    unit: 'pH',
    grades: WHEY_TASTE_GRADES,
    thresholds: [6.3, 5], // common practice (no source): sweet above 6.3, yoghurt-sharp below 5
    falls: true,
    sd: 0.25, // our own choice: three classes only, and tasters tire
    source: 'common practice (no source)',
  },
  tang: {
    id: 'tang',
    state: 'milkPHFall',
    unit: 'pH',
    grades: TANG_GRADES,
    thresholds: [0.12, 0.35], // our own choice: a faint tang beside a kept cup of the milk at a fall of 0.1-0.15
    falls: false,
    sd: 0.08, // our own choice
    source: 'common practice (no source)',
  },
  acidGel: {
    id: 'acidGel',
    state: 'curdPH',
    unit: 'pH',
    grades: ACID_GEL_GRADES,
    // A gel between pH 5.3 and 5.0, firm by 4.7, and at 4.5 drawn from the wall with whey on it: common practice (no source)
    thresholds: [5.15, 4.75, 4.5],
    falls: true,
    sd: 0.09, // our own choice
    source: 'common practice (no source)',
  },
  flocs: {
    id: 'flocs',
    state: 'curdPH',
    unit: 'pH',
    grades: FLOCS_GRADES,
    // Whey curd at pH 5.8-6.1, milk curd at 5.3-5.8 of hot milk (trade texts, seen); fine sand below: common practice (no source)
    thresholds: [6.3, 6.0, 5.0],
    falls: true,
    sd: 0.15, // our own choice: how hot it is counts as well, and that is not in the state
    source: 'pH at which hot whey and milk are curdled, seen; grades and widths our own',
  },
  millTear: {
    id: 'millTear',
    state: 'curdPH',
    unit: 'pH',
    grades: MILL_TEAR_GRADES,
    // Milled at 5.4-5.3, when a slab tears like cooked chicken breast (Hill, web notes on cheddar, and Thom and Fisk 1918 s. 203, seen)
    thresholds: [5.65, 5.42, 5.05],
    falls: true,
    sd: 0.09, // our own choice
    source: 'milling pH 5.3-5.4: Hill, web notes, seen; fibres: Thom and Fisk 1918, section 203, seen; widths our own',
  },
  panTrack: {
    id: 'panTrack',
    state: 'curdMoisturePercent',
    unit: '%',
    grades: PAN_TRACK_GRADES,
    thresholds: [40, 18, 10], // our own choice: where the track stays it sets firm, and firm brown whey cheese holds 10-20 % water (Thom and Fisk 1918, section 281, seen)
    falls: true,
    sd: 3, // our own choice
    source: 'common practice (no source); final moisture 10-20 %: Thom and Fisk 1918, section 281, seen',
  },
  flocculation: {
    id: 'flocculation',
    state: 'clottingProgress',
    unit: '',
    grades: FLOCCULATION_GRADES,
    thresholds: [1, 1.5], // flecks are where clotting progress reaches 1, by definition; thick is our own choice
    falls: false,
    sd: 0.07, // our own choice: a bowl spun every half minute in a 15 minute wait, and the eye
    source: 'definition of flocculation; widths our own',
  },
};
