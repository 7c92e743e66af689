/** One handler for each route of the contract; the type sees to it that none is missing. */
import { archiveHandlers } from './routes/archive.ts';
import { boardHandlers } from './routes/boards.ts';
import { jobHandlers } from './routes/jobs.ts';
import { keyHandlers } from './routes/keys.ts';
import { planHandlers } from './routes/plans.ts';
import { sessionHandlers } from './routes/sessions.ts';
import { woodDeliveryHandlers } from './routes/wood-delivery.ts';
import { woodDryingHandlers } from './routes/wood-drying.ts';
import { woodGlueUpHandlers } from './routes/wood-glue-up.ts';
import { woodMoistureHandlers } from './routes/wood-moisture.ts';
import { woodMovementHandlers } from './routes/wood-movement.ts';
import { woodSizeHandlers } from './routes/wood-size.ts';
import { woodWorkHandlers } from './routes/wood-work.ts';
import { yardHandlers } from './routes/yard.ts';
import type { Handlers } from './serve.ts';

export const handlers: Handlers = {
  ...yardHandlers,
  ...archiveHandlers,
  ...keyHandlers,
  ...boardHandlers,
  ...jobHandlers,
  ...planHandlers,
  ...sessionHandlers,
  ...woodSizeHandlers,
  ...woodMoistureHandlers,
  ...woodMovementHandlers,
  ...woodDeliveryHandlers,
  ...woodDryingHandlers,
  ...woodWorkHandlers,
  ...woodGlueUpHandlers,
};
