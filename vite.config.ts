import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { atOnce } from './src/doors/web/build/at-once.ts';
import { withoutSchemaWriter } from './src/doors/web/build/schema-writer.ts';
import { withWrittenMakes } from './src/doors/web/build/written-makes.ts';
import { withWrittenSums } from './src/doors/web/build/written-sums.ts';
import { offlinePlugin } from './src/doors/web/sw/offline-plugin.ts';

const inWeb = (file: string): string => fileURLToPath(new URL(`src/doors/web/${file}`, import.meta.url));

/** The web door: one page, one worker for the forecast, one service worker for the dairy without a network. */
export default defineConfig({
  root: 'src/doors/web',
  plugins: [
    react(),
    withWrittenSums(),
    withWrittenMakes(),
    withoutSchemaWriter(),
    offlinePlugin({ also: ['/', '/manifest.webmanifest', '/icon.svg'] }),
  ],
  // The page's policy allows no code made of text. The schema library would try once, be stopped, and do without: told so
  // from the start (its `jitless`), it does not try, and a report of the policy always means something.
  define: { 'globalThis.__zod_globalConfig': JSON.stringify({ jitless: true }) },
  build: {
    outDir: '../../../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    rolldownOptions: {
      output: {
        codeSplitting: {
          groups: [
            {
              name: atOnce({ entry: inWeb('main.tsx'), screen: inWeb('vat/vat-screen.tsx') }, 'vat-screen'),
              // What every page has stays with the page: it must be there to say that a screen did not arrive.
              includeDependenciesRecursively: false,
            },
          ],
        },
      },
    },
  },
  worker: { format: 'es', plugins: () => [withWrittenSums(), withWrittenMakes(), withoutSchemaWriter()] },
  server: { fs: { allow: ['../../..'] }, proxy: { '/api': 'http://127.0.0.1:4180' } },
});
