import { memo, useMemo, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import { whichPots } from '../pots/which-pots.ts';
import type { VatView } from './vat-view.ts';
import type { VatLight } from './vat-light.ts';
import { VatButton } from './vat-button.tsx';

/** Which pot, which step of how many, what time it is, and where the record lies. */
export const VatStrip = memo(function VatStrip({
  strip,
  saved,
  light,
  onLight,
}: {
  readonly strip: VatView['strip'];
  readonly saved: 'here' | 'here and server' | 'not';
  readonly light: VatLight;
  readonly onLight: () => void;
}): ReactNode {
  const { say } = useReader();
  const long = saved === 'not' ? 'notSaved' : saved === 'here' ? 'savedHere' : 'savedBoth';
  const { held } = useLog();
  const { running } = useMemo(() => whichPots(held.streams), [held.streams]);
  // A pot that is closed is not among those that run: one of them is then another.
  const hasOthers = running.length > 1 || running.some(({ name }) => name !== strip.pot);
  const short = saved === 'not' ? 'notSaved' : saved === 'here' ? 'savedHereShort' : 'savedBothShort';
  return (
    <header className="vat-strip">
      <Link href={hasOthers ? '/pots' : '/'} className="vat-pot">
        <span>{strip.pot}</span> {hasOthers ? <small className="vat-pots">{say('pots:title')}</small> : null}{' '}
        <span className="out-of-sight">{say(hasOthers ? 'pots:open' : 'vat:strip.leave')}</span>
      </Link>
      <span className="vat-where">
        <span className="pair">{strip.place}</span>
        <span className="vat-saved" title={say(`vat:strip.${long}`)}>
          {say(`vat:strip.${short}`)}
        </span>
      </span>
      <strong className="numerals pair">{strip.clock}</strong>
      <VatButton
        className="vat-light"
        onAct={onLight}
        aria-label={`${say('vat:strip.light')}: ${say(`app:device.lights.${light}`)}`}
      >
        {say(`app:device.lights.${light}`)}
      </VatButton>
    </header>
  );
});
