/** A fingerprint of the forecast's code: comments, layout and names of its own do not enter it, nor does what is only told. */
import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { build, type Rolldown } from 'vite';

export async function modelHash(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'error',
    build: { ssr: fileURLToPath(new URL('model.ts', import.meta.url)), write: false, minify: true, target: 'node20' },
  });
  const outputs: readonly Rolldown.RolldownOutput[] = (Array.isArray(built) ? built : [built]).filter((one) => 'output' in one); // prettier-ignore
  const code = outputs.flatMap(({ output }) => output.map((chunk) => (chunk.type === 'chunk' ? chunk.code : '')));
  return createHash('sha256').update(code.join('\n')).digest('hex').slice(0, 16);
}
