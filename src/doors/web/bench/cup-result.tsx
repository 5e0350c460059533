import { useMemo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { NumberField } from '../look/number-field.tsx';
import { UndoBar } from '../look/undo-bar.tsx';
import { LargeLine } from './answer.tsx';
import { askSum } from './ask-sum.ts';
import { bottleLine, strengthWords } from '../lots/bottle-words.ts';
import type { Bottle } from '../lots/bottles.ts';
import { Cautions } from './cautions.tsx';
import { clockText, cupMinutes, foundSchema, type CupTest } from './cup-test.ts';
import { potDose } from './pot-dose.ts';
import { fieldsOfSum } from '../../../exchange/told/field-shapes.ts';
import { spanText } from '../../../exchange/told/rounding.ts';
import { problemSentence } from '../../../exchange/told/sum-words.ts';
import { UseLot } from './use-in-make.tsx';
import { typedSymbol, unitOfField } from '../../../exchange/told/unit-of.ts';

/** The bar stays until the next test: hands are wet. */
const stay = (): void => undefined;

/** What the cup says: the bottle's strength, a dose for the pot, and whether this milk makes curd at all. */
export function CupResult({
  cup,
  json,
  bottles,
  put,
  onUndo,
  onAgain,
}: {
  readonly cup: CupTest;
  readonly json: Readonly<Record<string, unknown>> | null;
  readonly bottles: readonly Bottle[];
  readonly put: (cup: CupTest) => void;
  readonly onUndo: () => void;
  readonly onAgain: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const minutes = cupMinutes({ cup, now: 0 });
  const reply = useMemo(
    () => askSum({ name: 'rennet-test', input: { ...json, flocculationMinutes: minutes } }),
    [json, minutes],
  );
  const fields = useMemo(() => fieldsOfSum('rennet-test'), []);
  const paths = fields.map((field) => field.path);
  const again = (
    <Button kind="main" onClick={onAgain}>
      {say('bench:cup.again')}
    </Button>
  );
  if (!('answer' in reply)) {
    const problems = 'problems' in reply ? reply.problems : [];
    return (
      <>
        <p className="cup-clock numerals">{clockText(minutes)}</p>
        {problems.map((problem) => (
          <p key={problem.field} className="field-error" role="alert">
            {problemSentence({
              problem,
              say,
              sum: 'rennet-test',
              paths,
              units: cup.units,
              typed: problem.field === 'flocculationMinutes' ? write.number(minutes, 1) : cup.texts[problem.field],
            })}
          </p>
        ))}
        {again}
      </>
    );
  }
  const found = foundSchema.parse(reply.answer.result);
  const strength = found.strengthIMCUPerML;
  const { said, between } = strengthWords({ strength, say, write });
  const dose = potDose({ potText: cup.potText, units: cup.units, strength, write });
  const kept = bottles.find((bottle) => bottle.lotId === cup.lotId);
  const name = kept?.name ?? cup.bottleName;
  return (
    <>
      <h2>{say('bench:cup.resultTitle')}</h2>
      <div className="answer-first" role="status">
        <LargeLine label={say('bench:cup.strength')} said={said} span={say('bench:spans.nineInTen', { between })} />
        <p className="cup-verdict">
          <strong>{say('bench:cup.verdict')}</strong> {say(`bench:cup.verdicts.${found.makesCurd}`)}
        </p>
      </div>
      <div className="cup-dose">
        <NumberField
          label={say('bench:cup.fields.milkL')}
          value={cup.potText}
          unit={typedSymbol({ unit: unitOfField('milkL'), units: cup.units })}
          width={3}
          error={
            dose.problem === null
              ? undefined
              : problemSentence({
                  problem: dose.problem,
                  say,
                  sum: 'rennet',
                  paths: [],
                  units: cup.units,
                  typed: cup.potText,
                })
          }
          onChange={(potText) => put({ ...cup, potText })}
        />
        {dose.middle === null ? null : (
          <LargeLine
            label={say('bench:cup.dose')}
            said={dose.middle}
            span={
              dose.low === null || dose.high === null
                ? null
                : say('bench:cup.doseSpan', {
                    between: spanText({ low: dose.low, high: dose.high, and: say('bench:to') }),
                  })
            }
          />
        )}
      </div>
      <p className="sum-note">{say('bench:cup.doseNote')}</p>
      {kept === undefined || cup.eventIds.length === 0 ? null : kept.isTestedInVain ? (
        <p className="sum-note">{bottleLine({ bottle: kept, say, write })}</p>
      ) : (
        <UseLot lot={{ lotId: kept.lotId, kind: 'rennet', name: kept.name }} />
      )}
      {cup.isUndone ? <p role="status">{say('bench:cup.undone')}</p> : null}
      {cup.eventIds.length === 0 ? null : (
        <UndoBar undoLabel={say('bench:cup.undo')} onUndo={onUndo} onGone={stay} stays>
          {say('bench:cup.kept', { name, time: clockText(minutes) })}
        </UndoBar>
      )}
      <Cautions answer={reply.answer} sum="rennet-test" fields={fields} />
      {again}
    </>
  );
}
