import { parseMake, type Make } from '../../../make/make.ts';

const files = import.meta.glob<unknown>('../../../../makes/*.json', { eager: true, import: 'default' });

/** The makes of the checkout, easiest first. A file that cannot be read stops the build's tests, not the maker. */
export function bundledMakes(): readonly Make[] {
  return Object.values(files)
    .map((json) => parseMake(json))
    .sort((a, b) => a.difficulty - b.difficulty || a.name.localeCompare(b.name));
}
