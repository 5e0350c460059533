import type { Plugin } from 'vite';
import { serviceWorkerSource, versionOf } from './service-worker.ts';

/**
 * Writes `sw.js` with the list of everything that was built, and preloads the two fonts, so that the first words
 * stand in their own letters and the second visit needs no network.
 * @param options.also paths that the build does not know of: the page itself and what lies in `public/`
 */
export function offlinePlugin(options: { readonly also: readonly string[] }): Plugin {
  return {
    name: 'vatside-offline',
    apply: 'build',
    enforce: 'post',
    transformIndexHtml: {
      order: 'post',
      handler(_html, context) {
        return Object.keys(context.bundle ?? {})
          .filter((file) => file.endsWith('.woff2'))
          .map((file) => ({
            tag: 'link',
            attrs: { rel: 'preload', href: `/${file}`, as: 'font', type: 'font/woff2', crossorigin: '' },
            injectTo: 'head' as const,
          }));
      },
    },
    generateBundle(_options, bundle) {
      const files = Object.keys(bundle)
        .filter((file) => !file.endsWith('.html') && !file.endsWith('.map'))
        .map((file) => `/${file}`);
      const page = Object.values(bundle)
        .map((item) => (item.type === 'asset' ? item.fileName : item.fileName + item.code.length))
        .sort()
        .join('\n');
      this.emitFile({
        type: 'asset',
        fileName: 'sw.js',
        source: serviceWorkerSource({ version: versionOf(page), files: [...options.also, ...files].sort() }),
      });
    },
  };
}
