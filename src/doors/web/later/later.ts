import { createElement, use, type ComponentType, type FunctionComponent } from 'react';

/** A part of the page did not arrive: the network went, or a newer build took the place of this one. */
export class PartLost extends Error {
  /** The styles were lost: a browser that has asked for them once will not ask again until the page is loaded anew. */
  readonly needsPage: boolean;

  constructor(because: unknown) {
    super(because instanceof Error ? because.message : String(because), { cause: because });
    this.needsPage = /preload CSS/.test(this.message);
  }
}

/** A component that is fetched when it is first shown, or ahead of that; shown within a `LatePart`. */
export type Later<P extends object> = FunctionComponent<P> & {
  /** Fetches it before it is wanted; a fetch that fails is tried again when it is shown. */
  readonly ahead: () => void;
};

/** Parts that did not arrive and may be asked for again. */
const lost = new Set<() => void>();

/** Lets every part that was lost be fetched again by whoever shows it next. */
export function askAgain(): void {
  for (const forget of lost) forget();
  lost.clear();
}

/**
 * A part of the page that comes later. Once it is here it is shown at once; until then it suspends, and where it does not
 * arrive it throws `PartLost`, until somebody asks again.
 */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): Later<P> {
  let here: ComponentType<P> | null = null;
  let coming: Promise<ComponentType<P>> | null = null;
  const fetched = async (): Promise<ComponentType<P>> => {
    try {
      return (here = await load());
    } catch (error) {
      lost.add(() => (coming = null));
      throw new PartLost(error);
    }
  };
  const Part = (props: P) => createElement(here ?? use((coming ??= fetched())), props);
  return Object.assign(Part, {
    ahead: () => {
      if (here !== null || coming !== null) return;
      coming = fetched();
      // Nobody sees it yet: whoever shows it asks again.
      coming.catch(() => (coming = null));
    },
  });
}
