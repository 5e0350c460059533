import type { ReactNode } from 'react';
import './caution.css';

/** Where the first sentence ends: a stop before a space and a new sentence, never the point of a number. */
const FIRST_SENTENCE = /^(.*?[.!?])\s+(?=\p{Lu})(.+)$/su;

/** A caution at the moment it matters: its first sentence always, all of it by one tap, so that the card keeps its answer on screen. */
export function Caution({ text }: { readonly text: string }): ReactNode {
  const [, first, rest] = FIRST_SENTENCE.exec(text) ?? [];
  if (first === undefined || rest === undefined) return <p className="vat-caution">{text}</p>;
  return (
    <details className="vat-caution">
      <summary>{first}</summary>
      <p>{rest}</p>
    </details>
  );
}
