import { useMemo } from 'react';
import { bothUnits } from '../../../exchange/text/both-units.ts';
import type { Told } from '../../../exchange/paper/step-words.ts';
import { openWriter, type UnitSystem } from '../../../exchange/written.ts';
import { useReader } from '../device/reader.tsx';

/**
 * How this reader's paper is told.
 * @param input.isInBoth both unit systems beside each other
 * @param input.units another reader's units: a pupil's at home
 */
export function useTold(input: { readonly isInBoth: boolean; readonly units?: UnitSystem }): Told {
  const { say, write, language } = useReader();
  const { isInBoth, units = write.units } = input;
  return useMemo(
    () => ({ say, write: units === write.units ? write : openWriter({ language, units }), both: bothUnits(units, language), isInBoth }),
    [say, write, language, units, isInBoth],
  );
} // prettier-ignore
