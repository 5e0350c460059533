import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { bundledCatalogues } from './device/catalogues.ts';
import { openDeviceStore } from './device/device-settings.ts';
import { ReaderProvider } from './device/reader.tsx';
import './look/tokens.css';
import './look/fonts.css';
import './look/base.css';

const place = document.getElementById('app');
if (place === null) throw new Error('index.html has no place for the app');
createRoot(place).render(
  <StrictMode>
    <ReaderProvider store={openDeviceStore()} catalogues={bundledCatalogues()}>
      <App />
    </ReaderProvider>
  </StrictMode>,
);
