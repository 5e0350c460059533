/** JSON from strangers: refused where it is nested deeper than schemas, which walk it by calling themselves, can follow. */

/** Deeper nesting than any event has. Our own choice. */
export const DEEPEST = 64;

/** The value of a text; `null` in place of it with why there is none. */
export type CheckedJson = { readonly json: unknown } | { readonly fault: 'no-json' | 'too-deep' };

/**
 * Reads JSON text that may be anything.
 * @param deepest  how deep it may be nested: more where events stand within something else
 */
export function checkedJson(text: string, deepest = DEEPEST): CheckedJson {
  if (nesting(text) > deepest) return { fault: 'too-deep' };
  try {
    return { json: JSON.parse(text) as unknown };
  } catch {
    return { fault: 'no-json' };
  }
}

/** Deepest nesting of brackets outside strings. */
function nesting(text: string): number {
  let depth = 0;
  let deepest = 0;
  let inString = false;
  for (let index = 0; index < text.length; index++) {
    const letter = text[index];
    if (inString) {
      if (letter === '\\') index++;
      else if (letter === '"') inString = false;
    } else if (letter === '"') inString = true;
    else if (letter === '[' || letter === '{') deepest = Math.max(deepest, ++depth);
    else if (letter === ']' || letter === '}') depth--;
  }
  return deepest;
}
