import type { ReactNode } from 'react';
import type { BareAnswer } from '../../../exchange/calc/answer.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import { useReader } from '../device/reader.tsx';
import { Notice } from '../look/notice.tsx';
import type { SumField } from '../../../exchange/told/field-shapes.ts';
import { withLabels } from '../../../exchange/told/sum-words.ts';

const KINDS = { info: 'note', caution: 'caution', stop: 'act' } as const;

/** What the sum warns of, in its words, the gravest first; each with where the rule comes from. */
export function Cautions({
  answer,
  sum,
  fields,
}: {
  readonly answer: BareAnswer;
  readonly sum: string;
  readonly fields: readonly SumField[];
}): ReactNode {
  const { say, write } = useReader();
  if (answer.cautions.length === 0) return null;
  const weight = { stop: 0, caution: 1, info: 2 };
  const paths = fields.map((field) => field.path);
  return (
    <section className="sum-cautions" aria-label={say('bench:cautions')}>
      {[...answer.cautions]
        .sort((a, b) => weight[a.severity] - weight[b.severity])
        .map((caution) => {
          const words = say(`findings:${caution.code}`, caution.fields);
          return (
            <Notice key={`${caution.code}-${words}`} kind={KINDS[caution.severity]}>
              <p>{sentenceInUnits({ text: withLabels({ text: words, say, sum, paths }), units: write.units })}</p>
              <p className="sum-source">{caution.source}</p>
            </Notice>
          );
        })}
    </section>
  );
}
