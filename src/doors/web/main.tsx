import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { wordShelf } from './device/catalogues.ts';
import { openDeviceStore } from './device/device-settings.ts';
import { ReaderProvider } from './device/reader.tsx';
import { fontsThere } from './look/fonts-there.ts';
import { LogProvider } from './log/log-provider.tsx';
import { openLog } from './log/open-log.ts';
import { NoLog } from './no-log.tsx';
import { onlyRunning } from './today/today-view.ts';
import './look/tokens.css';
import './look/fonts.css';
import './look/base.css';

/** Opens the log, then the page; a make under way is on screen at once. */
async function open(place: HTMLElement): Promise<void> {
  const settings = openDeviceStore();
  const root = createRoot(place);
  const words = wordShelf.begin(settings.read().language);
  try {
    const [log] = await Promise.all([openLog(), words, fontsThere()]);
    const running = location.pathname === '/' ? onlyRunning(log.snapshot().streams) : null;
    if (running !== null) history.replaceState(null, '', `/vat/${running}`);
    root.render(
      <StrictMode>
        <ReaderProvider store={settings}>
          <LogProvider log={log}>
            <App />
          </LogProvider>
        </ReaderProvider>
      </StrictMode>,
    );
  } catch (error) {
    // Without the words there is no sentence to say it in, but the page still says what happened.
    await words.catch(() => undefined);
    root.render(
      <ReaderProvider store={settings}>
        <NoLog why={error instanceof Error ? error.message : String(error)} />
      </ReaderProvider>,
    );
  }
}

const place = document.getElementById('app');
if (place === null) throw new Error('index.html has no place for the app');
void open(place);
