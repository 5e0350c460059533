import type { Context, Hono, MiddlewareHandler } from 'hono';
import { InputError, type Problem } from '../../numbers/validity.ts';
import { queryNames } from './openapi.ts';
import { problemAnswer } from './problem.ts';
import type { Route } from './route.ts';
import { only } from './share/who.ts';

/** Gives every route its place: who may ask, which names may stand in the address, and what other methods are told. */
export function answerRoutes(app: Hono, routes: readonly Route[]): void {
  for (const route of routes) {
    app[route.method](pathOf(route), only(route.needs), onlyKnownNames(route), route.answer);
  }
  for (const path of new Set(routes.map(pathOf))) {
    const sisters = routes.filter((route) => pathOf(route) === path);
    app.all(path, only(sisters[0]?.needs), (c) => otherMethod(c, methodsOf(sisters)));
  }
}

const pathOf = ({ path }: Route): string => path.replaceAll(/\{(\w+)\}/g, ':$1');

function methodsOf(routes: readonly Route[]): readonly string[] {
  return [...routes.flatMap(({ method }) => (method === 'get' ? ['GET', 'HEAD'] : [method.toUpperCase()])), 'OPTIONS'];
}

/** RFC 9110, sections 9.3.7 and 15.5.6: OPTIONS is told what may be asked, any other method is refused and told the same. */
export function otherMethod(c: Context, allowed: readonly string[]): Response {
  c.header('allow', allowed.join(', '));
  if (c.req.method === 'OPTIONS') return c.body(null, 204);
  return problemAnswer(c, { status: 405, title: `This is asked with ${allowed.join(' or ')}` });
}

/** A misspelt name would be as if it had not been said; one said twice would mean either. Both are refused. */
function onlyKnownNames(route: Route): MiddlewareHandler {
  const known = queryNames(route.query);
  const expected = known.length === 0 ? 'nothing after the ?' : known.join(', ');
  return async (c, next) => {
    const given = [...new URL(c.req.url).searchParams.keys()];
    const problems = [...new Set(given)].flatMap((name): Problem[] => {
      const field = name === '' ? '?' : name.slice(0, 60);
      if (!known.includes(name)) return [{ code: 'unknown-field', field, value: name, expected, remedy: 'See /api/openapi.json.' }]; // prettier-ignore
      if (given.indexOf(name) === given.lastIndexOf(name)) return [];
      return [{ code: 'contradiction', field, value: name, expected: 'the name once', remedy: 'Say which value counts.' }]; // prettier-ignore
    });
    if (problems.length > 0) throw new InputError(problems.slice(0, 5));
    await next();
  };
}
