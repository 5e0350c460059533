import type { ReactNode } from 'react';
export function MakePage({ makeId }: { readonly makeId: string }): ReactNode {
  return <h1>{makeId}</h1>;
}
