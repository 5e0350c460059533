import type { ReactNode } from 'react';
import { LANGUAGES } from '../../../exchange/words.ts';
import { Button } from '../look/button.tsx';
import { Choice } from '../look/choice.tsx';
import { Dialog } from '../look/dialog.tsx';
import { Notice } from '../look/notice.tsx';
import { useLog } from '../log/log-provider.tsx';
import { clockNotice } from './clock-notice.ts';
import { useReader } from './reader.tsx';
import './device-dialog.css';

/** What this device shows: light, words, units. Taken at once, kept on this device, part of no record. */
export function DeviceDialog({ open, onClose }: { readonly open: boolean; readonly onClose: () => void }): ReactNode {
  const { say, write, settings, change } = useReader();
  const { held } = useLog();
  const clock = clockNotice({ offset: held.clockOffset, say, write });
  return (
    <Dialog open={open} title={say('app:device.title')} onClose={onClose}>
      <div className="device-dialog">
        {clock === null ? null : (
          <Notice kind="caution" title={clock.title}>
            <p>{clock.text}</p>
          </Notice>
        )}
        <Choice
          label={say('app:device.light')}
          value={settings.light}
          options={(['auto', 'day', 'steam', 'dark'] as const).map((value) => ({ value, label: say(`app:device.lights.${value}`) }))} // prettier-ignore
          onChange={(light) => change({ light })}
        />
        <p className="device-dialog-hint">{say('app:device.lightHint')}</p>
        <Choice
          label={say('app:device.units')}
          value={settings.units}
          options={(['metric', 'us'] as const).map((value) => ({ value, label: say(`app:device.unitSystems.${value}`) }))} // prettier-ignore
          onChange={(units) => change({ units })}
        />
        <Choice
          label={say('app:device.language')}
          value={settings.language}
          options={LANGUAGES.map((value) => ({ value, label: say(`app:device.languages.${value}`) }))} // prettier-ignore
          onChange={(language) => change({ language })}
        />
        <Choice
          label={say('app:device.hand')}
          value={settings.hand}
          options={(['left', 'right'] as const).map((value) => ({ value, label: say(`app:device.hands.${value}`) }))}
          onChange={(hand) => change({ hand })}
        />
        <p className="device-dialog-hint">{say('app:device.handHint')}</p>
        <Button kind="main" onClick={onClose}>
          {say('app:device.close')}
        </Button>
      </div>
    </Dialog>
  );
}
