/** The HTTP app: every route of the contract, the founding of yards, health and the document. It knows the yard only by its door. */
import { Hono } from 'hono';
import * as z from 'zod';
import { type RouteName, routes } from '../contract/routes.ts';
import { check, parseJson, readText } from './body.ts';
import { handlers } from './handlers.ts';
import { digestsEqual, mintKey, newYardId } from './key.ts';
import { openApiDocument } from './open-api.ts';
import { problemResponse, refusalResponse } from './problem.ts';
import { type Ctx, type Deps, type Env, serve, type Vars } from './serve.ts';

/** {id} of the contract in the router's spelling. */
const routerPath = (path: string) => path.replaceAll(/\{(\w+)\}/g, ':$1');

function newRequestId(): string {
  return `rq_${crypto.randomUUID().replaceAll('-', '').slice(0, 16)}`;
}

const founding = z.strictObject({ name: z.string().trim().min(1, 'a yard needs a name').max(120) });

/** Founds a yard: only for who runs the service, by the admin key. */
function foundYard<E extends Env>(deps: Deps<E>) {
  return async function foundYardRoute(c: Ctx<E>): Promise<Response> {
    const instance = c.get('requestId');
    const said = /^Bearer\s+(\S+)$/i.exec(c.req.header('authorization') ?? '')?.[1] ?? '';
    if (!c.env.ADMIN_KEY || !digestsEqual(said, c.env.ADMIN_KEY)) {
      return problemResponse('wrong-key', 'Founding a yard needs the admin key of this service.', instance);
    }
    const text = await readText(c.req.raw);
    if (!text.ok) return refusalResponse(text.refusal, instance);
    const json = parseJson(c.req.raw, text.value);
    if (!json.ok) return refusalResponse(json.refusal, instance);
    const body = check(founding, json.value);
    if (!body.ok) return refusalResponse(body.refusal, instance);
    const yardId = await newYardId(c.env.KEY_PEPPER);
    const minted = await mintKey(yardId, c.env.KEY_PEPPER);
    await deps.door(c.env, yardId).found({
      yardId,
      name: body.value.name,
      key: {
        keyId: minted.keyId,
        digest: minted.digest,
        label: 'first key',
        scopes: ['read', 'stock', 'plan', 'hold', 'admin'],
      },
    });
    return Response.json({ yardId, key: minted.key }, { status: 201, headers: { 'cache-control': 'no-store' } });
  };
}

function methodsAt(pathname: string): string[] {
  return Object.values(routes)
    .filter((route) => new RegExp(`^${route.path.replaceAll(/\{\w+\}/g, '[^/]+')}$`).test(pathname))
    .map((route) => route.method);
}

export function createApp<E extends Env>(deps: Deps<E>) {
  const app = new Hono<{ Bindings: E; Variables: Vars }>();

  app.use('*', async (c, next) => {
    c.set('requestId', newRequestId());
    await next();
    c.header('x-request-id', c.get('requestId'));
    c.header('x-content-type-options', 'nosniff');
    c.header('referrer-policy', 'no-referrer');
  });

  app.get('/v1/health', (c) => c.json({ ok: true }));
  app.get('/v1/openapi.json', (c) => c.json(openApiDocument()));
  app.post('/v1/yards', foundYard(deps));
  for (const name of Object.keys(routes) as RouteName[]) {
    const route = routes[name];
    app.on(route.method, routerPath(route.path), serve(name, handlers[name] as never, deps));
  }

  app.notFound((c) => {
    const allowed = methodsAt(new URL(c.req.url).pathname);
    const instance = c.get('requestId') ?? newRequestId();
    if (allowed.length > 0) {
      return problemResponse('method-not-allowed', `This address takes ${allowed.join(', ')}.`, instance, {
        headers: { allow: allowed.join(', ') },
      });
    }
    return problemResponse(
      'not-found',
      'There is nothing at this address. The routes stand in /v1/openapi.json.',
      instance,
    );
  });
  app.onError((error, c) => {
    const instance = c.get('requestId') ?? newRequestId();
    console.error(
      JSON.stringify({
        level: 'error',
        instance,
        method: c.req.method,
        path: new URL(c.req.url).pathname,
        error: error.name,
        message: error.message,
        stack: error.stack,
      }),
    );
    return problemResponse(
      'internal',
      `Nothing was changed. Try again; if it stays, tell us this number: ${instance}`,
      instance,
    );
  });
  return app;
}
