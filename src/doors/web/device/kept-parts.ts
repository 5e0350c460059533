/**
 * What is worked out anew, with every part that says the same as before put back as the very same object: who compares by
 * identity sees only what changed. Plain data alone is looked into; anything else is the same only where it is the same object.
 */
export function keptParts<T>(before: T, now: T): T;
export function keptParts(before: unknown, now: unknown): unknown {
  return part(before, now);
}

function part(before: unknown, now: unknown): unknown {
  if (Object.is(before, now)) return before;
  if (Array.isArray(before) && Array.isArray(now)) return list(before, now);
  return isPlain(before) && isPlain(now) ? object(before, now) : now;
}

function list(before: readonly unknown[], now: readonly unknown[]): readonly unknown[] {
  const parts = now.map((one, index) => (index < before.length ? part(before[index], one) : one));
  return parts.length === before.length && parts.every((one, index) => Object.is(one, before[index])) ? before : parts;
}

type Plain = Readonly<Record<string, unknown>>;

/** Copies nothing before something of it is to be put back: a card is looked through at each new forecast. */
function object(before: Plain, now: Plain): Plain {
  const keys = Object.keys(now);
  let isSame = keys.length === Object.keys(before).length;
  let kept: Record<string, unknown> | null = null;
  for (const key of keys) {
    const one = part(before[key], now[key]);
    isSame &&= Object.is(one, before[key]) && (one !== undefined || key in before);
    if (!Object.is(one, now[key])) (kept ??= { ...now })[key] = one;
  }
  return isSame ? before : (kept ?? now);
}

/** Puts what is worked out again and again back on what it was the last time. */
export function partsKeeper<T>(): (now: T) => T {
  let last: { readonly given: T; readonly kept: T } | null = null;
  return (now) => {
    // Drawn again with nothing worked out anew, there is nothing to look through.
    if (last === null || !Object.is(last.given, now))
      last = { given: now, kept: last === null ? now : keptParts(last.kept, now) };
    return last.kept;
  };
}

const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;
