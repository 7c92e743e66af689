/** The whole service, and beside it the least that a durable write can be: an object that does one SQLite insert a request. */
import { DurableObject } from 'cloudflare:workers';
import type { YardNamespace } from '../../worker/yard/yard.ts';
import service, { Yard } from '../slow/yard-worker.ts';

interface Env {
  readonly ADMIN_KEY: string;
  readonly KEY_PEPPER: string;
  readonly YARD: YardNamespace;
  readonly BARE: DurableObjectNamespace<Bare>;
}

export class Bare extends DurableObject {
  constructor(ctx: DurableObjectState, env: Cloudflare.Env) {
    super(ctx, env);
    ctx.storage.sql.exec('CREATE TABLE IF NOT EXISTS note (id INTEGER PRIMARY KEY, text TEXT NOT NULL)');
  }

  async note(text: string): Promise<number> {
    return Number(this.ctx.storage.sql.exec('INSERT INTO note (text) VALUES (?) RETURNING id', text).one().id);
  }
}

export default {
  async fetch(request: Request, env: Env): Promise<Response> {
    if (!request.url.endsWith('/bare')) return service.fetch(request, env);
    const id = await env.BARE.getByName('bare').note(await request.text());
    return Response.json({ id }, { status: 201 });
  },
};
export { Yard };
