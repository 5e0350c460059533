import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { TimeKind } from '../../../exchange/logger/mapping.ts';
import type { DayOrder } from '../../../exchange/logger/stamp.ts';
import { Field } from '../look/field.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField } from '../look/select-field.tsx';
import { columnLabels, SAMPLE_CHOICES, type FileAnswers } from './file-answers.ts';
import type { FileView } from './file-view.ts';
import '../plan/sentence.css';

const KINDS = ['stamp', 'seconds', 'minutes', 'hours', 'unix-s', 'unix-ms'] as const satisfies readonly TimeKind[];
const COUNTS = new Set<TimeKind | null>(['seconds', 'minutes', 'hours']);

/** Which column is what, as a sentence with blanks; what the file does not say is asked in its place. */
export function MappingSentence({
  answers,
  questions,
  onChange,
}: {
  readonly answers: FileAnswers;
  readonly questions: FileView['questions'];
  readonly onChange: (answers: FileAnswers) => void;
}): ReactNode {
  const { say } = useReader();
  const { mapping } = answers;
  const words = (key: string): string => say(`instruments:file.sentence.${key}`);
  const asked = (question: FileView['questions'][number]): string | undefined => (questions.includes(question) ? say('instruments:file.pleaseSay') : undefined); // prettier-ignore
  const columns = columnLabels(answers, (number) => say('instruments:file.columnNumber', { number })).map((label, column) => ({ value: String(column), label })); // prettier-ignore
  const none = { value: '', label: words('none') };
  const choose = { value: '' as const, label: words('choose') };
  const map = (change: Partial<FileAnswers['mapping']>): void => onChange({ ...answers, mapping: { ...mapping, ...change } }); // prettier-ignore
  const columnOf = (value: string): number | null => (value === '' ? null : Number(value));
  const kind = mapping.time?.kind ?? null;
  const { temperature, time } = mapping;
  return (
    <div className="sentence" role="group" aria-label={words('label')}>
      <p className="sentence-line">
        {words('time')}{' '}
        <SelectField
          label={words('timeColumn')}
          hideLabel
          value={String(time?.column ?? '')}
          options={time === null ? [choose, ...columns] : columns}
          hint={asked('time')}
          onChange={(value) => map({ time: { column: columnOf(value) ?? 0, kind, dateColumn: time?.dateColumn ?? null } })} // prettier-ignore
        />{' '}
        {words('timeAs')}{' '}
        <SelectField<TimeKind | ''>
          label={words('timeKind')}
          hideLabel
          value={kind ?? ''}
          options={[...(kind === null ? [choose] : []), ...KINDS.map((one) => ({ value: one, label: say(`instruments:file.kind.${one}`) }))]} // prettier-ignore
          hint={asked('timeUnit')}
          onChange={(value) => map({ time: { column: time?.column ?? 0, kind: value === '' ? null : value, dateColumn: time?.dateColumn ?? null } })} // prettier-ignore
        />
        {time?.dateColumn == null ? null : (
          <>
            {words('dateIn')}{' '}
            <SelectField
              label={words('dateColumn')}
              hideLabel
              value={String(time.dateColumn)}
              options={columns}
              onChange={(value) => map({ time: { ...time, dateColumn: columnOf(value) } })}
            />
          </>
        )}
        {!answers.asksDayOrder ? null : (
          <>
            {words('dayOrder')}{' '}
            <SelectField<DayOrder | ''>
              label={words('dayOrderOf')}
              hideLabel
              value={mapping.dayOrder ?? ''}
              options={[...(mapping.dayOrder === null ? [choose] : []), ...(['day-first', 'month-first'] as const).map((value) => ({ value, label: say(`instruments:file.order.${value}`) }))]} // prettier-ignore
              hint={asked('dayOrder')}
              onChange={(value) => map({ dayOrder: value === '' ? null : value })}
            />
          </>
        )}
        {COUNTS.has(kind) ? (
          <>
            {words('started')}{' '}
            <Field label={words('startedOf')} hideLabel hint={asked('startedAt')}>
              {(ties) => (
                <input
                  {...ties}
                  className="field-input"
                  type="datetime-local"
                  value={answers.startedAt}
                  onChange={(event) => onChange({ ...answers, startedAt: event.target.value })}
                />
              )}
            </Field>
          </>
        ) : (
          <>
            {words('clock')}{' '}
            <SelectField
              label={words('clockOf')}
              hideLabel
              value={answers.clock}
              options={(['right', 'ahead', 'behind'] as const).map((value) => ({ value, label: say(`instruments:file.clock.${value}`) }))} // prettier-ignore
              onChange={(clock) => onChange({ ...answers, clock })}
            />
            {answers.clock === 'right' ? null : (
              <>
                {' '}
                {words('clockBy')}{' '}
                <NumberField
                  label={words('clockByOf')}
                  hideLabel
                  value={answers.clockBy}
                  unit="min"
                  width={3}
                  hint={asked('clockBy')}
                  onChange={(clockBy) => onChange({ ...answers, clockBy })}
                />
              </>
            )}
          </>
        )}
        {words('stop')}
      </p>
      <p className="sentence-line">
        {words('temperature')}{' '}
        <SelectField
          label={words('temperatureColumn')}
          hideLabel
          value={String(temperature?.column ?? '')}
          options={[none, ...columns]}
          hint={asked('value')}
          onChange={(value) => map({ temperature: value === '' ? null : { column: Number(value), unit: temperature?.unit ?? null } })} // prettier-ignore
        />
        {temperature === null ? null : (
          <>
            {' '}
            {words('in')}{' '}
            <SelectField<'C' | 'F' | ''>
              label={words('unitOf')}
              hideLabel
              value={temperature.unit ?? ''}
              options={[...(temperature.unit === null ? [choose] : []), { value: 'C' as const, label: '°C' }, { value: 'F' as const, label: '°F' }]} // prettier-ignore
              hint={asked('unit')}
              onChange={(unit) => map({ temperature: { ...temperature, unit: unit === '' ? null : unit } })}
            />
          </>
        )}
        {words('pH')}{' '}
        <SelectField
          label={words('pHColumn')}
          hideLabel
          value={String(mapping.pHColumn ?? '')}
          options={[none, ...columns]}
          onChange={(value) => map({ pHColumn: columnOf(value) })}
        />
        {words('sample')}{' '}
        <SelectField
          label={words('sampleOf')}
          hideLabel
          value={answers.sample}
          options={SAMPLE_CHOICES.map((value) => ({ value, label: say(`instruments:file.samples.${value}`) }))}
          onChange={(sample) => onChange({ ...answers, sample })}
        />
        {words('stop')}
      </p>
    </div>
  );
}
