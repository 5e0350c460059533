import { isRecord } from '../../make/problems.ts';

/**
 * The value at a dotted path; `last` stands for the last of a list.
 * @returns undefined where there is none
 */
export function valueAtPath(value: unknown, path: string): unknown {
  if (path === '') return value;
  let here = value;
  for (const part of path.split('.')) {
    if (Array.isArray(here)) here = (here as readonly unknown[])[part === 'last' ? here.length - 1 : Number(part)];
    else if (isRecord(here)) here = here[part];
    else return undefined;
  }
  return here;
}

export const numberAt = (value: unknown, path: string): number | null => {
  const found = valueAtPath(value, path);
  return typeof found === 'number' ? found : null;
};
