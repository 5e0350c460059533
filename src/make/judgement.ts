import { z } from 'zod';

/**
 * The judgements that a maker makes without an instrument, and their grades in order, from too early to too late.
 * `not-sure` is offered for each and counts as weak evidence. What a grade says about milk and curd is
 * science (`science/judgements.ts`); which words exist is the make language.
 */
export const JUDGEMENT_GRADES = {
  cleanBreak: ['not-yet', 'ragged', 'clean', 'gone-far'],
  grip: ['smears', 'holds-loosely', 'grips', 'rubble'],
  stretch: ['crumbles', 'tears-short', 'pulls-rough', 'long-smooth', 'runs'],
  wheyTaste: ['sweet', 'flat', 'sharp'],
  tang: ['none', 'faint', 'clear'],
  acidGel: ['liquid', 'wobbly', 'set', 'pulls-away'],
  flocs: ['milky', 'cloudy', 'clear', 'sandy'],
  millTear: ['rubbery', 'short', 'fibres', 'mushy'],
  panTrack: ['runs-back', 'closes-slowly', 'stays', 'crumbles'],
} as const;

export type JudgementName = keyof typeof JUDGEMENT_GRADES;
export const judgementNames = [
  'cleanBreak', 'grip', 'stretch', 'wheyTaste', 'tang', 'acidGel', 'flocs', 'millTear', 'panTrack',
] as const satisfies JudgementName[]; // prettier-ignore
export const judgementNameSchema = z.enum(judgementNames);

/** A judgement as it was made: what was tested and which grade it got. */
export const judgedSchema = z
  .strictObject({ judgement: judgementNameSchema, grade: z.string() })
  .refine(
    (judged) =>
      judged.grade === 'not-sure' || (JUDGEMENT_GRADES[judged.judgement] as readonly string[]).includes(judged.grade),
    { path: ['grade'], error: 'is not a grade of this judgement' },
  );
