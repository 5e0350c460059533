import { typicalDays } from '../../../exchange/typical-day.ts';
import { makeFacts } from '../../../make/make-facts.ts';
import { parseMake, type Make } from '../../../make/make.ts';
import type { ListedMake } from './listed-make.ts';

const files = import.meta.glob<unknown>('../../../../makes/*.json', { eager: true, import: 'default' });

/**
 * The facts of every make of the checkout, with the length of its days. Worked out here while developing and in tests, the
 * days only when they are asked for; the built page carries them as they were written when it was built
 * (`build/written-makes.ts`), and no make.
 */
export function writtenFacts(): readonly ListedMake[] {
  return Object.values(files).map((json) => listed(parseMake(json)));
}

function listed(make: Make): ListedMake {
  let days: ListedMake['days'] | null = null;
  return {
    facts: makeFacts(make),
    get days() {
      return (days ??= typicalDays(make));
    },
  };
}
