import type { MiddlewareHandler } from 'hono';
import { HTTPException } from 'hono/http-exception';

/** Names under which a server on this device may be asked for. */
export const LOOPBACK_NAMES: readonly string[] = ['127.0.0.1', 'localhost', '[::1]'];

/**
 * Lets through only requests that name this server and come from its own pages.
 *
 * A page elsewhere can make a browser ask a loopback address (through a name that it points there, or a plain link);
 * the Host line then shows the foreign name, and Origin or Sec-Fetch-Site the foreign page.
 */
export function ownPagesOnly(names: readonly string[]): MiddlewareHandler {
  return async (c, next) => {
    const host = c.req.header('host') ?? new URL(c.req.url).host;
    if (!names.includes(host.replace(/:\d+$/, '').toLowerCase())) {
      throw new HTTPException(403, { message: 'This server answers under its own name only' });
    }
    const origin = c.req.header('origin');
    if (origin !== undefined && origin !== `http://${host}` && origin !== `https://${host}`) {
      throw new HTTPException(403, { message: 'This server answers its own pages only' });
    }
    const isApi = c.req.path.startsWith('/api/');
    if (isApi && c.req.header('sec-fetch-site') === 'cross-site') {
      throw new HTTPException(403, { message: 'This server answers its own pages only' });
    }
    await next();
  };
}
