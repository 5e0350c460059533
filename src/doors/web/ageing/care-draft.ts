/** The care of a cheese as it is typed, and back. */
import { readTyped, shortText } from '../../../exchange/typed-quantity.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { convert } from '../../../numbers/units.ts';
import { careSchema, type Care, type Stay } from '../../../record/care-plan.ts';

export const CARE_FIGURES = ['days', 'temperatureC', 'humidityPercent', 'turn', 'brush', 'wash', 'weigh'] as const;
export type CareFigure = (typeof CARE_FIGURES)[number];
export type StayDraft = Readonly<Record<CareFigure, string>>;

export interface CareDraft {
  readonly stays: readonly StayDraft[];
  /** Days after making; `taste` a list of them. */
  readonly readyFrom: string;
  readonly readyTo: string;
  readonly taste: string;
}

const warmthShown = (celsius: number, units: UnitSystem): number => (units === 'us' ? convert({ value: celsius, from: 'C', to: 'F' }) : celsius); // prettier-ignore

export function draftOfCare(input: { readonly care: Care; readonly units: UnitSystem }): CareDraft {
  const { care, units } = input;
  const text = (value: number | undefined): string => (value === undefined ? '' : shortText(value));
  return {
    stays: care.stays.map(({ days, temperatureC, humidityPercent, every }) => ({
      days: text(days),
      temperatureC: text(temperatureC === undefined ? undefined : warmthShown(temperatureC, units)),
      humidityPercent: text(humidityPercent),
      turn: text(every.turn),
      brush: text(every.brush),
      wash: text(every.wash),
      weigh: text(every.weigh),
    })),
    readyFrom: text(care.readyDays?.from),
    readyTo: text(care.readyDays?.to),
    taste: care.tasteDays.map((day) => shortText(day)).join(', '),
  };
}

/**
 * What was typed as a care, or the fields that are wrong (`0.turn`, `readyTo`). What the form does not show (wax, moves,
 * looking) stays as it was.
 * @param input.by who it is from then on
 */
export function careOfDraft(input: {
  readonly draft: CareDraft;
  readonly care: Care;
  readonly units: UnitSystem;
  readonly by: string;
}): { readonly care: Care } | { readonly wrong: readonly string[] } {
  const { draft, care, units, by } = input;
  const wrong: string[] = [];
  const read = (text: string, name: string, isWarmth = false): number | undefined => {
    if (text.trim() === '') return undefined;
    const typed = readTyped({ text, field: name, ...(isWarmth ? { unit: units === 'us' ? ('F' as const) : ('C' as const), into: 'C' as const } : {}) }); // prettier-ignore
    if ('problem' in typed) {
      wrong.push(name);
      return undefined;
    }
    return typed.value;
  };
  const stays = draft.stays.map((stay, i): Stay => {
    const figure = (field: CareFigure): number | undefined => read(stay[field], `${i}.${field}`, field === 'temperatureC'); // prettier-ignore
    const was = care.stays[i];
    const rhythm = { turn: figure('turn'), brush: figure('brush'), wash: figure('wash'), weigh: figure('weigh') };
    return {
      days: figure('days'),
      temperatureC: figure('temperatureC'),
      humidityPercent: figure('humidityPercent'),
      every: { look: was?.every.look, ...rhythm },
      // Another room begins with a move.
      once: was?.once ?? (was === undefined && i > 0 ? ['move' as const] : undefined),
      with: was?.with,
    };
  });
  const from = read(draft.readyFrom, 'readyFrom');
  const to = read(draft.readyTo, 'readyTo');
  const tasteDays = draft.taste.split(/[,;\s]+/).filter((part) => part !== '').flatMap((part) => read(part, 'taste') ?? []); // prettier-ignore
  if (from !== undefined && to !== undefined && to < from) wrong.push('readyTo');
  if (wrong.length > 0) return { wrong };
  const made = { stays, tasteDays: tasteDays.sort((a, b) => a - b), ...(from === undefined || to === undefined ? {} : { readyDays: { from, to } }), source: by }; // prettier-ignore
  const parsed = careSchema.safeParse(made);
  if (parsed.success) return { care: parsed.data };
  return { wrong: parsed.error.issues.map(({ path }) => fieldAt(path)) };
}

/** `stays.0.every.turn` as the form names it. */
function fieldAt(path: readonly PropertyKey[]): string {
  const [root, second, third, fourth] = path.map(String);
  if (root === 'stays') return `${second}.${third === 'every' ? fourth : third}`;
  if (root === 'tasteDays') return 'taste';
  return second === 'from' ? 'readyFrom' : 'readyTo';
}
