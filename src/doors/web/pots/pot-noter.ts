import type { Noter } from '../vat/use-noting.ts';

/** What is noted for one pot goes into its own stream, and is said with its name. */
export function potNoter(input: { readonly noter: Noter; readonly streamId: string; readonly pot: string }): Noter {
  const { noter, streamId, pot } = input;
  return {
    ...noter,
    note: (entries, told, happenedAt) => {
      const when = happenedAt === undefined ? {} : { happenedAt };
      return noter.noteAll(entries.map((entry) => ({ streamId, ...when, ...entry })), { ...told, said: `${pot}: ${told.said}` }); // prettier-ignore
    },
  };
}
