/**
 * A departure from the plan, decided at the vat: what is done otherwise from now on. Figures within a make's ranges are
 * changes (`changes.ts`); these are the larger ones, and what is done to the vat on the spot.
 */
import { z } from 'zod';
import { disturbanceSchema } from './disturbance.ts';
import { makeSchema, type Make } from './make.ts';
import { ingredientSchema, type Step } from './step.ts';
import { turnedInto } from './other-cheese.ts';
import { withChanges } from './changes.ts';
import type { Answers } from './setup.ts';

export const departureSchema = z.discriminatedUnion('kind', [
  /** A step lasts so many minutes in all, whatever else was to end it. */
  z.strictObject({ kind: z.literal('minutes'), stepId: z.string(), minutes: z.number().min(0) }),
  /** After a step the curd goes into the cold, and the make goes on after so many minutes. */
  z.strictObject({
    kind: z.literal('chill'),
    afterStepId: z.string(),
    atC: z.number(),
    minutes: z.number().positive(),
  }),
  /** From the step after this one on it is another make. */
  z.strictObject({ kind: z.literal('otherMake'), make: makeSchema, afterStepId: z.string() }),
  /** No pH meter from now on, or one again. */
  z.strictObject({ kind: z.enum(['withoutMeter', 'withMeter']) }),
  /** Done to the vat now, or in a moment. */
  z.strictObject({ kind: z.literal('done'), what: disturbanceSchema }),
  z.strictObject({
    kind: z.literal('added'),
    ingredient: ingredientSchema,
    fractionOfPlan: z.number().min(0).max(10),
    elapsedMin: z.number(),
  }),
]);
export type Departure = z.infer<typeof departureSchema>;

/** A make and the answers it is fitted to. */
export interface Fitted {
  readonly make: Make;
  readonly answers: Answers;
}

/** The make and the answers after a departure; what is only done to the vat leaves both as they are. */
export function departed(fitted: Fitted, departure: Departure): Fitted {
  const { make, answers } = fitted;
  switch (departure.kind) {
    case 'minutes':
      return { answers, make: { ...make, steps: make.steps.map((step) => (step.id === departure.stepId ? lasting(step, departure.minutes) : step)) } }; // prettier-ignore
    case 'chill':
      return { answers, make: chilled(make, departure) };
    case 'otherMake': {
      // What was chosen of the first make is in its steps by now; the other one's own figures stand from here.
      const { changes, ...kept } = answers;
      const from = changes === undefined ? make : withChanges({ make, changes });
      return { answers: kept, make: turnedInto({ from, to: departure.make, afterStepId: departure.afterStepId }) }; // prettier-ignore
    }
    case 'withoutMeter':
    case 'withMeter':
      return { make, answers: { ...answers, instruments: { ...answers.instruments, pHMeter: departure.kind === 'withMeter' } } }; // prettier-ignore
    case 'done':
    case 'added':
      return fitted;
  }
}

const CHOSEN = 'common practice' as const;
const figure = (value: number): { value: number; source: typeof CHOSEN } => ({ value, source: CHOSEN });

const lasting = (step: Step, minutes: number): Step => ({
  ...step,
  until: { join: 'first', of: [{ kind: 'time', minutes: figure(minutes) }] },
});

const CHILL_ID = 'chill-curd';
const AGAIN = '-again';

/** The curd in the fridge after a step; a rest that it interrupts goes on afterwards, and its aims are meant then. */
function chilled(make: Make, chill: Departure & { readonly kind: 'chill' }): Make {
  const at = make.steps.findIndex((step) => step.id === chill.afterStepId);
  const before = make.steps[at];
  if (before === undefined || make.steps.some((step) => step.id === CHILL_ID)) return make;
  const again: readonly Step[] = before.verb === 'restToAcid' ? [{ ...before, id: `${before.id}${AGAIN}` }] : [];
  const steps = [...make.steps.slice(0, at + 1), chillStep(chill), ...again, ...make.steps.slice(at + 1)];
  const aims = again.length === 0 ? make.aims : make.aims.map((aim) => (aim.moment === before.id ? { ...aim, moment: `${before.id}${AGAIN}` } : aim)); // prettier-ignore
  return { ...make, steps, aims };
}

const chillStep = ({ atC, minutes }: Departure & { readonly kind: 'chill' }): Step => ({
  id: CHILL_ID,
  verb: 'chillCurd',
  name: 'Chill the curd',
  how: 'Spread it flat, cover it, and put it in the coldest part of the fridge.',
  done: 'Out of the fridge',
  set: { atC: figure(atC) },
  until: { join: 'first', of: [{ kind: 'time', minutes: figure(minutes) }] },
  hands: { startMin: figure(5), duringMin: figure(0), endMin: figure(2) },
  kit: ['fridge'],
  prepare: [],
  watch: [{ quantity: 'temperatureC', sample: 'curd', when: 'after two hours', good: 'under 7 °C' }],
  why: 'Cold nearly stops the acid; the flatter the curd, the sooner it stops.',
  cautions: ['stretch-zone'],
});
