/** The entry: the HTTP app and the Yard object, nothing else. */
import { createApp } from './api/app.ts';
import type { Env } from './api/serve.ts';
import { Yard, type YardNamespace } from './yard/yard.ts';

interface WorkerEnv extends Env {
  readonly YARD: YardNamespace;
}

const app = createApp<WorkerEnv>({
  door: (env, yardId) => env.YARD.getByName(yardId),
  nowMs: () => Date.now(),
});

export default app;
export { Yard };
