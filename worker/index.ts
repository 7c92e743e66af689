/** The entry: the HTTP app and the Yard object, nothing else. */
import { createApp } from './api/app.ts';
import type { Env } from './api/serve.ts';
import type { YardDoor } from './yard/command.ts';
import { Yard } from './yard/yard.ts';

interface WorkerEnv extends Env {
  readonly YARD: DurableObjectNamespace<Yard>;
}

const app = createApp<WorkerEnv>({
  door: (env, yardId) => env.YARD.getByName(yardId) as unknown as YardDoor,
  nowMs: () => Date.now(),
});

export default app;
export { Yard };
