import { type ReactNode } from 'react';
import { Link, useSearch } from 'wouter';
import { calculators, type AnyCalculator } from '../../../exchange/calc/registry.ts';
import { useReader } from '../device/reader.tsx';
import { sumTitle } from './bench-list.ts';
import { CupScreen } from './cup-screen.tsx';
import { SumSheet } from './sum-sheet.tsx';
import './bench.css';
import './sum.css';
import './answer.css';

/** One sum of the Bench, by its name in the address. */
export function SumScreen({ name }: { readonly name: string }): ReactNode {
  const { say } = useReader();
  const calculator = calculators.get(name);
  if (calculator === undefined) {
    return (
      <div className="sum">
        <h1>{say('bench:title')}</h1>
        <p>{say('bench:noSum')}</p>
        <Back />
      </div>
    );
  }
  // A sum keeps nothing of the one before it.
  return <Sum key={name} calculator={calculator} />;
}

function Sum({ calculator }: { readonly calculator: AnyCalculator }): ReactNode {
  const { say } = useReader();
  const { name } = calculator;
  const title = sumTitle(say, name);
  const query = useSearch();
  // A link with figures of its own is answered as it stands; without one the guide begins.
  const isGuided = name === 'rennet-test' && query === '';
  return (
    <div className="sum">
      <title>{say('app:titled', { place: title })}</title>
      <Back />
      <h1>{title}</h1>
      {isGuided ? <CupScreen calculator={calculator} /> : <SumSheet calculator={calculator} />}
    </div>
  );
}

function Back(): ReactNode {
  const { say } = useReader();
  return (
    <p className="sum-back">
      <Link href="/bench">{say('bench:back')}</Link>
    </p>
  );
}
