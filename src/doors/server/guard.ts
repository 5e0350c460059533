import type { Context, MiddlewareHandler } from 'hono';
import { HTTPException } from 'hono/http-exception';

/** Names under which a server on this device may be asked for. */
export const LOOPBACK_NAMES: readonly string[] = ['127.0.0.1', 'localhost', '[::1]'];

/**
 * Lets through only requests that name this server and come from its own pages.
 *
 * A page elsewhere can make a browser ask a loopback address (through a name that it points there, or a plain link);
 * the Host line then shows the foreign name, and Origin or Sec-Fetch-Site the foreign page.
 */
export function ownPagesOnly(namesFor: (c: Context) => readonly string[]): MiddlewareHandler {
  return async (c, next) => {
    const host = c.req.header('host') ?? new URL(c.req.url).host;
    if (!namesFor(c).includes(host.replace(/:\d+$/, '').toLowerCase())) {
      throw new HTTPException(403, {
        message: 'This server answers under its own name only; one that is shared is told more of them by --name',
      });
    }
    const origin = c.req.header('origin');
    if (origin !== undefined && origin !== `http://${host}` && origin !== `https://${host}`) {
      throw new HTTPException(403, { message: 'This server answers its own pages only' });
    }
    const isApi = c.req.path.startsWith('/api/');
    // Another port of the same host is the same site, and gets the same cookies; but it is another's page.
    if (isApi && /^(cross|same)-site$/.test(c.req.header('sec-fetch-site') ?? '')) {
      throw new HTTPException(403, { message: 'This server answers its own pages only' });
    }
    // A form on a foreign page can send no JSON without asking first.
    const isJson = /^application\/json\s*(;|$)/i.test(c.req.header('content-type') ?? '');
    if (isApi && !['GET', 'HEAD', 'OPTIONS'].includes(c.req.method) && !isJson) {
      throw new HTTPException(415, { message: 'Send JSON, and say so: content-type: application/json' });
    }
    await next();
  };
}
