import type { ReactNode } from 'react';
import type { Problem } from '../../../numbers/validity.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { SelectField } from '../look/select-field.tsx';
import type { KeptLot } from '../lots/kept-lots.ts';
import { IN_SENTENCE } from './assumed-view.ts';
import { CARTONS, cartonOf, RENNETS, rennetOf, withCarton, withRennet } from './cartons.ts';
import { withLot } from './chosen-lots.ts';
import { withFact, type Draft } from './draft.ts';
import { factOf, type FactPath } from './draft-fields.ts';
import { FactField } from './fact-field.tsx';
import { canBeConfirmed, problemsAt } from './problem-text.ts';
import { PotsWish } from './pots-wish.tsx';
import { TimeWish } from './time-wish.tsx';
import './sentence.css';

const named = ({ lot }: KeptLot): { readonly value: `lot:${string}`; readonly label: string } => ({
  value: `lot:${lot.lotId.replace(/^lot:/, '')}`,
  label: lot.name,
});

/** The sentence that is itself the form: four answers give a plan. */
export function Sentence({
  draft,
  lots,
  problems,
  now,
  onChange,
}: {
  readonly draft: Draft;
  readonly lots: readonly KeptLot[];
  readonly problems: readonly Problem[];
  readonly now: number;
  readonly onChange: (draft: Draft) => void;
}): ReactNode {
  const { say, write } = useReader();
  const words = (key: string): string => say(`plan:sentence.${key}`);
  const packets = lots.filter(({ lot }) => lot.kind === 'culture');
  const bottles = lots.filter(({ lot }) => lot.kind === 'rennet');
  const rennet = rennetOf(draft, new Set(bottles.map(({ lot }) => lot.lotId)));
  const errorAt = (path: FactPath): string | undefined =>
    problemsAt({ path, problems, draft, units: write.units, say });
  const field = (path: FactPath, label: string): ReactNode => (
    <FactField
      path={path}
      fact={factOf(path)}
      text={draft.facts[path] ?? ''}
      label={label}
      hideLabel
      error={errorAt(path)}
      onChange={(text) => onChange(withFact(draft, path, text))}
    />
  );
  return (
    <div className="sentence" role="group" aria-label={words('label')}>
      <p className="sentence-line">
        <span>{words('have')}</span> {field('milk.volumeL', words('fields.volume'))} <span>{words('of')}</span>{' '}
        <SelectField
          label={words('fields.carton')}
          hideLabel
          value={cartonOf(draft)}
          error={errorAt('milk.treatment')}
          options={CARTONS.map((value) => ({ value, label: words(`cartons.${value}`) }))}
          onChange={(carton) => onChange(withCarton(draft, carton))}
        />{' '}
        <span>{words('milk')}</span>{' '}
        {packets.length === 0 ? (
          <span>{words('packet')}</span>
        ) : (
          <SelectField
            label={words('fields.packetLot')}
            hideLabel
            value={packets.some(({ lot }) => lot.lotId === draft.lots.culture) ? (draft.lots.culture ?? '') : ''}
            options={[{ value: '', label: words('packetUnlisted') }, ...packets.map(named)]}
            onChange={(lotId) => onChange(withLot(draft, { kind: 'culture', lotId: lotId === '' ? null : lotId }))}
          />
        )}{' '}
        <span>{words('packetFor')}</span> {field('culture.packetTreatsL', words('fields.packet'))}
        <span>{words('rennetLead')}</span>{' '}
        <SelectField
          label={words('fields.rennet')}
          hideLabel
          value={rennet}
          options={[...bottles.map(named), ...RENNETS.map((value) => ({ value, label: words(`rennets.${value}`) }))]}
          onChange={(rennet) => onChange(withRennet(draft, rennet))}
        />{' '}
        {rennet === 'known' ? field('rennet.strengthImcuPerMl', words('fields.strength')) : null}{' '}
        <span>{words('pot')}</span> {field('pot.volumeL', words('fields.pot'))} <span>{words('potAfter')}</span>
      </p>
      <TimeWish clock={draft.clock} now={now} onChange={(clock) => onChange({ ...draft, clock })} />
      <PotsWish pots={draft.pots} onChange={(pots) => onChange({ ...draft, pots })} />
      {problems
        .filter((problem) => IN_SENTENCE.has(problem.field) && canBeConfirmed(problem))
        .map((problem) => (
          <Button
            key={problem.field}
            onClick={() => onChange({ ...draft, confirmed: [...draft.confirmed, problem.field] })}
          >
            {say('plan:problems.confirm', { value: draft.facts[problem.field] ?? String(problem.value) })}
          </Button>
        ))}
    </div>
  );
}
