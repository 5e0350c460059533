import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { SelectField } from '../look/select-field.tsx';
import { bottleLine, bottleOptions, strengthWords } from '../lots/bottle-words.ts';
import { TEST_AGAIN_MONTHS, type Bottle } from '../lots/bottles.ts';
import { useBottles } from '../lots/use-bottles.ts';
import { chosenBottle, rememberBottle, rememberedBottle, withBottle } from './bottle-draft.ts';
import { saidSpan } from '../../../exchange/told/rounding.ts';
import { sumInput } from './sum-input.ts';
import type { SumQuestion } from './sum-messages.ts';
import type { SumState } from './sum-state.ts';
import { unitOfField } from '../../../exchange/told/unit-of.ts';
import { useSums } from './use-sums.ts';
import { numberAt } from '../../../exchange/told/value-at.ts';

const ML = unitOfField('mL');
const NOTHING: readonly SumQuestion[] = [];

/** A bottle from the list in the rennet sum: its tested strength, its age, and what the test's own span does to the dose. */
export function BottlePicker({ state }: { readonly state: SumState }): ReactNode {
  const { say } = useReader();
  const bottles = useBottles();
  const [remembered, setRemembered] = useState(rememberedBottle);
  const tested = bottles.filter((bottle) => bottle.test !== null);
  const chosen = chosenBottle({ bottles: tested, draft: state.draft, remembered });
  const choose = (lotId: string): void => {
    setRemembered(lotId);
    rememberBottle(lotId);
    const bottle = tested.find((one) => one.lotId === lotId);
    if (bottle !== undefined) state.change(withBottle({ draft: state.draft, bottle }));
  };
  return (
    <div className="bottle-picker">
      {tested.length === 0 ? null : (
        <SelectField
          label={say('bench:bottles.choose')}
          value={chosen?.lotId ?? ''}
          options={bottleOptions({ bottles: tested, none: say('bench:bottles.unlisted') })}
          onChange={choose}
        />
      )}
      {chosen === null ? (
        <p className="sum-note">
          <Link href="/bench/rennet-test">{say('bench:bottles.test')}</Link>
        </p>
      ) : (
        <Chosen bottle={chosen} state={state} />
      )}
    </div>
  );
}

function Chosen({ bottle, state }: { readonly bottle: Bottle; readonly state: SumState }): ReactNode {
  const { say, write } = useReader();
  const { draft, fields } = state;
  const test = bottle.test;
  const questions = useMemo(() => {
    const { json } = sumInput({ fields, draft });
    if (json === null || test === null) return NOTHING;
    const { p5, p95 } = test.strengthImcuPerMl;
    return [p95, p5].map((strengthIMCUPerML) => ({ name: 'rennet', input: { ...json, strengthIMCUPerML } }));
  }, [fields, draft, test]);
  const { replies } = useSums(questions);
  const [strong, weak] = replies.map((reply) => ('answer' in reply ? numberAt(reply.answer.result, 'amount') : null));
  if (test === null) return null;
  const { between } = strengthWords({ strength: test.strengthImcuPerMl, say, write });
  return (
    <div className="bottle-chosen">
      <p>{bottleLine({ bottle, say, write })}</p>
      <p>{say('bench:bottles.span', { between })}</p>
      {strong == null || weak == null ? null : <p>{say('bench:bottles.doses', { between: amounts(strong, weak) })}</p>}
      {bottle.monthsSince < TEST_AGAIN_MONTHS ? null : <p>{say('bench:bottles.old')}</p>}
    </div>
  );
  function amounts(low: number, high: number): string {
    return saidSpan({ value: (low + high) / 2, ends: { low, high }, unit: ML, write, and: say('bench:and') });
  }
}
