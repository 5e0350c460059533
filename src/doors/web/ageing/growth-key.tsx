import { useState, type ReactNode } from 'react';
import type { PieceRecord } from '../../../record/piece-record.ts';
import { CUT_AWAY_MM, GROWTH_RINDS, growthAdvice, GROWTHS, type Growth, type GrowthAct, type GrowthRind } from '../../../science/rind-growth.ts'; // prettier-ignore
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { SelectField } from '../look/select-field.tsx';
import { VatButton } from '../vat/vat-button.tsx';

const RIND_OF: Readonly<Record<PieceRecord['rind'], GrowthRind>> = { bare: 'natural', mould: 'bloomy', washed: 'washed', waxed: 'waxed', vacuum: 'packed' }; // prettier-ignore

/** A key to what grows: what is seen, on what rind, and so what to do. A look is no test, and it says so first. */
export function GrowthKey({
  piece,
  onLooked,
  onBack,
}: {
  readonly piece: PieceRecord;
  readonly onLooked: (body: { grew: Growth; did: GrowthAct }) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  const [rind, setRind] = useState<GrowthRind>(RIND_OF[piece.rind]);
  const [grew, setGrew] = useState<Growth | null>(null);
  return (
    <section className="piece-form growth" aria-label={say('ageing:grow.title')}>
      <h2>{say('ageing:grow.title')}</h2>
      <p className="piece-limits">{say('ageing:grow.limits')}</p>
      <SelectField
        label={say('ageing:grow.rind')}
        value={rind}
        options={GROWTH_RINDS.map((value) => ({ value, label: say(`ageing:growthRind.${value}`) }))}
        onChange={setRind}
      />
      {grew === null ? (
        <ul className="growth-looks">
          {GROWTHS.map((look) => (
            <li key={look}>
              <VatButton className="growth-look" onAct={() => setGrew(look)}>
                <strong>{say(`ageing:growth.${look}.name`)}</strong>
                <span>{say(`ageing:growth.${look}.look`)}</span>
              </VatButton>
            </li>
          ))}
        </ul>
      ) : (
        <Advice grew={grew} rind={rind} onDid={(did) => onLooked({ grew, did })} onOther={() => setGrew(null)} />
      )}
      <Button onClick={onBack}>{say('ageing:cancel')}</Button>
    </section>
  );
}

function Advice({
  grew,
  rind,
  onDid,
  onOther,
}: {
  readonly grew: Growth;
  readonly rind: GrowthRind;
  readonly onDid: (act: GrowthAct) => void;
  readonly onOther: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const { act, isStop, source } = growthAdvice({ grew, rind });
  const how = say(`ageing:growAct.${act}.how`, { depth: write.depth(CUT_AWAY_MM / 10).text });
  return (
    <div className="growth-advice" aria-live="polite">
      <p className="growth-seen">
        <strong>{say(`ageing:growth.${grew}.name`)}</strong> {say(`ageing:growth.${grew}.look`)}
      </p>
      {isStop ? (
        <Notice kind="act" title={say(`ageing:growAct.${act}.name`)}>
          <p>{say('ageing:grow.stop')}</p>
        </Notice>
      ) : (
        <>
          <p className="growth-act">{say(`ageing:growAct.${act}.name`)}</p>
          <p>{how}</p>
        </>
      )}
      <p className="piece-source">{say('ageing:source', { source })}</p>
      <div className="piece-row">
        <VatButton className="vat-lesser piece-due" keeps onAct={() => onDid(act)}>
          {say(`ageing:growAct.${act}.did`)}
        </VatButton>
        {act === 'throw' ? null : (
          <VatButton className="vat-lesser" keeps onAct={() => onDid('throw')}>
            {say('ageing:growAct.throw.did')}
          </VatButton>
        )}
        <VatButton className="vat-lesser" onAct={onOther}>
          {say('ageing:grow.other')}
        </VatButton>
      </div>
    </div>
  );
}
