import type { ReactNode } from 'react';
import type { Written } from '../../../exchange/written.ts';
import './quantity.css';

/** A number in Bitter's figures with its unit; the two never part, whatever the width. */
export function Quantity({
  written,
  size = 'text',
}: {
  readonly written: Written;
  /** `key` is the vat's number, `large` a desk answer, `text` inside a sentence. */
  readonly size?: 'text' | 'large' | 'key';
}): ReactNode {
  return (
    <span className={`quantity quantity-${size} pair`}>
      <span className="numerals">{written.number}</span>
      {written.unit === '' ? null : (
        <span className="quantity-unit">
          {'\u202F'}
          {written.unit}
        </span>
      )}
    </span>
  );
}
