/** What is wrong with a make, what to doubt in it, and what it does otherwise than its original, in words. */
import type { MakeCheck } from '../../../../exchange/make-checks.ts';
import { differences, type Difference, type Leaf, type Where } from '../../../../make/difference.ts';
import type { Make } from '../../../../make/make.ts';
import type { Problem } from '../../../../numbers/validity.ts';
import type { Telling } from '../makes-view.ts';
import { labelOf } from './words-of-field.ts';

/** A problem beside its field: what is wanted there. */
export function problemText({ code, expected }: Problem, { say }: Telling): string {
  switch (code) {
    case 'missing':
      return say('change:problem.missing');
    case 'not-a-number':
    case 'wrong-type':
      return say('change:problem.wrong');
    case 'unknown-choice':
      return say('change:problem.choice', { expected });
    case 'unknown-field':
      return say('change:problem.unknown');
    default:
      return say('change:problem.other', { expected });
  }
}

/** A doubt in one sentence, with its figures. */
export function checkText(check: MakeCheck, { say, write }: Telling): string {
  const pH = (value: number): string => write.number(value, 2);
  switch (check.code) {
    case 'no-acid':
      return say('change:check.no-acid', { step: check.step, pH: pH(check.at) });
    case 'pH-not-reached':
      return say('change:check.pH-not-reached', { step: check.step, pH: pH(check.at), low: pH(check.p5), high: pH(check.p95) }); // prettier-ignore
    case 'time-contradicted':
      return say('change:check.time-contradicted', { step: check.step, said: write.duration(check.minutes), likely: write.duration(check.likelyMin), low: lasting(check.p5, write), high: lasting(check.p95, write) }); // prettier-ignore
    case 'never-ends':
      return say('change:check.never-ends', { step: check.step });
    case 'aim-missed': {
      const shown = (value: number): string => write.number(value, check.quantity === 'pH' ? 2 : check.quantity === 'cheesePerMilkKgPerL' ? 3 : 1); // prettier-ignore
      return say('change:check.aim-missed', { what: say(`change:aim.${check.quantity}`), low: shown(check.low), high: shown(check.high), from: shown(check.p5), to: shown(check.p95), count: check.in20 }); // prettier-ignore
    }
    case 'caution-missing':
      return say('change:check.caution-missing', { step: check.step, caution: say(`change:caution.${check.caution}`) });
    case 'raw-unsaid':
      return say('change:check.raw-unsaid');
  }
}

const lasting = (minutes: number, write: Telling['write']): string => (Number.isFinite(minutes) ? write.duration(Math.max(0, minutes)) : '…'); // prettier-ignore

/** Everything that a make does otherwise, one sentence each, in the order of the work. */
export function differenceLines(input: { readonly was: Make; readonly now: Make } & Telling): string[] {
  return differences(input).map((one) => differenceText(one, input));
}

function differenceText(one: Difference, telling: Telling): string {
  const { say } = telling;
  if ('step' in one) return say(`change:diff.${one.kind}`, { step: one.step });
  const where = whereText(one.at, telling);
  switch (one.kind) {
    case 'changed':
      return say('change:diff.changed', { where, was: leafText(one.was, telling), now: leafText(one.now, telling) });
    case 'added':
      return say('change:diff.added', { where, now: leafText(one.now, telling) });
    case 'removed':
      return say('change:diff.removed', { where, was: leafText(one.was, telling) });
  }
}

/** The step by its name, and the field by its own label where it has one. */
function whereText({ step, field }: Where, { say }: Telling): string {
  const isSource = field.endsWith('.source');
  const label = labelOf(isSource ? field.replace(/\.source$/, '') : field, say);
  const name = isSource ? say('change:diff.source', { field: label }) : label;
  return step === null ? name : say('change:diff.ofStep', { step, field: name });
}

const MOST_WORDS = 90; // longer texts are told by their beginning

function leafText(leaf: Leaf, { say, write }: Telling): string {
  if (typeof leaf === 'number') return number(leaf, write);
  if (typeof leaf === 'boolean') return say(leaf ? 'change:yes' : 'change:no');
  if (typeof leaf === 'string') return leaf === '' ? say('change:diff.nothing') : leaf.length > MOST_WORDS ? `${leaf.slice(0, MOST_WORDS)}…` : leaf; // prettier-ignore
  if ('aim' in leaf) return say('change:diff.range', { low: number(leaf.low, write), aim: number(leaf.aim, write), high: number(leaf.high, write) }); // prettier-ignore
  return leaf.length === 0 ? say('change:diff.nothing') : leaf.join(', ');
}

const number = (value: number, write: Telling['write']): string => write.number(value, Math.min(3, (String(value).split('.')[1] ?? '').length)); // prettier-ignore
