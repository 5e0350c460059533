import { useState, type ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import type { Sample } from '../../../make/step.ts';
import type { UnitSystem } from '../../../make/quantity.ts';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { CoarsePage, FinePage } from './pad-pages.tsx';
import { blockFor, padBlocks, rareReadings, type PadBlock, type PadQuantity } from './pad-model.ts';
import { TypePad } from './type-pad.tsx';
import { usePadUnits } from './pad-units.ts';
import './pad.css';

/** A value taken from the pad, in the unit the record keeps. */
export interface PadReading {
  readonly quantity: PadQuantity;
  readonly sample: Sample;
  readonly value: number;
  readonly minutesAgo: number;
  /** The units that the instrument showed. */
  readonly units: UnitSystem;
}

type Page =
  | { readonly at: 'coarse' }
  | { readonly at: 'rare'; readonly block: PadBlock }
  | { readonly at: 'fine'; readonly block: PadBlock; readonly coarse: number }
  | { readonly at: 'type'; readonly block: PadBlock };

const AGO = [0, 2, 5, 10, 15, 30] as const;

/** The two-pick pad: quantity and coarse value in one tap, the last digit in the next; nothing is marked beforehand. */
export function PadScreen({
  step,
  plan,
  forecast,
  nowMin,
  only,
  sample,
  title,
  extra,
  onReading,
  onBack,
  backSays,
}: {
  readonly step: PlannedStep | null;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly nowMin: number;
  /** Takes this one quantity, as get-ready asks it. */
  readonly only?: PadQuantity | undefined;
  /** What the one quantity is read in; as the step says where left out. */
  readonly sample?: Sample | undefined;
  readonly title: string;
  /** Things that take one tap and no number: flecks, a judgement. */
  readonly extra?: ReactNode;
  readonly onReading: (reading: PadReading) => void;
  readonly onBack: () => void;
  /** Where the way back leads, where it is not the vat. */
  readonly backSays?: string;
}): ReactNode {
  const { say } = useReader();
  const { unitsOf, switchUnits } = usePadUnits();
  const asked = { step, plan, forecast, nowMin };
  const make = (quantity: PadQuantity, from?: Sample): PadBlock => blockFor({ ...asked, quantity, sample: from, units: unitsOf(quantity) }); // prettier-ignore
  const [opened] = useState(() => asked);
  const blocks = only === undefined ? padBlocks({ ...opened, unitsOf }) : [];
  const [page, setPage] = useState<Page>(() => (only === undefined ? { at: 'coarse' } : { at: 'rare', block: make(only, sample) })); // prettier-ignore
  const [minutesAgo, setMinutesAgo] = useState(0);
  const save = (block: PadBlock, value: number): void =>
    onReading({ quantity: block.quantity, sample: block.sample, value, minutesAgo, units: unitsOf(block.quantity) });
  const home: Page = only === undefined ? { at: 'coarse' } : { at: 'rare', block: make(only, sample) };
  const isHome = page.at === 'coarse' || (page.at === 'rare' && only !== undefined);

  return (
    <section className="pad" aria-label={title}>
      <header className="pad-head">
        <h1>{title}</h1>
        <Ago minutesAgo={minutesAgo} onAgo={setMinutesAgo} />
      </header>
      {page.at === 'coarse' ? (
        <>
          <div className="pad-blocks">
            {blocks.map((block, place) => (
              <CoarsePage
                key={`${block.quantity} ${block.unit}`}
                block={block}
                units={unitsOf(block.quantity)}
                onUnits={() => switchUnits(block.quantity)}
                keys={place === 0}
                onPick={(coarse) => setPage({ at: 'fine', block, coarse })}
                onType={() => setPage({ at: 'type', block })}
              />
            ))}
          </div>
          <div className="pad-row">
            {extra}
            {rareReadings(plan).map((rare) => (
              <VatButton
                key={rare.id}
                className="pad-rare"
                onAct={() => setPage({ at: 'rare', block: make(rare.quantity, rare.sample) })}
              >
                {say(`vat:pad.rare.${rare.id}`)}
              </VatButton>
            ))}
          </div>
        </>
      ) : null}
      {page.at === 'rare' ? (
        <CoarsePage
          key={page.block.unit}
          block={page.block}
          units={unitsOf(page.block.quantity)}
          onUnits={() => {
            const { quantity, sample: from } = page.block;
            setPage({
              at: 'rare',
              block: blockFor({ ...asked, quantity, sample: from, units: switchUnits(quantity) }),
            });
          }}
          keys
          onPick={(coarse) => setPage({ at: 'fine', block: page.block, coarse })}
          onType={() => setPage({ at: 'type', block: page.block })}
        />
      ) : null}
      {page.at === 'fine' ? (
        <FinePage
          block={page.block}
          coarse={page.coarse}
          units={unitsOf(page.block.quantity)}
          onPick={(value) => save(page.block, value)}
          onBack={() => setPage(home)}
          onType={() => setPage({ at: 'type', block: page.block })}
        />
      ) : null}
      {page.at === 'type' ? (
        <TypePad
          block={page.block}
          units={unitsOf(page.block.quantity)}
          onValue={(value) => save(page.block, value)}
          onBack={() => setPage(home)}
        />
      ) : null}
      <VatButton className="vat-back" keyHint="Escape" onAct={isHome ? onBack : () => setPage(home)}>
        {isHome && backSays !== undefined
          ? backSays
          : page.at === 'coarse' || only !== undefined
            ? say('vat:action.back')
            : say('vat:pad.back')}
      </VatButton>
    </section>
  );
}

/** When it was read: now, or a few minutes ago. */
function Ago({
  minutesAgo,
  onAgo,
}: {
  readonly minutesAgo: number;
  readonly onAgo: (minutes: number) => void;
}): ReactNode {
  const { say } = useReader();
  const [open, setOpen] = useState(false);
  if (!open) {
    return (
      <VatButton className="pad-ago" aria-expanded={false} onAct={() => setOpen(true)}>
        {minutesAgo === 0 ? say('vat:pad.now') : say('vat:pad.ago', { count: minutesAgo })}
      </VatButton>
    );
  }
  return (
    <div className="pad-agos" role="group" aria-label={say('vat:pad.when')}>
      {AGO.map((minutes) => (
        <VatButton
          key={minutes}
          className="pad-ago"
          aria-pressed={minutes === minutesAgo}
          onAct={() => {
            onAgo(minutes);
            setOpen(false);
          }}
        >
          {minutes === 0 ? say('vat:pad.nowShort') : say('vat:pad.agoShort', { count: minutes })}
        </VatButton>
      ))}
    </div>
  );
}
