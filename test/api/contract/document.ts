/** The operations of the OpenAPI document as tests walk them: a route that is not in it is not tested, and another test sees to that. */
import { openApiDocument } from '../../../worker/api/open-api.ts';

export type Json = { readonly [key: string]: unknown };
export type Schema = Json;

export interface Parameter {
  readonly name: string;
  readonly in: 'path' | 'query' | 'header';
  readonly required: boolean;
  readonly schema: Schema;
}

export interface Operation {
  readonly name: string;
  readonly method: string;
  readonly path: string;
  readonly scope: string;
  readonly parameters: readonly Parameter[];
  /** Media type and schema of the body; null for none. */
  readonly body: { readonly type: string; readonly schema: Schema } | null;
  /** By status: media type and schema; 304 has neither. */
  readonly answers: ReadonlyMap<number, { readonly type: string; readonly schema: Schema }>;
}

const at = (value: unknown, key: string): Json => ((value as Json | undefined)?.[key] ?? {}) as Json;

function contentOf(holder: Json): { readonly type: string; readonly schema: Schema } | null {
  const [first] = Object.entries(at(holder, 'content'));
  return first ? { type: first[0], schema: at(first[1], 'schema') } : null;
}

export const document = openApiDocument();
export const problemSchema = at(at(at(document, 'components'), 'schemas'), 'Problem');

function answersOf(operation: Json): Operation['answers'] {
  const answers = new Map<number, { type: string; schema: Schema }>();
  for (const [status, response] of Object.entries(at(operation, 'responses'))) {
    const content = contentOf(response as Json);
    if (!content && status !== '304')
      throw new Error(`${String(operation.operationId)} answers ${status} with nothing`);
    if (!content) answers.set(304, { type: '', schema: {} });
    else answers.set(Number(status), '$ref' in content.schema ? { ...content, schema: problemSchema } : content);
  }
  return answers;
}

export const operations: readonly Operation[] = Object.entries(at(document, 'paths')).flatMap(([path, methods]) =>
  Object.entries(methods as Json).map(([method, value]) => {
    const operation = value as Json;
    return {
      name: String(operation.operationId),
      method: method.toUpperCase(),
      path,
      scope: String(operation['x-scope']),
      parameters: (operation.parameters ?? []) as readonly Parameter[],
      body: operation.requestBody ? contentOf(operation.requestBody as Json) : null,
      answers: answersOf(operation),
    };
  }),
);
