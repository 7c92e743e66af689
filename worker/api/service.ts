/** What only who runs the service may do, by the admin key: found a yard, and give an owner's key to a shop that lost its last. */
import * as z from 'zod';
import { roleScopes } from '../contract/key.ts';
import { check, parseJson, type Read, readText } from './body.ts';
import { digestsEqual, fingerprintOf, isOurYardId, keyText, mintKey, newYardId } from './key.ts';
import { problemResponse, refusalResponse } from './problem.ts';
import type { Ctx, Deps, Env } from './serve.ts';

export const founding = z.strictObject({ name: z.string().trim().min(1, 'a yard needs a name').max(120) });
export const founded = z.strictObject({ yardId: z.string(), key: z.string() });

/** Compared by their digests, so that not even the length of the admin key shows in the time it takes. */
async function isAdmin<E extends Env>(c: Ctx<E>): Promise<boolean> {
  const said = /^Bearer +(\S+)$/i.exec(c.req.header('authorization') ?? '')?.[1] ?? '';
  const [a, b] = await Promise.all([fingerprintOf(said), fingerprintOf(c.env.ADMIN_KEY ?? '')]);
  return Boolean(c.env.ADMIN_KEY) && digestsEqual(a, b);
}

async function bodyOf<S extends z.ZodType>(c: Ctx<Env>, schema: S): Promise<Read<z.output<S>>> {
  const text = await readText(c.req.raw);
  if (!text.ok) return text;
  const json = parseJson(c.req.raw, text.value);
  return json.ok ? check(schema, json.value) : json;
}

const madeResponse = (yardId: string, key: string) =>
  Response.json({ yardId, key }, { status: 201, headers: { 'cache-control': 'no-store' } });

export function foundYard<E extends Env>(deps: Deps<E>) {
  return async function foundYardRoute(c: Ctx<E>): Promise<Response> {
    const instance = c.get('requestId');
    if (!(await isAdmin(c))) {
      return problemResponse('wrong-key', 'Founding a yard needs the admin key of this service.', instance);
    }
    const body = await bodyOf(c as unknown as Ctx<Env>, founding);
    if (!body.ok) return refusalResponse(body.refusal, instance);
    const yardId = await newYardId(c.env.KEY_PEPPER);
    const minted = await mintKey(c.env.KEY_PEPPER);
    const { keyId, digest } = minted;
    const key = { keyId, digest, label: 'first key', scopes: roleScopes.owner };
    await deps.door(c.env, yardId).found({ yardId, name: body.value.name, key });
    return madeResponse(yardId, keyText(yardId, minted));
  };
}

export function giveOwnerKey<E extends Env>(deps: Deps<E>) {
  return async function giveOwnerKeyRoute(c: Ctx<E>): Promise<Response> {
    const instance = c.get('requestId');
    if (!(await isAdmin(c))) {
      return problemResponse('wrong-key', "Giving out an owner's key needs the admin key of this service.", instance);
    }
    const yardId = c.req.param('id') ?? '';
    const minted = await mintKey(c.env.KEY_PEPPER);
    const { keyId, digest } = minted;
    const key = { keyId, digest, label: 'owner, given by the service', scopes: roleScopes.owner };
    const given = (await isOurYardId(yardId, c.env.KEY_PEPPER)) && (await deps.door(c.env, yardId).giveOwnerKey(key));
    return given !== false && given.given
      ? madeResponse(yardId, keyText(yardId, minted))
      : problemResponse('not-found', 'There is no such yard.', instance);
  };
}
