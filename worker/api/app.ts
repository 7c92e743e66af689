/** The HTTP app: every route of the contract, and those of the service itself. It knows the yard only by its door. */
import { Hono } from 'hono';
import { limits } from '../contract/limits.ts';
import { type RouteName, routes } from '../contract/routes.ts';
import { serveFeed } from './feeds.ts';
import { front, newRequestId } from './front.ts';
import { handlers } from './handlers.ts';
import { errorLine } from './log.ts';
import { openApiDocument } from './open-api.ts';
import { Busy, patientDoor, Turnstile } from './patient-door.ts';
import { problemResponse, refusalResponse } from './problem.ts';
import { RememberingRouter } from './router.ts';
import { type Deps, type Env, type Inside, serve, type Vars } from './serve.ts';
import { foundYard, giveOwnerKey, health, metrics } from './service.ts';
import { Tally } from './tally.ts';

/** {id} of the contract in the router's spelling. */
const routerPath = (path: string) => path.replaceAll(/\{(\w+)\}/g, ':$1');

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

const busy = (instance: string) =>
  refusalResponse({ why: 'busy', detail: 'Too much at once just now. Try again in a moment; it is safe.' }, instance);

export function createApp<E extends Env>(deps: Deps<E>) {
  const app = new Hono<{ Bindings: E; Variables: Vars }>({ router: new RememberingRouter() });
  const log = deps.log ?? (() => {});
  const tally = new Tally(deps.nowMs());
  const calls = new Turnstile(limits.callsPerYardAtOnce);
  const inside: Inside<E> = {
    ...deps,
    door: (env, yardId) => patientDoor(deps.door(env, yardId), yardId, calls),
    heavy: new Turnstile(limits.plansAtOnce),
  };

  app.use('*', front<E>({ nowMs: deps.nowMs, log, tally, limiter: (env) => deps.limiter?.(env) ?? null }));
  app.get('/v1/health', health);
  app.get('/v1/openapi.json', (c) => {
    c.set('seen', { route: 'openApi' });
    return c.json(openApiDocument());
  });
  app.get('/v1/metrics', metrics(tally));
  app.post('/v1/yards', foundYard(inside));
  app.post('/v1/yards/:id/owner-key', giveOwnerKey(inside));
  app.get('/feeds/:file', serveFeed(inside));
  for (const name of Object.keys(routes) as RouteName[]) {
    const route = routes[name];
    app.on(route.method, routerPath(route.path), serve(name, handlers[name] as never, inside));
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
    if (error instanceof Busy) return busy(instance);
    log(errorLine(error, instance, c.get('seen')?.route ?? 'none', deps.nowMs()));
    return problemResponse(
      'internal',
      `Nothing was changed. Try again; if it stays, tell us this number: ${instance}`,
      instance,
    );
  });
  return app;
}
