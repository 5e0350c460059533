import type { ReactNode } from 'react';
import type { Finding } from '../../../science/finding.ts';
import type { Remark } from '../../../make/plan.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { Notice } from '../look/notice.tsx';

/** What this milk, this kit and this forecast ask the maker to read before the burner is lit, with its source. */
export function CautionsCard({
  remarks,
  findings,
}: {
  readonly remarks: readonly Remark[];
  readonly findings: readonly Finding[];
}): ReactNode {
  const { say, write } = useReader();
  const heard = findings.filter((finding) => finding.severity !== 'info');
  if (remarks.length + heard.length === 0) return null;
  const inUnits = (text: string): string => sentenceInUnits({ text, units: write.units });
  return (
    <Card aria-labelledby="cautions">
      <h2 id="cautions">{say('plan:findings.title')}</h2>
      <ul className="cautions-list">
        {remarks.map((remark) => (
          <li key={remark.code}>
            <Notice kind="caution">
              <p>{inUnits(`${remark.because} ${remark.instead}`)}</p>
              <p className="plan-note">{say('plan:source', { source: remark.source })}</p>
            </Notice>
          </li>
        ))}
        {heard.map((finding) => (
          <li key={finding.code}>
            <Notice kind={finding.severity === 'stop' ? 'act' : 'caution'}>
              <p>{inUnits(say(`findings:${finding.code}`, finding.fields))}</p>
              <p className="plan-note">{say('plan:source', { source: finding.source })}</p>
            </Notice>
          </li>
        ))}
      </ul>
    </Card>
  );
}
