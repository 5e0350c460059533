import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';

/** What can I make with this milk, in these hours, and what will I get? */
export function PlanScreen(): ReactNode {
  const { say } = useReader();
  return <h1>{say('plan:title')}</h1>;
}
