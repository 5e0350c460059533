import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { SelectField } from '../look/select-field.tsx';
import { MOST_POTS, type Draft } from './draft.ts';

const APART_MIN = [0, 5, 10, 12, 15, 20, 25, 30, 45, 60] as const;

/** How many pots of this make at once, and how far apart they begin. */
export function PotsWish({
  pots,
  onChange,
}: {
  readonly pots: Draft['pots'];
  readonly onChange: (pots: Draft['pots']) => void;
}): ReactNode {
  const { say, write } = useReader();
  const words = (key: string): string => say(`plan:sentence.${key}`);
  const counts = Array.from({ length: MOST_POTS }, (_, index) => index + 1);
  const spans = [...new Set([...APART_MIN, pots.apartMin])].sort((a, b) => a - b);
  return (
    <p className="sentence-line">
      <span>{words('potsLead')}</span>{' '}
      <SelectField
        label={words('fields.pots')}
        hideLabel
        value={String(pots.count)}
        options={counts.map((count) => ({ value: String(count), label: say('plan:sentence.potsCount', { count }) }))}
        onChange={(count) => onChange({ ...pots, count: Number(count) })}
      />
      {pots.count === 1 ? (
        <span>{words('end')}</span>
      ) : (
        <>
          <span>{words('potsApart')}</span>{' '}
          <SelectField
            label={words('fields.apart')}
            hideLabel
            value={String(pots.apartMin)}
            options={spans.map((minutes) => ({ value: String(minutes), label: write.duration(minutes) }))}
            onChange={(minutes) => onChange({ ...pots, apartMin: Number(minutes) })}
          />{' '}
          <span>{words('potsEnd')}</span>
        </>
      )}
    </p>
  );
}
