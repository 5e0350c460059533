import { useEffect, useMemo, useRef, useState } from 'react';
import { sistersOf } from '../../../exchange/sisters.ts';
import type { JointBeliefs } from '../../../forecast/uncertain.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { PotsQuestion, PotsReply } from '../forecasting/pots-worker.ts';
import { foldOnce } from '../log/fold-once.ts';
import { useLog } from '../log/log-provider.tsx';
import { potOf } from '../vat/use-sisters.ts';

/** A silence of ten minutes more tells something; as at the vat. */
const EVERY_MS = 600_000;
type Learned = ReadonlyMap<string, JointBeliefs>;
const NOTHING: Learned = new Map();

/** What all pots have told each other, in one go; a pot that nothing was told of is not in it. */
export function useLearned(running: readonly BatchRecord[], nowAt: number): Learned {
  const { held } = useLog();
  const tick = Math.floor(nowAt / EVERY_MS) * EVERY_MS;
  const [learned, setLearned] = useState<Learned>(NOTHING);
  const worker = useRef<Worker | null>(null);
  const number = useRef(0);
  const pots = useMemo(() => {
    const first = running.find(({ steps }) => steps.length > 0);
    if (first === undefined) return [];
    const others = [...held.streams].filter(([id]) => id.startsWith('batch:')).map(([, events]) => foldOnce(events));
    const sisters = sistersOf({ record: first, others });
    return sisters.length < 2 ? [] : sisters.flatMap((sister) => potOf(sister, held.streams, tick));
  }, [running, held.streams, tick]);
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
    },
    [],
  );
  useEffect(() => {
    if (pots.length < 2) return;
    if (worker.current === null) {
      worker.current = new Worker(new URL('../forecasting/pots-worker.ts', import.meta.url), { type: 'module' });
      worker.current.addEventListener('message', ({ data }: MessageEvent<PotsReply>) => {
        if (data.number === number.current) setLearned((before) => merged(before, data));
      });
    }
    number.current += 1;
    worker.current.postMessage({ number: number.current, id: null, pots, seed: 1 } satisfies PotsQuestion);
  }, [pots]);
  return learned;
}

/** The same beliefs stay the same object, so that their forecast is not asked again. */
function merged(before: Learned, { all }: PotsReply): Learned {
  const now = all.flatMap(({ id, beliefs }) => {
    if (beliefs === null) return [];
    const known = before.get(id);
    const isSame = known !== undefined && JSON.stringify(known) === JSON.stringify(beliefs);
    return [[id, isSame ? known : beliefs] as const];
  });
  return new Map(now);
}
