/** The Yard object alone, for tests in the real runtime; nothing of HTTP. */
import { Yard } from '../../worker/yard/yard.ts';

export default {
  fetch(): Response {
    return new Response('a yard answers to its own calls only', { status: 404 });
  },
};
export { Yard };
