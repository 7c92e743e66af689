/** The whole service, and beside it the yard's own door, so that a test can also read the journal as it lies there. */
import { createApp } from '../../worker/api/app.ts';
import type { QuestionName, Questions, YardDoor } from '../../worker/yard/command.ts';
import { Yard, type YardNamespace } from '../../worker/yard/yard.ts';
import type { YardCall } from './yard-call.ts';

interface Env {
  readonly ADMIN_KEY: string;
  readonly KEY_PEPPER: string;
  readonly YARD: YardNamespace;
}

const app = createApp<Env>({ door: (env, yardId) => env.YARD.getByName(yardId), nowMs: () => Date.now() });

function answerTo(call: YardCall, door: YardDoor): Promise<unknown> {
  switch (call.call) {
    case 'command':
      return door.command(call.asker, call.receipt, call.command, call.occasion);
    case 'ask':
      return door.ask(call.asker, call.name as QuestionName, call.ask as Questions[QuestionName]['ask']);
  }
}

export default {
  async fetch(request: Request, env: Env): Promise<Response> {
    if (new URL(request.url).pathname.startsWith('/v1/')) return app.fetch(request, env);
    const call: YardCall = await request.json();
    return Response.json(await answerTo(call, env.YARD.getByName(call.yardId)));
  },
};
export { Yard };
