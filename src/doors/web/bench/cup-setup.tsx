import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { SelectField } from '../look/select-field.tsx';
import { Filled } from './ask.tsx';
import { bottleOptions } from '../lots/bottle-words.ts';
import type { Bottle } from '../lots/bottles.ts';
import { CUP_MILKS, cupInput, draftOfCup, expectedMinutes, type CupTest } from './cup-test.ts';
import type { SumField } from '../../../exchange/told/field-shapes.ts';
import { saidSpan } from '../../../exchange/told/rounding.ts';
import { sentenceParts } from './sentence-parts.ts';
import { Sentence } from './sentence.tsx';
import { shapeOf } from '../../../exchange/told/sum-shapes.ts';
import type { SumState } from './sum-state.ts';
import { unitOfField } from '../../../exchange/told/unit-of.ts';

/** What is in the cup and from which bottle, then Start: the clock begins as the rennet goes in. */
export function CupSetup({
  cup,
  fields,
  bottles,
  put,
}: {
  readonly cup: CupTest;
  readonly fields: readonly SumField[];
  readonly bottles: readonly Bottle[];
  readonly put: (cup: CupTest) => void;
}): ReactNode {
  const { say, write } = useReader();
  const read = cupInput({ cup, fields });
  const state: SumState = {
    name: 'rennet-test',
    shape: shapeOf('rennet-test'),
    fields,
    draft: draftOfCup(cup),
    problems: read.problems,
    result: null,
    change: (draft) => put({ ...cup, texts: { ...draft.texts } }),
  };
  const parts = sentenceParts(say('bench:cup.setup'));
  const expected = read.json === null ? null : expectedMinutes(read.json);
  const isListed = bottles.some((bottle) => bottle.lotId === cup.lotId);
  const blank = (path: string): ReactNode => {
    if (path === 'milk') {
      return (
        <SelectField
          label={say('bench:cup.milkWords')}
          hideLabel
          value={cup.milk}
          options={CUP_MILKS.map((value) => ({ value, label: say(`bench:cup.milks.${value}`) }))}
          onChange={(milk) => put({ ...cup, milk })}
        />
      );
    }
    return (
      <SelectField
        label={say('bench:cup.bottle')}
        hideLabel
        value={isListed ? cup.lotId : ''}
        options={bottleOptions({ bottles, none: say('bench:cup.newBottle') })}
        onChange={(lotId) => put({ ...cup, lotId })}
      />
    );
  };
  return (
    <>
      <h2>{say('bench:cup.steps.title')}</h2>
      <ol className="cup-steps">
        {(['warm', 'thin', 'start', 'watch'] as const).map((step) => (
          <li key={step}>{say(`bench:cup.steps.${step}`, { milk: cupMilkText(read.json) })}</li>
        ))}
      </ol>
      <div className="ask">
        <Sentence parts={parts}>
          {({ paths, tail }) =>
            paths[0] === 'milk' || paths[0] === 'bottle' ? (
              <span className="ask-keep">
                {blank(paths[0])}
                {tail}
              </span>
            ) : (
              <Filled state={state} paths={paths} tail={tail} />
            )
          }
        </Sentence>
        {isListed ? null : (
          <label className="cup-name">
            <span className="field-label">{say('bench:cup.bottleName')}</span>
            <span className="field-box">
              <input
                className="field-input"
                maxLength={80}
                autoComplete="off"
                value={cup.bottleName}
                onChange={(event) => put({ ...cup, bottleName: event.target.value })}
              />
            </span>
            <span className="field-hint">{say('bench:cup.bottleHint')}</span>
          </label>
        )}
      </div>
      {expected === null ? null : <p>{say('bench:cup.expect', { between: minutesText(expected) })}</p>}
      <Button
        kind="main"
        size="vat"
        disabled={read.json === null}
        onClick={() => put({ ...cup, startedAt: Date.now() })}
      >
        {say('bench:cup.start')}
      </Button>
    </>
  );
  function cupMilkText(json: Readonly<Record<string, unknown>> | null): string {
    const milkML = json?.['milkML'];
    return write.millilitres(typeof milkML === 'number' ? milkML : 100).text;
  }
  function minutesText(span: { readonly low: number; readonly high: number }): string {
    return saidSpan({ value: span.high, ends: span, unit: unitOfField('minutes'), write, and: say('bench:to') });
  }
}
