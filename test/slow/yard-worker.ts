/** The Yard object behind the thinnest possible HTTP, so that load and kills meet the yard and nothing else. */
import type { QuestionName, Questions } from '../../worker/yard/command.ts';
import { Yard, type YardNamespace } from '../../worker/yard/yard.ts';
import type { YardCall } from './yard-call.ts';

async function answerTo(call: YardCall, door: ReturnType<YardNamespace['getByName']>): Promise<unknown> {
  switch (call.call) {
    case 'found':
      return door.found(call.input);
    case 'command':
      return door.command(call.asker, call.receipt, call.command, call.occasion);
    case 'ask':
      return door.ask(call.asker, call.name as QuestionName, call.ask as Questions[QuestionName]['ask']);
  }
}

export default {
  async fetch(request: Request, env: { readonly YARD: YardNamespace }): Promise<Response> {
    const call: YardCall = await request.json();
    return Response.json(await answerTo(call, env.YARD.getByName('oakyard')));
  },
};
export { Yard };
