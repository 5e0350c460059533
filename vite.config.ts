import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { withoutSchemaWriter } from './src/doors/web/build/schema-writer.ts';
import { withWrittenMakes } from './src/doors/web/build/written-makes.ts';
import { withWrittenSums } from './src/doors/web/build/written-sums.ts';
import { offlinePlugin } from './src/doors/web/sw/offline-plugin.ts';

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
  build: {
    outDir: '../../../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
  },
  worker: { format: 'es', plugins: () => [withWrittenSums(), withWrittenMakes(), withoutSchemaWriter()] },
  server: { fs: { allow: ['../../..'] }, proxy: { '/api': 'http://127.0.0.1:4180' } },
});
