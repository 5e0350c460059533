/** A square code (QR code, ISO/IEC 18004) for a terminal: two rows of squares to a line of half blocks. */
import { correction, generate } from 'lean-qr';

/** White around it, in its own squares: the standard asks for four; terminals are dark, so that two would be lost in them. */
const QUIET = 4;
/** Black on white whatever colours the terminal has (ECMA-48 SGR with the colour cube's black and white). */
const BLACK_ON_WHITE = '\u001B[38;5;16;48;5;231m';
const AS_BEFORE = '\u001B[0m';

/** The squares of an address: true where dark, with the white around them. */
function squaresOf(address: string): boolean[][] {
  const code = generate(address, { minCorrectionLevel: correction.L });
  const side = Array.from({ length: code.size + 2 * QUIET }, (_, at) => at - QUIET);
  return side.map((y) => side.map((x) => code.get(x, y)));
}

/**
 * The code of an address as lines of a terminal.
 * @returns null where the lines would be longer than the terminal's
 */
export function terminalCode(address: string, columns: number): readonly string[] | null {
  const rows = squaresOf(address);
  if (rows.length > columns) return null;
  const lines: string[] = [];
  for (let at = 0; at < rows.length; at += 2) {
    const squares = (rows[at] ?? []).map((upper, x) => {
      const lower = rows[at + 1]?.[x] ?? false;
      return upper ? (lower ? '█' : '▀') : lower ? '▄' : ' ';
    });
    lines.push(`${BLACK_ON_WHITE}${squares.join('')}${AS_BEFORE}`);
  }
  return lines;
}
