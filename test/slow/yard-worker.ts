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

type DoorOf = (yardId: string) => YardDoor;

function answerTo(call: YardCall, doorOf: DoorOf): Promise<unknown> {
  switch (call.call) {
    case 'burst':
      return Promise.all(call.calls.map((each) => answerTo(each, doorOf)));
    case 'command':
      return doorOf(call.yardId)
        .command(call.asker, call.receipt, call.command, call.occasion)
        .catch((fault: unknown) => {
          throw new Error(`${String(fault)} at ${JSON.stringify(call.command)}`);
        });
    case 'ask':
      return doorOf(call.yardId).ask(call.asker, call.name as QuestionName, call.ask as Questions[QuestionName]['ask']);
  }
}

/** Whether the address is the root: told without reading it as a URL, for this stands before each request that is timed. */
const isRoot = (url: string) => url.indexOf('/', 'https://'.length) === url.length - 1;

export default {
  async fetch(request: Request, env: Env): Promise<Response> {
    if (!isRoot(request.url)) return app.fetch(request, env);
    const call: YardCall = await request.json();
    try {
      return Response.json(await answerTo(call, (yardId) => env.YARD.getByName(yardId)));
    } catch (fault) {
      return new Response(fault instanceof Error ? fault.message : String(fault), { status: 500 });
    }
  },
};
export { Yard };
