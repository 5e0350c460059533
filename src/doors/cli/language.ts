/** Which language a command speaks, and its flag. */
import { LANGUAGES, nearestLanguage, type Language } from '../../exchange/words.ts';
import { UsageError, type World } from './world.ts';

export const LANGUAGE_OPTIONS = { lang: { type: 'string' }, language: { type: 'string' } } as const;

/**
 * The language that was asked for; else the machine's own (`LANG`), where it is one of ours. What programs read (`--json`)
 * is UK English wherever it runs, unless somebody asks otherwise.
 */
export function languageOf(
  world: Pick<World, 'locale'>,
  values: { readonly lang?: string | undefined; readonly language?: string | undefined; readonly json?: boolean | undefined }, // prettier-ignore
): Language {
  const given = values.lang ?? values.language;
  if (given === undefined) return values.json === true ? 'en-GB' : nearestLanguage(world.locale ?? '');
  const found = LANGUAGES.find((language) => language.toLowerCase() === given.toLowerCase().replace('_', '-'));
  if (found === undefined) throw new UsageError(`--lang ${given}: expected ${LANGUAGES.join(', ')}.`);
  return found;
}
