import { choiceTold, goOnTold } from '../../../exchange/advice-told.ts';
import type { AdviceTelling } from '../../../exchange/chance-told.ts';
import type { Advice, Choice } from '../../../forecast/advise.ts';
import type { History } from '../../../make/history.ts';
import type { JudgementName } from '../../../make/judgement.ts';
import { mishapNamed } from '../../../make/mishaps.ts';
import type { Told } from '../../../make/told.ts';
import type { Entry } from './actions.ts';
import { choiceEntries, goOnEntry, mishapEntry } from './choice-entries.ts';
import type { ChoiceShown } from './choice-list.tsx';

/** What taking a choice leads to. */
export interface Takes {
  /** Notes these and goes back to the card. */
  readonly note: (entries: readonly Entry[], said: string) => void;
  /** Opens the drawings of a judgement, having noted these. */
  readonly test: (judgement: JudgementName, entries: readonly Entry[], said: string) => void;
}

/** Going on and the choices as they stand on screen, each with what taking it notes. */
export function choicesShown(input: {
  readonly advice: Advice;
  readonly history: History;
  /** The mishap that is being told; null where the course is what asks. */
  readonly told: Told | null;
  /** Why a choice is taken: the mishap's name, or the course sentence. */
  readonly because: string;
  readonly telling: AdviceTelling;
  readonly takes: Takes;
}): readonly ChoiceShown[] {
  const { advice, history, told, because, telling, takes } = input;
  const { say } = telling;
  const mishap = told === null ? undefined : mishapNamed(told.what);
  const before = told === null ? [] : [mishapEntry(told)];
  const goOn = goOnTold(advice, telling);
  const itsGoOn = mishap?.choices.find(({ does }) => does === 'goOn')?.id;
  const title = itsGoOn === undefined ? goOn.title : say(`vat:mishap.${mishap?.id ?? ''}.${itsGoOn}`);
  const said = (one: { readonly done: string; readonly chances: readonly string[] }): string => [one.done, ...one.chances].join(' '); // prettier-ignore
  const notes = (entries: readonly Entry[], name: string): void => takes.note([...before, ...entries], say('vat:saved.choice', { what: name })); // prettier-ignore
  const shown = (choice: Choice): ChoiceShown => {
    const words = choiceTold(choice, advice, mishap?.id ?? null, telling);
    const judgement = choice.kind === 'test' ? choice.fields['judgement'] : undefined;
    const take = (): void => notes(choiceEntries({ choice, advice, history, taken: { title: words.title, because, said: said(words) } }), words.title); // prettier-ignore
    return {
      ...words,
      act: say(isJudgement(judgement) ? 'vat:look.test' : 'advice:page.do'),
      onTake: isJudgement(judgement)
        ? () => takes.test(judgement, before, say('vat:saved.mishap', { what: because }))
        : take,
    };
  };
  return [
    {
      ...goOn,
      id: 'goOn',
      title,
      act: say(told === null ? 'advice:page.do' : 'vat:wrong.ifPlanned'),
      onTake: () => notes([goOnEntry(advice, { title, because, said: said(goOn) })], title),
    },
    ...advice.choices.map(shown),
  ];
}

const JUDGEMENTS: ReadonlySet<string> = new Set([
  'cleanBreak', 'grip', 'stretch', 'wheyTaste', 'tang', 'acidGel', 'flocs', 'millTear', 'panTrack',
]); // prettier-ignore
const isJudgement = (name: unknown): name is JudgementName => typeof name === 'string' && JUDGEMENTS.has(name);
