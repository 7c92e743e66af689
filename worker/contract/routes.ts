/**
 * Every route by name: method, path, what a key must be allowed to do, whether it writes (then an Idempotency-Key is
 * required) and whether it edits one thing (then If-Match carries its version). No schema here, so that the sidebar's
 * client can read this table without carrying zod; wire.ts gives each name its body and answer.
 */
export type Scope = 'read' | 'stock' | 'plan' | 'hold' | 'admin';

export interface Route {
  readonly method: 'GET' | 'POST' | 'PUT' | 'PATCH';
  readonly path: string;
  readonly scope: Scope;
  readonly writes: boolean;
  readonly edits?: true;
  readonly says: string;
}

export const routes = {
  readYard: {
    method: 'GET',
    path: '/v1/yard',
    scope: 'read',
    writes: false,
    says: 'The yard: name, settings, counts.',
  },
  changeSettings: {
    method: 'PUT',
    path: '/v1/yard/settings',
    scope: 'admin',
    writes: true,
    says: "Change the shop's own figures.",
  },

  takeInBoards: {
    method: 'POST',
    path: '/v1/boards',
    scope: 'stock',
    writes: true,
    says: 'Take in boards; faulty rows are listed, good rows kept unless allOrNothing.',
  },
  listBoards: { method: 'GET', path: '/v1/boards', scope: 'read', writes: false, says: 'Boards by page and filter.' },
  readBoard: {
    method: 'GET',
    path: '/v1/boards/{id}',
    scope: 'read',
    writes: false,
    says: 'One board, with who holds it.',
  },
  drawBoard: {
    method: 'GET',
    path: '/v1/boards/{id}/drawing',
    scope: 'read',
    writes: false,
    says: 'The board drawn with its defects and held runs.',
  },
  correctBoard: {
    method: 'PATCH',
    path: '/v1/boards/{id}',
    scope: 'stock',
    writes: true,
    edits: true,
    says: 'Correct what is known of a board: sizes, defects, warp, place.',
  },
  readMoisture: {
    method: 'POST',
    path: '/v1/boards/{id}/readings',
    scope: 'stock',
    writes: true,
    says: 'Add moisture readings.',
  },
  writeOffBoard: {
    method: 'POST',
    path: '/v1/boards/{id}/write-off',
    scope: 'stock',
    writes: true,
    says: 'Write a board off, with the reason.',
  },
  boardStatus: {
    method: 'POST',
    path: '/v1/boards/status',
    scope: 'read',
    writes: false,
    says: 'Status of many tags in one call, for the rows of a sheet.',
  },

  openJob: { method: 'POST', path: '/v1/jobs', scope: 'plan', writes: true, says: 'Open a job.' },
  listJobs: { method: 'GET', path: '/v1/jobs', scope: 'read', writes: false, says: 'Jobs with where they stand.' },
  readJob: {
    method: 'GET',
    path: '/v1/jobs/{id}',
    scope: 'read',
    writes: false,
    says: 'A job with its parts and every piece.',
  },
  changeJob: {
    method: 'PATCH',
    path: '/v1/jobs/{id}',
    scope: 'plan',
    writes: true,
    edits: true,
    says: 'Rename, date, finish or cancel a job.',
  },
  setCutList: {
    method: 'PUT',
    path: '/v1/jobs/{id}/cut-list',
    scope: 'plan',
    writes: true,
    says: "Set the job's cut list: a new revision; pieces already cut are kept.",
  },
  movePieces: {
    method: 'POST',
    path: '/v1/jobs/{id}/pieces',
    scope: 'plan',
    writes: true,
    says: 'Pass or fail pieces after the rest, glue up, mill.',
  },

  takeoffParts: {
    method: 'POST',
    path: '/v1/takeoff',
    scope: 'read',
    writes: false,
    says: 'Takeoff of rows sent along.',
  },
  takeoffJob: {
    method: 'POST',
    path: '/v1/jobs/{id}/takeoff',
    scope: 'read',
    writes: false,
    says: "Takeoff of a job's cut list.",
  },

  planJob: {
    method: 'POST',
    path: '/v1/jobs/{id}/plans',
    scope: 'plan',
    writes: true,
    says: 'Plan the cutting of what is still wanted; the plan is kept as a draft.',
  },
  listPlans: {
    method: 'GET',
    path: '/v1/jobs/{id}/plans',
    scope: 'read',
    writes: false,
    says: "A job's plans, newest first.",
  },
  readPlan: {
    method: 'GET',
    path: '/v1/plans/{id}',
    scope: 'read',
    writes: false,
    says: 'A plan with its layouts and drawings.',
  },
  dropPlan: {
    method: 'POST',
    path: '/v1/plans/{id}/drop',
    scope: 'plan',
    writes: true,
    says: 'Drop a plan; its boards are released, its pieces wanted again.',
  },
  reservePlan: {
    method: 'POST',
    path: '/v1/plans/{id}/reserve',
    scope: 'hold',
    writes: true,
    says: 'Hold what the plan uses.',
  },

  reserve: {
    method: 'POST',
    path: '/v1/reservations',
    scope: 'hold',
    writes: true,
    says: 'Hold boards, or runs of their length, for a job; all or none.',
  },
  listReservations: { method: 'GET', path: '/v1/reservations', scope: 'read', writes: false, says: 'Who holds what.' },
  release: {
    method: 'POST',
    path: '/v1/reservations/release',
    scope: 'hold',
    writes: true,
    says: 'Release reservations.',
  },

  openSession: {
    method: 'POST',
    path: '/v1/plans/{id}/sessions',
    scope: 'hold',
    writes: true,
    says: 'Open a cutting session for a reserved plan.',
  },
  listSessions: {
    method: 'GET',
    path: '/v1/sessions',
    scope: 'read',
    writes: false,
    says: 'Cutting sessions, newest first.',
  },
  readSession: {
    method: 'GET',
    path: '/v1/sessions/{id}',
    scope: 'read',
    writes: false,
    says: 'A session with its layouts.',
  },
  readCutCards: {
    method: 'GET',
    path: '/v1/sessions/{id}/cards',
    scope: 'read',
    writes: false,
    says: 'The printable cut cards, one a board (HTML).',
  },
  reconcile: {
    method: 'POST',
    path: '/v1/sessions/{id}/reconcile',
    scope: 'hold',
    writes: true,
    says: 'Write down what really came out of the boards.',
  },

  offcutUses: {
    method: 'POST',
    path: '/v1/offcuts/uses',
    scope: 'read',
    writes: false,
    says: 'What this piece can still make, over all open jobs.',
  },
  offcutHomes: {
    method: 'POST',
    path: '/v1/offcuts/homes',
    scope: 'read',
    writes: false,
    says: 'The best board or offcut for this part.',
  },

  listMovements: {
    method: 'GET',
    path: '/v1/movements',
    scope: 'read',
    writes: false,
    says: 'The journal, newest first.',
  },
  undoMovement: {
    method: 'POST',
    path: '/v1/movements/{seq}/undo',
    scope: 'hold',
    writes: true,
    says: 'Turn a movement round by a counter-movement.',
  },

  listSpecies: {
    method: 'GET',
    path: '/v1/species',
    scope: 'read',
    writes: false,
    says: 'The woods: every figure of each with its source.',
  },
  woodVolume: {
    method: 'POST',
    path: '/v1/wood/volume',
    scope: 'read',
    writes: false,
    says: 'Board feet, cubic metres, surface measure and tally of boards; dressed softwood.',
  },
  woodDelivery: {
    method: 'POST',
    path: '/v1/wood/delivery',
    scope: 'read',
    writes: false,
    says: 'A delivery tallied against the bill, with the difference in money.',
  },
  woodWeight: {
    method: 'POST',
    path: '/v1/wood/weight',
    scope: 'read',
    writes: false,
    says: 'Weight of boards and parts at any moisture content, and loads.',
  },
  woodAllowances: {
    method: 'POST',
    path: '/v1/wood/allowances',
    scope: 'read',
    writes: false,
    says: 'Rough allowances and kerfs, with the rough size of a finished one.',
  },
  woodEmc: {
    method: 'POST',
    path: '/v1/wood/emc',
    scope: 'read',
    writes: false,
    says: 'What the air brings wood to, or the humidity that a moisture content needs.',
  },
  woodWeighing: {
    method: 'POST',
    path: '/v1/wood/moisture',
    scope: 'read',
    writes: false,
    says: 'Moisture by weight, by sample, by wet basis; the most water a wood holds.',
  },
  woodMeter: {
    method: 'POST',
    path: '/v1/wood/meter',
    scope: 'read',
    writes: false,
    says: 'A meter reading: how far to trust it, corrected for temperature.',
  },
  woodShrinkage: {
    method: 'POST',
    path: '/v1/wood/shrinkage',
    scope: 'read',
    writes: false,
    says: 'Size later for a size now, or what to cut now for a size later.',
  },
  woodMovement: {
    method: 'POST',
    path: '/v1/wood/movement',
    scope: 'read',
    writes: false,
    says: 'Movement through the year: panels, grooves, drawers, slots, and its plot.',
  },
  woodDrying: {
    method: 'POST',
    path: '/v1/wood/drying',
    scope: 'read',
    writes: false,
    says: 'When stock will be ready: always a range, with its plot.',
  },
  woodWarp: {
    method: 'POST',
    path: '/v1/wood/warp',
    scope: 'read',
    writes: false,
    says: 'What a warped board still gives, whole, crosscut or in pieces.',
  },
  woodGrade: {
    method: 'POST',
    path: '/v1/wood/grade',
    scope: 'read',
    writes: false,
    says: 'The hardwood grade by measured defects, its clear cuttings drawn.',
  },
  woodGlueUp: {
    method: 'POST',
    path: '/v1/wood/glue-up',
    scope: 'read',
    writes: false,
    says: 'Layers, glue, clamps, batches and checklist of a glue-up.',
  },
  dryingReady: {
    method: 'POST',
    path: '/v1/drying/ready',
    scope: 'read',
    writes: false,
    says: 'Which boards of the yard are or become ready by a day, and why not.',
  },
  glueUpJob: {
    method: 'POST',
    path: '/v1/jobs/{id}/glue-up',
    scope: 'read',
    writes: false,
    says: "Glue-up of a job's laminated parts, with the moisture of their boards.",
  },
} as const satisfies Record<string, Route>;

export type RouteName = keyof typeof routes;
