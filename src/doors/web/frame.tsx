import { useEffect, useState, type ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { DeviceDialog } from './device/device-dialog.tsx';
import { useReader } from './device/reader.tsx';
import { KeepingNews } from './log/keeping-news.tsx';
import { useLog } from './log/log-provider.tsx';
import { Button } from './look/button.tsx';
import type { Update } from './sw/register.ts';
import './frame.css';

/** The desk's frame: the name, the places, and what this device shows. Hidden at the vat and on paper. */
export function Frame({
  update,
  children,
}: {
  /** A newer build to offer; taking it reloads the page, which loses nothing. */
  readonly update: Update | null;
  readonly children: ReactNode;
}): ReactNode {
  const { say } = useReader();
  const [location] = useLocation();
  const { access } = useLog().held;
  const [deviceOpen, setDeviceOpen] = useState(false);
  useEffect(() => {
    window.scrollTo(0, 0);
  }, [location]);
  const places = [
    { href: '/', label: say('app:places.today') },
    { href: '/makes', label: say('app:places.makes') },
    { href: '/plan', label: say('app:places.plan') },
    { href: '/day', label: say('app:places.day') },
    { href: '/ageing', label: say('app:places.ageing') },
    { href: '/brine', label: say('app:places.brine') },
    { href: '/bench', label: say('app:places.bench') },
  ];
  // A sum is a page of the Bench.
  const here = places.find(({ href }) => href === location || (href !== '/' && location.startsWith(`${href}/`)));
  return (
    <div className="frame">
      <title>{here === undefined ? say('app:name') : say('app:titled', { place: here.label })}</title>
      <a className="frame-skip" href="#content">
        {say('app:skip')}
      </a>
      <header className="frame-side">
        <Link href="/" className="frame-name">
          {say('app:name')}
        </Link>
        <nav aria-label={say('app:places.label')} className="frame-places">
          {places.map(({ href, label }) => (
            <Link
              key={href}
              href={href}
              className="frame-place"
              aria-current={here?.href === href ? 'page' : undefined}
            >
              {label}
            </Link>
          ))}
        </nav>
        <button type="button" className="frame-place frame-device" onClick={() => setDeviceOpen(true)}>
          {say('app:device.open')}
        </button>
      </header>
      <main id="content" className="frame-content" tabIndex={-1}>
        {update === null ? null : (
          <p className="frame-update">
            {say('app:update.ready')}{' '}
            <Button kind="quiet" onClick={update.take}>
              {say('app:update.take')}
            </Button>
          </p>
        )}
        {access === 'maker' ? null : (
          <p className="frame-access">
            {say(`app:access.${access}`)}{' '}
            {access === 'none' ? <Link href="/pair">{say('app:access.pair')}</Link> : null}
          </p>
        )}
        <KeepingNews />
        {children}
      </main>
      <DeviceDialog open={deviceOpen} onClose={() => setDeviceOpen(false)} />
    </div>
  );
}
