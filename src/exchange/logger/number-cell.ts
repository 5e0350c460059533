/** A number as a logger writes it: a point or a comma, with or without the unit behind. */
export interface NumberCell {
  readonly value: number;
  /** The unit that stands in the cell itself. */
  readonly unit: 'C' | 'F' | null;
}

const NUMBER = /^([-\u2212+]?)(\d+(?:[.,]\d+)?|[.,]\d+)(?:e([-+]?\d{1,2}))?\s*(?:(?:°|º|deg\.?\s?)?\s*([CF]))?$/i;

/**
 * Reads one cell. A comma is a decimal comma: no reading of milk has thousands. Nothing is computed: a cell that
 * begins like a formula is no number, and stays text.
 */
export function readNumber(cell: string): NumberCell | null {
  const match = NUMBER.exec(cell.trim());
  if (match === null) return null;
  const [, sign = '', digits = '', power = '0', unit] = match;
  const size = Number(digits.replace(',', '.')) * 10 ** Number(power);
  const value = sign === '-' || sign === '\u2212' ? -size : size;
  if (!Number.isFinite(value)) return null;
  return { value, unit: unit === undefined ? null : unit.toUpperCase() === 'F' ? 'F' : 'C' };
}
