/** One handler for each route of the contract; the type sees to it that none is missing. */
import { boardHandlers } from './routes/boards.ts';
import { jobHandlers } from './routes/jobs.ts';
import { planHandlers } from './routes/plans.ts';
import { sessionHandlers } from './routes/sessions.ts';
import { yardHandlers } from './routes/yard.ts';
import type { Handlers } from './serve.ts';

export const handlers: Handlers = {
  ...yardHandlers,
  ...boardHandlers,
  ...jobHandlers,
  ...planHandlers,
  ...sessionHandlers,
};
