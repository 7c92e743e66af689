/** Whether an answer is one that the document promises. Schemas of answers are closed, so a field too many shows. */
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import type { Operation } from './document.ts';

const ajv = new Ajv2020({ strict: false, validateFormats: false, allErrors: false });
const compiled = new Map<object, ValidateFunction>();

function validatorOf(schema: object): ValidateFunction {
  const known = compiled.get(schema);
  if (known) return known;
  const made = ajv.compile(schema);
  compiled.set(schema, made);
  return made;
}

export interface Answer {
  readonly status: number;
  readonly headers: Headers;
  readonly text: string;
}

/** What is wrong with it; null for nothing. */
export function faultOf(operation: Operation, answer: Answer): string | null {
  const { status, headers, text } = answer;
  if (status >= 500) return `${status}: ${text.slice(0, 300)}`;
  const promised = operation.answers.get(status);
  if (!promised) return `${status} is not in the document: ${text.slice(0, 300)}`;
  const type = (headers.get('content-type') ?? '').split(';')[0];
  if (type !== promised.type) return `${status} came as ${type}, not ${promised.type}`;
  if (!headers.get('x-request-id')) return 'no x-request-id';
  const value: unknown = type?.endsWith('json') && type !== 'application/x-ndjson' ? JSON.parse(text) : text;
  const validate = validatorOf(promised.schema);
  if (!validate(value))
    return `${status} has not its form: ${ajv.errorsText(validate.errors)} in ${text.slice(0, 300)}`;
  if (status < 400) return null;
  const problem = value as { readonly status: number; readonly instance: string };
  if (problem.status !== status) return `the problem says ${problem.status}, the answer ${status}`;
  if (problem.instance !== headers.get('x-request-id')) return 'the problem has another number than the answer';
  return null;
}
