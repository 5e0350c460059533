import { Fragment, type ReactNode } from 'react';
import type { SentencePart } from './sentence-parts.ts';

/** A sentence with its blanks standing in their places. */
export const Sentence = ({
  parts,
  children,
}: {
  readonly parts: readonly SentencePart[];
  /** What stands in a blank. */
  readonly children: (blank: Extract<SentencePart, { kind: 'blank' }>) => ReactNode;
}): ReactNode => (
  <p className="ask-sentence">
    {parts.map((part, index) => (
      <Fragment key={part.kind === 'words' ? `${index}-${part.text}` : part.paths.join('|')}>
        {part.kind === 'words' ? <span>{part.text}</span> : children(part)}
      </Fragment>
    ))}
  </p>
);
