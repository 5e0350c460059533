import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import type { AnyCalculator } from '../../../exchange/calc/registry.ts';
import { isRecord } from '../../../make/problems.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { answerView } from '../../../exchange/told/answer-view.ts';
import { Answer, AnswerTables } from './answer.tsx';
import { Ask } from './ask.tsx';
import { assumedView } from './assumed-view.ts';
import { Assumed } from './assumed.tsx';
import { sumsBeside, sumSentence, sumTitle } from './bench-list.ts';
import { useBottles } from '../lots/use-bottles.ts';
import { chosenBottle, rememberedBottle } from './bottle-draft.ts';
import { BottlePicker } from './bottle-picker.tsx';
import { Cautions } from './cautions.tsx';
import { CurvePlot } from './curve-plot.tsx';
import { fieldsOfSum } from '../../../exchange/told/field-shapes.ts';
import { MeasuresCard } from './measures-card.tsx';
import { planUses } from './plan-uses.ts';
import { plotView } from './plot-view.ts';
import { pathsIn, sentenceParts } from './sentence-parts.ts';
import { fieldPathOf } from './sum-draft.ts';
import { shapeOf } from '../../../exchange/told/sum-shapes.ts';
import type { SumState } from './sum-state.ts';
import { dotted, fieldLabel, lowerFirst, problemSentence } from '../../../exchange/told/sum-words.ts';
import { UseInMake, UseLot } from './use-in-make.tsx';
import { useSumDraft } from './use-sum-draft.ts';
import { useSum, type SumAsked } from './use-sum.ts';

/** A sum as a sentence with blanks, answered as one types. */
export function SumSheet({ calculator }: { readonly calculator: AnyCalculator }): ReactNode {
  const { say, write } = useReader();
  const { name } = calculator;
  const shape = shapeOf(name);
  const fields = useMemo(() => fieldsOfSum(name), [name]);
  const { draft, change, startOver } = useSumDraft({ name, fields, example: calculator.example, units: write.units });
  const asked = useSum({ name, shape, fields, draft });
  const { answer, given } = asked;
  const parts = useMemo(() => sentenceParts(sumSentence(say, name)), [say, name]);
  const state: SumState = {
    name,
    shape,
    fields,
    draft,
    problems: asked.problems,
    result: answer?.result ?? null,
    change,
  };
  const view = answer === null ? null : answerView({ sum: name, shape, given, result: answer.result, say, write });
  const plot =
    answer === null || shape.plot === undefined
      ? null
      : plotView({ sum: name, shape: shape.plot, given, result: answer.result, swept: asked.swept, questions: asked.sweep, say, write }); // prettier-ignore
  const assumed = assumedView({ fields, inSentence: pathsIn(parts), hidden: shape.hidden ?? [], draft, assumptions: answer?.assumptions ?? [], results: namesOf(answer?.result), say, sum: name }); // prettier-ignore
  return (
    <>
      {name === 'rennet' ? <BottlePicker state={state} /> : null}
      <Card rim className="sum-card">
        <Ask state={state} parts={parts} />
        {draft.examples.length === 0 ? null : <p className="sum-note">{say('bench:examples')}</p>}
        <section className="sum-answer" aria-label={say('bench:answer')} data-stale={!asked.isCurrent}>
          {view === null ? <NoAnswer state={state} asked={asked} /> : <Answer view={view} />}
        </section>
        {answer === null ? null : <Cautions answer={answer} sum={name} fields={fields} />}
        {answer === null ? null : <Use state={state} given={given} result={answer.result} />}
      </Card>
      {plot === null ? null : (
        <Card aria-labelledby="sum-plot">
          <h2 id="sum-plot">{say('bench:plot.title')}</h2>
          <CurvePlot view={plot} title={sumTitle(say, name)} />
        </Card>
      )}
      {view === null || view.tables.length === 0 ? null : (
        <Card>
          <AnswerTables tables={view.tables} />
        </Card>
      )}
      {name === 'measure' && answer !== null ? <MeasuresCard given={given} /> : null}
      <Assumed state={state} view={assumed} />
      {answer === null ? null : (
        <Card aria-labelledby="sum-sources">
          <h2 id="sum-sources">{say('bench:sources')}</h2>
          <ul className="sum-lines">
            {answer.sources.map((source) => (
              <li key={source}>{source}</li>
            ))}
          </ul>
        </Card>
      )}
      <Foot name={name} hasOwn={draft.examples.length === 0 || location.search !== ''} onStartOver={startOver} />
    </>
  );
}

/** What this sum knows carried into the plan: a bottle of the list itself, else its figures. */
function Use({
  state,
  given,
  result,
}: {
  readonly state: SumState;
  readonly given: unknown;
  readonly result: unknown;
}): ReactNode {
  const { write } = useReader();
  const { name: sum, draft } = state;
  const bottle = chosenBottle({ bottles: useBottles(), draft, remembered: rememberedBottle() });
  if (sum === 'rennet' && bottle !== null)
    return <UseLot lot={{ lotId: bottle.lotId, kind: 'rennet', name: bottle.name }} />;
  const hasOwn = Object.keys(draft.texts).some((path) => !draft.examples.includes(fieldPathOf(path)));
  return <UseInMake facts={planUses({ sum, given, result, examples: draft.examples, hasOwn, units: write.units })} />;
}

const namesOf = (result: unknown): readonly string[] => (isRecord(result) ? Object.keys(result) : []);

/** Why there is no answer, and what would bring one. */
function NoAnswer({ state, asked }: { readonly state: SumState; readonly asked: SumAsked }): ReactNode {
  const { say } = useReader();
  const { name: sum, fields, draft } = state;
  if (asked.failed !== null) return <p>{say('bench:failed', { why: asked.failed })}</p>;
  if (asked.blanks.length > 0) {
    const labels = [...new Set(asked.blanks.map((path) => lowerFirst(fieldLabel({ say, sum, path }))))];
    return <p>{say('bench:waiting', { fields: labels.join(', ') })}</p>;
  }
  if (asked.problems.length === 0) return null;
  // A problem with no blank of its own is said here.
  const paths = fields.map((field) => field.path);
  const known = new Set(paths);
  const homeless = asked.problems.filter(({ field }) => !known.has(fieldPathOf(dotted(field))));
  return (
    <>
      <p>{say(asked.isOutside ? 'bench:noAnswerOutside' : 'bench:noAnswer')}</p>
      {homeless.map((problem) => (
        <p key={problem.field} className="field-error" role="alert">
          {problemSentence({ problem, say, sum, paths, units: draft.units, typed: undefined })}
        </p>
      ))}
    </>
  );
}

function Foot({
  name,
  hasOwn,
  onStartOver,
}: {
  readonly name: string;
  readonly hasOwn: boolean;
  readonly onStartOver: () => void;
}): ReactNode {
  const { say } = useReader();
  const [copied, setCopied] = useState(false);
  const beside = sumsBeside({ say, name });
  return (
    <footer className="sum-foot">
      <p className="sum-note">{say('bench:link')}</p>
      <p className="sum-foot-row">
        <Button
          disabled={!('clipboard' in navigator)}
          onClick={() => void navigator.clipboard.writeText(location.href).then(() => setCopied(true))}
        >
          {say(copied ? 'bench:copied' : 'bench:copyLink')}
        </Button>
        {hasOwn ? <Button onClick={onStartOver}>{say('bench:startOver')}</Button> : null}
        {name === 'rennet-test' ? (
          <Link href="/bench/rennet-test" className="sum-foot-link">
            {say('bench:cup.guided')}
          </Link>
        ) : null}
      </p>
      {beside.length === 0 ? null : (
        <nav aria-label={say('bench:related')}>
          <h2 className="sum-beside">{say('bench:related')}</h2>
          <ul className="sum-beside-list">
            {beside.map((sum) => (
              <li key={sum.name}>
                <Link href={`/bench/${sum.name}`}>{sum.title}</Link>
              </li>
            ))}
          </ul>
        </nav>
      )}
    </footer>
  );
}
