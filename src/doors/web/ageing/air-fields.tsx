import type { ReactNode } from 'react';
import { readTyped } from '../../../exchange/typed-quantity.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { DROPLETS, LIDS, TOWELS, type KeepingBody } from '../../../record/keeping-events.ts';
import { useReader } from '../device/reader.tsx';
import { Choice } from '../look/choice.tsx';
import { NumberField } from '../look/number-field.tsx';

type Checked = KeepingBody<'placeChecked'>;

/** The air of a place as it is typed or seen. */
export interface AirDraft {
  readonly temperature: string;
  readonly humidity: string;
  readonly lid: (typeof LIDS)[number];
  readonly towel: (typeof TOWELS)[number];
  readonly droplets: (typeof DROPLETS)[number] | 'unseen';
}

export const BLANK_AIR: AirDraft = { temperature: '', humidity: '', lid: 'finger', towel: 'none', droplets: 'unseen' };

/** What was typed and seen, ready to be noted; null where a figure is none or cannot be. */
export function airOf(input: {
  readonly draft: AirDraft;
  readonly isBox: boolean;
  readonly units: UnitSystem;
}): Checked | null {
  const { draft, isBox, units } = input;
  const read = (text: string, range: readonly [number, number], isWarmth: boolean): number | null | undefined => {
    if (text.trim() === '') return undefined;
    const typed = readTyped({ text, field: 'air', ...(isWarmth ? { unit: units === 'us' ? ('F' as const) : ('C' as const), into: 'C' as const } : {}) }); // prettier-ignore
    return 'problem' in typed || typed.value < range[0] || typed.value > range[1] ? null : typed.value;
  };
  const temperatureC = read(draft.temperature, [-5, 40], true);
  const humidityPercent = read(draft.humidity, [0, 100], false);
  if (temperatureC === null || humidityPercent === null) return null;
  return {
    ...(temperatureC === undefined ? {} : { temperatureC }),
    ...(humidityPercent === undefined ? {} : { humidityPercent }),
    ...(isBox ? { box: { lid: draft.lid, towel: draft.towel } } : {}),
    ...(draft.droplets === 'unseen' ? {} : { droplets: draft.droplets }),
  };
}

/** Thermometer and meter where there are any; in a box the lid, the towel and what hangs under the lid. */
export function AirFields({
  draft,
  isBox,
  withDroplets,
  isWrong,
  onChange,
}: {
  readonly draft: AirDraft;
  readonly isBox: boolean;
  readonly withDroplets: boolean;
  readonly isWrong: boolean;
  readonly onChange: (draft: AirDraft) => void;
}): ReactNode {
  const { say, write } = useReader();
  return (
    <>
      {isBox ? (
        <>
          <Choice
            label={say('ageing:place.lid')}
            value={draft.lid}
            options={LIDS.map((value) => ({ value, label: say(`ageing:lid.${value}`) }))}
            onChange={(lid) => onChange({ ...draft, lid })}
          />
          <Choice
            label={say('ageing:place.towel')}
            value={draft.towel}
            options={TOWELS.map((value) => ({ value, label: say(`ageing:towel.${value}`) }))}
            onChange={(towel) => onChange({ ...draft, towel })}
          />
        </>
      ) : null}
      {isBox && withDroplets ? (
        <Choice
          label={say('ageing:place.droplets')}
          value={draft.droplets}
          options={(['unseen', ...DROPLETS] as const).map((value) => ({
            value,
            label: say(`ageing:droplets.${value}`),
          }))}
          onChange={(droplets) => onChange({ ...draft, droplets })}
        />
      ) : null}
      <div className="air-figures">
        <NumberField
          label={say('ageing:place.temperature')}
          value={draft.temperature}
          unit={write.units === 'us' ? '°F' : '°C'}
          width={4}
          onChange={(temperature) => onChange({ ...draft, temperature })}
        />
        <NumberField
          label={say('ageing:place.meter')}
          hint={isBox ? say('ageing:place.meterHint') : undefined}
          value={draft.humidity}
          unit="%"
          width={3}
          onChange={(humidity) => onChange({ ...draft, humidity })}
        />
      </div>
      {isWrong ? (
        <p className="field-error" role="alert">
          {say('ageing:place.wrong')}
        </p>
      ) : null}
    </>
  );
}
