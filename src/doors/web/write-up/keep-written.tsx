import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import type { Make } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import { handOutSheet } from '../../../exchange/paper/hand-out.ts';
import { paperDocument } from '../../../exchange/paper/html.ts';
import type { Told } from '../../../exchange/paper/step-words.ts';
import { makeFileText } from '../../../exchange/share/make-file.ts';
import type { Seen } from '../../../exchange/write-up/seen.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { useForecast } from '../forecasting/use-forecast.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { useMakes } from '../makes/use-makes.ts';
import { keepMake } from '../share/keep-make.ts';
import { saveFile } from '../share/save-file.ts';

/** What becomes of it: a draft among one's makes, a file, a hand-out. */
export function KeepWritten({
  make,
  seen,
  from,
  told,
  isNamed,
}: {
  readonly make: Make;
  readonly seen: Seen;
  readonly from: string;
  readonly told: Told;
  readonly isNamed: boolean;
}): ReactNode {
  const { say, language, book } = useReader();
  const { log } = useLog();
  const { own } = useMakes();
  const [said, setSaid] = useState<string | null>(null);
  // A hand-out's bands are of such makes with that much milk, not of one day.
  const plan = useMemo(() => planMake({ make, answers: { milk: { volumeL: seen.milkL.middle } } }), [make, seen]);
  const { forecast } = useForecast(plan);
  const keep = async (): Promise<void> => {
    if (!isNamed) return setSaid(say('writeup:needsName'));
    try {
      await keepMake({ log, own: own.makes, make, from });
      setSaid(say('writeup:kept'));
    } catch (error) {
      setSaid(error instanceof Error ? error.message : String(error));
    }
  };
  const handOut = (): void => {
    if (forecast === null) return;
    const seenMin = new Map(seen.steps.flatMap(({ stepId, minutes }) => (minutes === null ? [] : [[stepId, minutes] as const]))); // prettier-ignore
    const sheet = handOutSheet({ plan: book.plan(plan), forecast, notes: { seenMin, madeBy: make.sources.slice(-1) }, told }); // prettier-ignore
    saveFile({ name: `${make.id}.html`, type: 'text/html', text: paperDocument({ sheets: [sheet], language }) });
  };
  return (
    <section className="write-up-acts">
      <May note="makeSaved">
      <Button kind="main" onClick={() => void keep()}>
        {say('writeup:keep')}
      </Button>
      </May>
      <Button kind="second" onClick={() => saveFile({ name: `${make.id}.make.json`, type: 'application/json', text: makeFileText(make) })}>
        {say('writeup:file')}
      </Button>
      <Button kind="second" disabled={forecast === null} onClick={handOut}>
        {say('writeup:handOut')}
      </Button>
      <p role="status">
        {said} {said === say('writeup:kept') ? <Link href={`/makes/${make.id}`}>{make.name}</Link> : null}
      </p>
    </section>
  );
} // prettier-ignore
