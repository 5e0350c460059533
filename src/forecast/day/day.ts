import type { PlannedStep } from '../../make/plan.ts';
import type { Forecast } from '../forecast.ts';
import type { Resource } from './rules.ts';

/** The types of a day: what goes into its plan, and what comes out. All times are minutes on the day's own clock. */

/** One pot of the day: a make fitted to milk and kit, with its forecast. */
export interface DayPot {
  readonly id: string;
  readonly makeId: string;
  readonly steps: readonly PlannedStep[];
  /** Minutes of the forecast are the pot's own, 0 when its milk is first warmed. */
  readonly foreseen: Pick<Forecast, 'steps' | 'needs'>;
  /** What the day's clock showed at the pot's minute 0, once it has begun: such a pot is not moved. */
  readonly begunAtMin?: number;
  /** Preparations that are ready, as `stepId.preparationId`. */
  readonly ready?: readonly string[];
  /** The curd is made earlier, chilled, and worked later: how a long make fits a short class. From when each may begin. */
  readonly keptCold?: { readonly madeFromMin: number; readonly workedFromMin: number };
}

/** How many there are; what is left out is there in plenty. */
export interface DayKit extends Readonly<Partial<Record<Resource, number>>> {
  readonly hands: number;
  readonly kettleLitres?: number;
  readonly kettleWatts?: number;
  /** More hands for a while: the pupils of a class. */
  readonly more?: { readonly hands: number; readonly fromMin: number; readonly toMin: number };
}

export interface DayHours {
  /** Nothing begins before; null works back from `toMin`, as late as it can be. */
  readonly fromMin: number | null;
  /** By then 9 days in 10 are to be over; null for as soon as it can be. */
  readonly toMin: number | null;
  /** What the clock shows now: nothing is planned before it. */
  readonly nowMin?: number;
}

export interface DayInput {
  readonly pots: readonly DayPot[];
  readonly kit: DayKit;
  readonly hours: DayHours;
  /** Other makes that could stand in for one that does not fit, each with its whole forecast. */
  readonly others?: readonly Omit<DayPot, 'id'>[];
}

/** What a hold is for: a step of a pot, or something made ready for one. */
export interface Hold {
  readonly resource: Resource;
  /** Which of them, 0 for the first. */
  readonly unit: number;
  readonly fromMin: number;
  readonly toMin: number;
  readonly potId: string;
  readonly stepId: string;
  /** Set where it is held for a preparation. */
  readonly preparationId?: string;
}

/** One step on the day's clock. */
export interface PlacedStep {
  readonly stepId: string;
  /** Likeliest start and end. */
  readonly startMin: number;
  readonly endMin: number;
  /** 9 times in 10 the end falls between these. */
  readonly endEarlyMin: number;
  readonly endLateMin: number;
  /** Minutes that the make waits before this step for hands or kit; 0 for none. */
  readonly waitsMin: number;
}

export interface PlacedPot {
  readonly potId: string;
  readonly startMin: number;
  readonly steps: readonly PlacedStep[];
  /** The last step of its day that wants hands, and when 9 in 10 such pots are done with it. */
  readonly lastStepId: string;
  readonly doneMin: number;
  /** Where its curd is kept cold: from when, until when. */
  readonly keptCold: { readonly fromMin: number; readonly toMin: number } | null;
}

/** Something made ready beside the pots. */
export interface PlacedPreparation {
  readonly potId: string;
  readonly stepId: string;
  readonly preparationId: string;
  readonly startMin: number;
  readonly endMin: number;
  /** How: by hand, on a burner, in a kettle, or the evening before. */
  readonly by: 'hands' | 'burner' | 'kettle' | 'evening';
}

/** Why the day cannot be as wished; the words come from the code and its fields. */
export interface DayFinding {
  readonly code:
    | 'pot-too-long'
    | 'day-too-long'
    | 'kit-missing'
    | 'night-gone'
    | 'not-seen-to-end'
    | 'short-notice'
    | 'clash-under-way';
  readonly fields: Readonly<Record<string, string | number>>;
}

/** What would make it possible, tried out: a way, and the end of the day with it. */
export interface DayWay {
  readonly code:
    | 'more-burners'
    | 'more-kettles'
    | 'more-hands'
    | 'start-earlier'
    | 'end-later'
    | 'fewer-pots'
    | 'curd-kept-cold'
    | 'quicker-make';
  readonly fields: Readonly<Record<string, string | number>>;
}

export interface DayPlan {
  readonly pots: readonly PlacedPot[];
  readonly preparations: readonly PlacedPreparation[];
  readonly holds: readonly Hold[];
  readonly startMin: number;
  readonly endMin: number;
  /** No plan of this kit and these starts can end before it. */
  readonly boundMin: number;
  /** (end - bound) / (end - start), 0 where the plan is proven to be the shortest. */
  readonly gap: number;
  readonly isProven: boolean;
  /** How the plan was found: by placing pots one after the other, or by the solver. */
  readonly by: 'placing' | 'solver';
  readonly findings: readonly DayFinding[];
  readonly ways: readonly DayWay[];
}
