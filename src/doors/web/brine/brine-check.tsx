import { useState, type ReactNode } from 'react';
import { BRINE_LOOKS, BRINE_STRENGTH_UNITS, type KeepingBody } from '../../../record/keeping-events.ts';
import { displayValue, QUANTITIES } from '../../../make/quantity.ts';
import { InputError } from '../../../numbers/validity.ts';
import { readingsOfPercent, saltFractionFrom, type StrengthUnit } from '../../../science/brine-strength.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { SelectField } from '../look/select-field.tsx';
import { CoarsePage, FinePage } from '../pad/pad-pages.tsx';
import type { PadBlock, PadQuantity } from '../pad/pad-model.ts';
import { TypePad } from '../pad/type-pad.tsx';
import { usePadUnits } from '../pad/pad-units.ts';
import { VatButton } from '../vat/vat-button.tsx';
import type { BrineView } from './brine-view.ts';
import '../pad/pad.css';

type Checked = KeepingBody<'brineChecked'>;
type Asked = 'strength' | 'pH' | 'temperatureC';

/** Where the tiles stand first, in the unit of the pad. */
const MIDDLE: Readonly<Record<Asked, number>> = { strength: 18, pH: 5.2, temperatureC: 10 }; // common practice (no source)
const BEFORE = 2;
/** Those that have one decimal on their scale; the others are read in whole numbers. */
const FINE_UNITS: ReadonlySet<StrengthUnit> = new Set(['percent-by-mass', 'baume']);
const DENSITY_MIDDLE = 1130; // 18 % by mass at 10 °C
const WHOLE_MIDDLE: Readonly<Partial<Record<StrengthUnit, number>>> = {
  'g-per-L-water': 220,
  'g-per-L-brine': 204,
  'saturation-percent': 68,
  density: DENSITY_MIDDLE,
}; // 18 % by mass in each

/** A check by the two-pick pad: the float's strength in its own unit, pH, temperature; how it looks in one tap. */
export function BrineCheck({
  unit: first,
  now,
  onCheck,
  onBack,
}: {
  readonly unit: StrengthUnit;
  readonly now: BrineView;
  readonly onCheck: (body: Checked) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  const { unitsOf, switchUnits } = usePadUnits();
  const [unit, setUnit] = useState<StrengthUnit>(first);
  const [asked, setAsked] = useState<Asked>('strength');
  const [page, setPage] = useState<'coarse' | 'type' | number>('coarse');
  const [doubted, setDoubted] = useState<number | null>(null);
  const quantity: PadQuantity = asked === 'strength' ? (FINE_UNITS.has(unit) ? 'brinePercent' : 'brineGPerL') : asked;
  const units = unitsOf(quantity);
  const block = blockOf({
    asked,
    unit,
    quantity,
    units,
    shown: now,
    name: say(`brine:check.${asked}`),
    unitName: say(`brine:short.${unit}`),
  });
  const ask = (what: Asked): void => {
    setAsked(what);
    setPage('coarse');
    setDoubted(null);
  };
  const keep = (value: number): void => {
    if (asked === 'pH') return onCheck({ pH: value });
    if (asked === 'temperatureC') return onCheck({ temperatureC: value });
    if (isBrine({ value, unit })) return onCheck({ strength: { value, unit } });
    setDoubted(value);
    setPage('coarse');
  };
  return (
    <section className="pad brine-pad" aria-label={say('brine:check.title')}>
      <div className="brine-asks" role="group" aria-label={say('brine:check.title')}>
        {(['strength', 'pH', 'temperatureC'] as const).map((what) => (
          <VatButton key={what} className="vat-lesser" aria-pressed={what === asked} onAct={() => ask(what)}>
            {say(`brine:check.${what}`)}
          </VatButton>
        ))}
      </div>
      {asked === 'strength' ? (
        <SelectField label={say('brine:check.unit')} value={unit} options={BRINE_STRENGTH_UNITS.map((value) => ({ value, label: say(`brine:unit.${value}`) }))} onChange={(value) => { setUnit(value); setPage('coarse'); setDoubted(null); }} /> // prettier-ignore
      ) : null}
      {doubted === null ? null : <Confused value={doubted} onMeant={(meant) => onCheck({ strength: meant })} />}
      {page === 'coarse' ? (
        <CoarsePage
          key={`${asked} ${unit} ${block.unit}`}
          block={block}
          units={units}
          keys
          onPick={setPage}
          onType={() => setPage('type')}
          onUnits={() => switchUnits(quantity)}
        />
      ) : null}
      {typeof page === 'number' ? (
        <FinePage
          block={block}
          coarse={page}
          units={units}
          onPick={keep}
          onBack={() => setPage('coarse')}
          onType={() => setPage('type')}
        />
      ) : null}
      {page === 'type' ? <TypePad block={block} units={units} onValue={keep} onBack={() => setPage('coarse')} /> : null}
      <h3>{say('brine:check.looks')}</h3>
      <div className="brine-asks">
        {BRINE_LOOKS.map((look) => (
          <VatButton key={look} className="vat-lesser" keeps onAct={() => onCheck({ look })}>
            {say(`brine:look.${look}`)}
          </VatButton>
        ))}
      </div>
      <Button onClick={onBack}>{say('brine:cancel')}</Button>
    </section>
  );
}

function blockOf(input: {
  readonly asked: Asked;
  readonly unit: StrengthUnit;
  readonly quantity: PadQuantity;
  readonly units: 'metric' | 'us' | 'imperial';
  readonly shown: BrineView;
  readonly name: string;
  readonly unitName: string;
}): PadBlock {
  const { asked, unit, quantity, units, name, unitName } = input;
  const middle = asked === 'strength' ? (WHOLE_MIDDLE[unit] ?? MIDDLE.strength) : MIDDLE[asked];
  const likely = displayValue({ quantity, value: middle, units });
  const first = Math.max(0, Math.floor(likely.value / QUANTITIES[quantity].tileStep + 1e-9) - BEFORE);
  return { quantity, sample: 'brine', unit: asked === 'strength' ? unitName : likely.symbol, first, name };
}

function isBrine({ value, unit }: { readonly value: number; readonly unit: StrengthUnit }): boolean {
  try {
    saltFractionFrom({ strength: value, strengthUnit: unit, temperatureC: 12 });
    return true;
  } catch (error) {
    if (error instanceof InputError) return false;
    throw error;
  }
}

/** More salt than water can hold: what the number may have meant instead. */
function Confused({
  value,
  onMeant,
}: {
  readonly value: number;
  readonly onMeant: (strength: NonNullable<Checked['strength']>) => void;
}): ReactNode {
  const { say, write } = useReader();
  const given = readingsOfPercent({ percent: value, temperatureC: 12 }).flatMap(({ meaning }): { readonly meaning: string; readonly strength: NonNullable<Checked['strength']> }[] => {
    if (meaning === 'by-mass') return [];
    if (meaning === 'baume') return [{ meaning, strength: { value, unit: 'baume' as const } }];
    if (meaning === 'of-saturation') return [{ meaning, strength: { value, unit: 'saturation-percent' as const } }];
    return [{ meaning, strength: { value: 10 * value, unit: meaning === 'g-per-100-mL-water' ? ('g-per-L-water' as const) : ('g-per-L-brine' as const) } }];
  }); // prettier-ignore
  return (
    <Notice kind="caution" title={say('brine:confused.title', { value: write.number(value, 1) })}>
      <p>{say('brine:confused.why')}</p>
      <p className="brine-cares">
        {given.map(({ meaning, strength }) => (
          <Button key={meaning} onClick={() => onMeant(strength)}>
            {say(`brine:confused.${meaning}`, { value: write.number(value, 0) })}
          </Button>
        ))}
      </p>
    </Notice>
  );
}
