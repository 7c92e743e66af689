/** The entry: the HTTP app and the Yard object, nothing else. */
import { createApp } from './api/app.ts';
import { BucketLimiter, boundLimiter, type RateBindings } from './api/limiter.ts';
import { consoleLog } from './api/log.ts';
import type { Env } from './api/serve.ts';
import { Yard, type YardNamespace } from './yard/yard.ts';

interface WorkerEnv extends Env, RateBindings {
  readonly YARD: YardNamespace;
}

const nowMs = () => Date.now();
const bucket = new BucketLimiter(nowMs);

const app = createApp<WorkerEnv>({
  door: (env, yardId) => env.YARD.getByName(yardId),
  nowMs,
  log: consoleLog,
  limiter: (env) => boundLimiter(env, bucket),
});

export default app;
export { Yard };
