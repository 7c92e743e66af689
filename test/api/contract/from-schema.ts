/** Values that a JSON schema of the contract lets through, and mostly what a shop would really send in them. */
import fc from 'fast-check';
import type { Json, Schema } from './document.ts';

/** Things that are in the yard, by the prefix of their id, so that requests find something. */
export type Pool = Readonly<Record<'bd' | 'jb' | 'pl' | 'rs' | 'cs' | 'key' | 'seq', readonly string[]>>;

export type Value = fc.Arbitrary<unknown>;

const texts = ['Hall table', 'rack 2', "it's “straight” – mostly", '=1+1', '<b>x</b>', '木', ' '];
const woods = ['white oak', 'black walnut', 'cherry', 'hard maple', 'white-oak'];
const inch = (count: number) => count * 25_400_000;

/** By the name of a field: what the schema alone cannot say. */
function byName(name: string, pool: Pool, schema: Schema): Value | null {
  if (name === 'species') return fc.constantFrom(...woods);
  if (/^(lengthNm|fromNm|toNm)$/.test(name)) return fc.integer({ min: 1, max: 96 }).map(inch);
  if (/^(width|left|right)/.test(name) && name.endsWith('Nm')) return fc.integer({ min: 1, max: 10 }).map(inch);
  if (/Call$/.test(name)) return fc.constantFrom('4/4', '8/4');
  if (name === 'nominalThicknessInch') return fc.constantFrom(1, 2);
  if (name === 'nominalWidthInch') return fc.constantFrom(4, 6);
  if (name === 'delivery') return fc.constant('mill lot 7');
  if (/Nm(Max)?$/.test(name)) return fc.oneof(fc.integer({ min: 1, max: 3 }).map(inch), fc.constant('1 in'));
  if (name === 'tag')
    return fc.oneof(
      fc.constantFrom('F-1', 'F-2'),
      fc.integer({ max: 999, min: 0 }).map((no) => `N-${no}`),
    );
  if (name === 'key' || name === 'partKey') return fc.constantFrom('r1', 'r2');
  const prefix = /^\^([a-z]{2})_/.exec(String(schema.pattern ?? ''))?.[1];
  if (prefix && prefix in pool) return idOf(pool, prefix as keyof Pool);
  return null;
}

export function idOf(pool: Pool, prefix: keyof Pool): Value {
  const invented = fc.constant(`${prefix}_00000000zzzz`);
  const known = pool[prefix];
  return known.length === 0 ? invented : fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...known) }, invented);
}

function stringOf(schema: Schema): Value {
  if (schema.format === 'date') {
    const day = fc.integer({ min: 0, max: 400 });
    return day.map((days) => new Date(Date.UTC(2026, 0, 1 + days)).toISOString().slice(0, 10));
  }
  const pattern = String(schema.pattern ?? '');
  const ids = /^\^([a-z]{2})_/.exec(pattern)?.[1];
  if (ids) return fc.constant(`${ids}_00000000zzzz`);
  if (pattern.includes('\\d{1,40}')) return fc.constantFrom('0', '7', '123456789');
  const min = Number(schema.minLength ?? 0);
  const max = Number(schema.maxLength ?? 40);
  const fits = texts.filter((text) => text.trim().length >= min && text.length <= max);
  const filled = fc.string({ minLength: min, maxLength: Math.min(max, min + 12) });
  return fits.length > 0 ? fc.oneof(fc.constantFrom(...fits), filled) : filled;
}

function numberOf(schema: Schema, whole: boolean): Value {
  const step = whole ? 1 : 0.001;
  const low = Number(
    schema.minimum ?? (schema.exclusiveMinimum === undefined ? 0 : Number(schema.exclusiveMinimum) + step),
  );
  const high = Number(
    schema.maximum ?? (schema.exclusiveMaximum === undefined ? low + 1_000 : Number(schema.exclusiveMaximum) - step),
  );
  const near = Math.min(high, low + 50);
  if (whole)
    return fc.oneof(
      fc.integer({ min: Math.ceil(low), max: Math.floor(near) }),
      fc.constantFrom(Math.ceil(low), Math.floor(high)),
    );
  return fc.oneof(
    fc.integer({ min: Math.ceil(low), max: Math.floor(Math.max(near, low)) }),
    fc.constantFrom(low, high, (low + near) / 2),
  );
}

function objectOf(schema: Schema, pool: Pool): Value {
  const properties = Object.entries((schema.properties ?? {}) as Json);
  const required = new Set((schema.required ?? []) as readonly string[]);
  const model: Record<string, Value> = {};
  for (const [name, value] of properties) model[name] = valid(value as Schema, pool, name);
  const requiredKeys = properties.map(([name]) => name).filter((name) => required.has(name));
  return fc.record(model, { requiredKeys, noNullPrototype: true });
}

/** Rows that the contract reads one by one have no schema of their own there: these are boards and parts as sent. */
function rowOf(name: string, pool: Pool): Value {
  const size = {
    lengthNm: fc.constantFrom(`8' 4 1/2"`, inch(60)),
    widthNm: fc.constantFrom('6 in', inch(3)),
    thicknessNm: fc.constantFrom('1 in', '8/4'),
  };
  const species = fc.constantFrom(...woods);
  const board = fc.record({ tag: byName('tag', pool, {}) ?? fc.constant('x'), species, ...size });
  const part = fc.record({
    key: fc.constantFrom('r1', 'r2', 'r3'),
    label: fc.constantFrom('Rail', '@Rail'),
    quantity: fc.integer({ min: 1, max: 3 }),
    species,
    lengthNm: fc.constant('20 in'),
    widthNm: fc.constant('3 in'),
    thicknessNm: fc.constant('3/4 in'),
  });
  return name === 'boards' ? board : name === 'parts' ? part : fc.oneof(board, part, fc.anything());
}

/** A value for this schema; name is the field it stands in. */
export function valid(schema: Schema, pool: Pool, name = ''): Value {
  const named = byName(name, pool, schema);
  if (named) return named;
  if ('const' in schema) return fc.constant(schema.const);
  if (Array.isArray(schema.enum)) return fc.constantFrom(...schema.enum);
  const either = (schema.anyOf ?? schema.oneOf) as readonly Schema[] | undefined;
  if (either) return fc.oneof(...either.map((one) => valid(one, pool, name)));
  switch (schema.type) {
    case 'object':
      return objectOf(schema, pool);
    case 'array':
      return fc.array(valid((schema.items ?? {}) as Schema, pool, name), {
        minLength: Number(schema.minItems ?? 0),
        maxLength: Math.min(Number(schema.maxItems ?? 3), Math.max(2, Number(schema.minItems ?? 0))),
      });
    case 'string':
      return stringOf(schema);
    case 'integer':
      return numberOf(schema, true);
    case 'number':
      return numberOf(schema, false);
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    default:
      return rowOf(name, pool);
  }
}
