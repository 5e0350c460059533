/** A square code for a camera (QR code, ISO/IEC 18004): an address that is long to type. */
import { correction, generate } from 'lean-qr';
import { el, type PaperElement } from './element.ts';

/** White around it, in its own squares: the standard asks for four. */
const QUIET = 4;
/** A code with more squares on a side is too fine for a photocopy at 32 mm. Our own choice: 0.4 mm a square. */
const MOST_SQUARES = 77;

/** The squares of an address; null where it is too long for a code that survives a photocopy. */
export function codeOf(address: string): { readonly size: number; readonly path: string } | null {
  let code;
  try {
    code = generate(address, { minCorrectionLevel: correction.L });
  } catch {
    return null;
  }
  if (code.size > MOST_SQUARES) return null;
  let path = '';
  for (let y = 0; y < code.size; y++)
    for (let x = 0; x < code.size; x++) if (code.get(x, y)) path += `M${x + QUIET} ${y + QUIET}h1v1h-1z`;
  return { size: code.size + 2 * QUIET, path };
}

/** The code as a drawing, with its words for who cannot see it; nothing where the address is too long. */
export function codeElement(address: string, words: string): PaperElement | null {
  const code = codeOf(address);
  if (code === null) return null;
  const attributes = {
    class: 'paper-code',
    viewBox: `0 0 ${code.size} ${code.size}`,
    role: 'img',
    'aria-label': words,
  };
  return el('svg', attributes, el('path', { d: code.path }));
}
