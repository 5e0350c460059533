import { z } from 'zod';
import type { Route } from './route.ts';
import { COOKIES } from './share/who.ts';

type JsonSchema = Record<string, unknown>;

const PROBLEM = 'application/problem+json';

/** The API as OpenAPI 3.1, written from the routes themselves. */
export function openApi(input: { readonly routes: readonly Route[]; readonly version: string }): object {
  const paths: Record<string, Record<string, object>> = {};
  const schemas: Record<string, unknown> = { Problem: problemSchema };
  for (const route of input.routes) {
    paths[route.path] = { ...paths[route.path], [route.method]: operation(route, schemas) };
  }
  return {
    openapi: '3.1.0',
    info: { title: 'Vatside', version: input.version, license: { name: 'MIT', identifier: 'MIT' } },
    paths,
    components: {
      schemas,
      securitySchemes: {
        cookie: { type: 'apiKey', in: 'cookie', name: COOKIES.plain },
        bearer: { type: 'http', scheme: 'bearer' },
      },
    },
  };
}

function operation(route: Route, schemas: Record<string, unknown>): object {
  const { path, summary, query, body, result, needs = 'maker', mediaType = 'application/json' } = route;
  const operationId = `${route.method}${path.replace(/[^A-Za-z0-9]+(.)?/g, (_, letter: string | undefined) => (letter ?? '').toUpperCase())}`;
  const shared = (part: string, schema: JsonSchema): JsonSchema => withSharedDefinitions({ schema, schemas, prefix: `${operationId}${part}` }); // prettier-ignore
  const answer = result === undefined ? { type: 'string' } : shared('Answer', jsonSchema(result, 'output'));
  const refusal = { content: { [PROBLEM]: { schema: { $ref: '#/components/schemas/Problem' } } } };
  return {
    summary,
    operationId,
    // Asked over a network: the least role that the asking device must have been paired with.
    'x-needs': needs,
    security: needs === 'anyone' ? [] : [{ cookie: [] }, { bearer: [] }, {}],
    parameters: [...pathParameters(path), ...queryParameters(query)],
    ...(body === undefined
      ? {}
      : {
          requestBody: {
            required: true,
            content: { 'application/json': { schema: shared('Body', jsonSchema(body, 'input')) } },
          },
        }),
    responses: {
      200: { description: 'The answer.', content: { [mediaType]: { schema: answer } } },
      400: { description: 'Bad input; every problem with its field.', ...refusal },
      ...(/^\/api\/(calc\/|solve$)/.test(path) && route.method === 'post'
        ? { 422: { description: 'Possible, but outside what the model was measured for.', ...refusal } }
        : {}),
    },
  };
}

function pathParameters(path: string): object[] {
  return [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
    name,
    in: 'path',
    required: true,
    schema: { type: 'string' },
  }));
}

function queryParameters(query: z.ZodType | undefined): object[] {
  return Object.entries(queryProperties(query)).map(([name, schema]) => ({
    name,
    in: 'query',
    required: false,
    schema,
  }));
}

/** The names that may stand after the `?` of an address. */
export const queryNames = (query: z.ZodType | undefined): readonly string[] => Object.keys(queryProperties(query));

function queryProperties(query: z.ZodType | undefined): Readonly<Record<string, unknown>> {
  if (query === undefined) return {};
  const { properties = {} } = z.object({ properties: z.record(z.string(), z.unknown()).optional() }).parse(jsonSchema(query, 'input')); // prettier-ignore
  return properties;
}

function jsonSchema(schema: z.ZodType, io: 'input' | 'output'): JsonSchema {
  const { $schema: _dialect, ...rest } = z.toJSONSchema(schema, { io, unrepresentable: 'any' });
  return rest;
}

/** Definitions that a schema refers to within itself move to the document's own place for them. */
function withSharedDefinitions(input: {
  readonly schema: JsonSchema;
  readonly schemas: Record<string, unknown>;
  readonly prefix: string;
}): JsonSchema {
  const { $defs, ...rest } = input.schema;
  const move = (node: unknown): unknown => {
    if (Array.isArray(node)) return node.map(move);
    if (typeof node !== 'object' || node === null) return node;
    return Object.fromEntries(
      Object.entries(node).map(([key, value]) =>
        key === '$ref' && typeof value === 'string'
          ? [key, value.replace('#/$defs/', `#/components/schemas/${input.prefix}`)]
          : [key, move(value)],
      ),
    );
  };
  for (const [name, schema] of Object.entries($defs ?? {})) input.schemas[`${input.prefix}${name}`] = move(schema);
  return Object.fromEntries(Object.entries(rest).map(([key, value]) => [key, move(value)]));
}

const problemSchema = {
  type: 'object',
  required: ['title', 'status', 'errors'],
  properties: {
    type: { type: 'string' },
    title: { type: 'string' },
    status: { type: 'integer' },
    detail: { type: 'string' },
    errors: {
      type: 'array',
      items: {
        type: 'object',
        required: ['code', 'field', 'expected', 'message', 'remedy'],
        properties: {
          code: { type: 'string' },
          field: { type: 'string' },
          value: {},
          expected: { type: 'string' },
          message: { type: 'string' },
          remedy: { type: 'string' },
        },
      },
    },
  },
};
