/** Stands in for a yard before one is connected: whatever is asked of it says so. */
import type { Problem } from '../../../worker/contract/problem.ts';
import type { YardApi } from '../api.ts';

const problem: Problem = {
  type: 'about:blank',
  title: 'Not connected to a yard yet',
  status: 401,
  detail: 'Connect the sidebar to do that.',
  instance: '',
};

export const unconnected: YardApi = {
  name: 'no yard',
  call: async () => ({ ok: false, problem }),
  followPlan: async () => ({ ok: false, problem }),
};
