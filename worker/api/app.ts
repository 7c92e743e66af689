/** The HTTP app: every route of the contract, the founding of yards, health and the document. It knows the yard only by its door. */
import { Hono } from 'hono';
import { type RouteName, routes } from '../contract/routes.ts';
import { serveFeed } from './feeds.ts';
import { handlers } from './handlers.ts';
import { openApiDocument } from './open-api.ts';
import { problemResponse } from './problem.ts';
import { type Deps, type Env, serve, type Vars } from './serve.ts';
import { foundYard, giveOwnerKey } from './service.ts';

/** {id} of the contract in the router's spelling. */
const routerPath = (path: string) => path.replaceAll(/\{(\w+)\}/g, ':$1');

function newRequestId(): string {
  return `rq_${crypto.randomUUID().replaceAll('-', '').slice(0, 16)}`;
}

/** The methods that an address takes, of all routes registered. */
function methodsAt(
  registered: readonly { readonly method: string; readonly path: string }[],
  pathname: string,
): string[] {
  const found = registered
    .filter(
      ({ method, path }) => method !== 'ALL' && new RegExp(`^${path.replaceAll(/:\w+/g, '[^/]+')}$`).test(pathname),
    )
    .map(({ method }) => method);
  return [...new Set(found)];
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
  app.post('/v1/yards/:id/owner-key', giveOwnerKey(deps));
  app.get('/feeds/:file', serveFeed(deps));
  for (const name of Object.keys(routes) as RouteName[]) {
    const route = routes[name];
    app.on(route.method, routerPath(route.path), serve(name, handlers[name] as never, deps));
  }

  app.notFound((c) => {
    const allowed = methodsAt(app.routes, new URL(c.req.url).pathname);
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
