/**
 * Letters that are not taken for figures or for each other when read aloud or written with a wet pen: no I, L, O, S, Z,
 * nor B and V. There are 19: a prime above every weight and every slip, so that one wrong figure, or two neighbours
 * exchanged, always changes the letter (elementary number theory: a product of two non-zero remainders is not zero).
 */
const CHECK_LETTERS = 'ACDEFGHJKMNPQRTUWXY';

/**
 * The code of one batch, readable aloud: day of making, count of the day, check letter ("261125-1K").
 * @param input.day local day of minute zero, `2026-11-25`
 * @param input.taken codes already given
 */
export function lotCodeFor(input: { readonly day: string; readonly taken: readonly string[] }): string {
  const date = input.day.slice(2).replaceAll('-', '');
  for (let count = 1; ; count++) {
    const code = `${date}-${count}${checkLetter(`${date}${count}`)}`;
    if (!input.taken.includes(code)) return code;
  }
}

/** Weights by place, 2 to 9 for the date and a count below a hundred. */
function checkLetter(figures: string): string {
  let sum = 0;
  for (const [place, figure] of Array.from(figures, Number).entries()) sum += (place + 2) * figure;
  return CHECK_LETTERS.charAt(sum % CHECK_LETTERS.length);
}
