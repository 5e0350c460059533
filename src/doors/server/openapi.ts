import { z } from 'zod';
import type { Route } from './route.ts';

type JsonSchema = Record<string, unknown>;

const PROBLEM = 'application/problem+json';

/** The API as OpenAPI 3.1, written from the routes themselves. */
export function openApi(input: { readonly routes: readonly Route[]; readonly version: string }): object {
  const paths: Record<string, Record<string, object>> = {};
  for (const route of input.routes) {
    paths[route.path] = { ...paths[route.path], [route.method]: operation(route) };
  }
  return {
    openapi: '3.1.0',
    info: { title: 'Vatside', version: input.version, license: { name: 'MIT', identifier: 'MIT' } },
    paths,
    components: { schemas: { Problem: problemSchema } },
  };
}

function operation(route: Route): object {
  const { path, summary, query, body, result, mediaType = 'application/json' } = route;
  const schema = result === undefined ? { type: 'string' } : jsonSchema(result, 'output');
  const refusal = { content: { [PROBLEM]: { schema: { $ref: '#/components/schemas/Problem' } } } };
  return {
    summary,
    operationId: `${route.method}${path.replace(/[^A-Za-z0-9]+(.)?/g, (_, letter: string | undefined) => (letter ?? '').toUpperCase())}`,
    parameters: [...pathParameters(path), ...queryParameters(query)],
    ...(body === undefined
      ? {}
      : { requestBody: { required: true, content: { 'application/json': { schema: jsonSchema(body, 'input') } } } }),
    responses: {
      200: { description: 'The answer.', content: { [mediaType]: { schema } } },
      400: { description: 'Bad input; every problem with its field.', ...refusal },
      ...(path.startsWith('/api/calc/') && route.method === 'post'
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
  if (query === undefined) return [];
  const { properties = {} } = z.object({ properties: z.record(z.string(), z.unknown()).optional() }).parse(jsonSchema(query, 'input')); // prettier-ignore
  return Object.entries(properties).map(([name, schema]) => ({ name, in: 'query', required: false, schema }));
}

function jsonSchema(schema: z.ZodType, io: 'input' | 'output'): JsonSchema {
  const { $schema: _dialect, ...rest } = z.toJSONSchema(schema, { io, unrepresentable: 'any' });
  return rest;
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
