/**
 * Every route by name: method, path, what a key must be allowed to do, whether it writes (then an Idempotency-Key is
 * required) and whether it takes the version of the thing that it changes as If-Match. No schema here, so that the sidebar's
 * client can read this table without carrying zod; wire.ts gives each name its body and answer, route-words.ts says
 * what it is for.
 */
/** link: a link code may be changed for a key, once, and nothing else. */
export type Scope = 'read' | 'stock' | 'plan' | 'hold' | 'admin' | 'link';

/**
 * Goes up when a sidebar of before could misread an answer or miss a route that a person needs; the yard's facts carry it,
 * so that an older sidebar says that it should be reloaded.
 */
export const contractVersion = 2;

export interface Route {
  readonly method: 'GET' | 'POST' | 'PUT' | 'PATCH';
  readonly path: string;
  readonly scope: Scope;
  readonly writes: boolean;
  /** must: an edit of single fields, never without. may: where it is sent it has to be the present one. */
  readonly ifMatch?: 'must' | 'may';
  /** The body, or the answer, is a file that is never held whole. */
  readonly stream?: 'in' | 'out';
  /** Tells how far it is, line by line, when asked for application/x-ndjson. */
  readonly progress?: true;
}

export const routes = {
  readYard: {
    method: 'GET',
    path: '/v1/yard',
    scope: 'read',
    writes: false,
  },
  changeSettings: {
    method: 'PUT',
    path: '/v1/yard/settings',
    scope: 'admin',
    writes: true,
    ifMatch: 'may',
  },
  exportYard: { method: 'GET', path: '/v1/yard/archive', scope: 'admin', writes: false, stream: 'out' },
  checkYard: { method: 'GET', path: '/v1/yard/check', scope: 'admin', writes: false },
  restoreYard: { method: 'PUT', path: '/v1/yard/archive', scope: 'admin', writes: false, stream: 'in' },

  listKeys: { method: 'GET', path: '/v1/keys', scope: 'admin', writes: false },
  makeKey: { method: 'POST', path: '/v1/keys', scope: 'admin', writes: true },
  makeFeed: { method: 'POST', path: '/v1/feeds', scope: 'admin', writes: true },
  rotateKey: { method: 'POST', path: '/v1/keys/{id}/rotate', scope: 'admin', writes: true },
  revokeKey: { method: 'POST', path: '/v1/keys/{id}/revoke', scope: 'admin', writes: true },
  makeLinkCode: { method: 'POST', path: '/v1/link-codes', scope: 'admin', writes: true },
  useLinkCode: { method: 'POST', path: '/v1/link', scope: 'link', writes: true },

  takeInBoards: {
    method: 'POST',
    path: '/v1/boards',
    scope: 'stock',
    writes: true,
  },
  listBoards: { method: 'GET', path: '/v1/boards', scope: 'read', writes: false },
  readBoard: {
    method: 'GET',
    path: '/v1/boards/{id}',
    scope: 'read',
    writes: false,
  },
  drawBoard: {
    method: 'GET',
    path: '/v1/boards/{id}/drawing',
    scope: 'read',
    writes: false,
  },
  correctBoard: {
    method: 'PATCH',
    path: '/v1/boards/{id}',
    scope: 'stock',
    writes: true,
    ifMatch: 'must',
  },
  readMoisture: {
    method: 'POST',
    path: '/v1/boards/{id}/readings',
    scope: 'stock',
    writes: true,
  },
  writeOffBoard: {
    method: 'POST',
    path: '/v1/boards/{id}/write-off',
    scope: 'stock',
    writes: true,
  },
  boardStatus: {
    method: 'POST',
    path: '/v1/boards/status',
    scope: 'read',
    writes: false,
  },

  openJob: { method: 'POST', path: '/v1/jobs', scope: 'plan', writes: true },
  listJobs: { method: 'GET', path: '/v1/jobs', scope: 'read', writes: false },
  readJob: {
    method: 'GET',
    path: '/v1/jobs/{id}',
    scope: 'read',
    writes: false,
  },
  changeJob: {
    method: 'PATCH',
    path: '/v1/jobs/{id}',
    scope: 'plan',
    writes: true,
    ifMatch: 'must',
  },
  setCutList: {
    method: 'PUT',
    path: '/v1/jobs/{id}/cut-list',
    scope: 'plan',
    writes: true,
    ifMatch: 'may',
  },
  movePieces: {
    method: 'POST',
    path: '/v1/jobs/{id}/pieces',
    scope: 'plan',
    writes: true,
  },

  jobStatus: {
    method: 'GET',
    path: '/v1/jobs/{id}/status',
    scope: 'read',
    writes: false,
  },

  takeoffParts: {
    method: 'POST',
    path: '/v1/takeoff',
    scope: 'read',
    writes: false,
  },
  takeoffJob: {
    method: 'POST',
    path: '/v1/jobs/{id}/takeoff',
    scope: 'read',
    writes: false,
  },

  planJob: {
    method: 'POST',
    path: '/v1/jobs/{id}/plans',
    scope: 'plan',
    writes: true,
    progress: true,
  },
  planAlternatives: {
    method: 'POST',
    path: '/v1/jobs/{id}/alternatives',
    scope: 'plan',
    writes: false,
  },
  listPlans: {
    method: 'GET',
    path: '/v1/jobs/{id}/plans',
    scope: 'read',
    writes: false,
  },
  readPlan: {
    method: 'GET',
    path: '/v1/plans/{id}',
    scope: 'read',
    writes: false,
  },
  dropPlan: {
    method: 'POST',
    path: '/v1/plans/{id}/drop',
    scope: 'plan',
    writes: true,
    ifMatch: 'may',
  },
  reservePlan: {
    method: 'POST',
    path: '/v1/plans/{id}/reserve',
    scope: 'hold',
    writes: true,
    ifMatch: 'may',
  },

  reserve: {
    method: 'POST',
    path: '/v1/reservations',
    scope: 'hold',
    writes: true,
  },
  listReservations: { method: 'GET', path: '/v1/reservations', scope: 'read', writes: false },
  release: {
    method: 'POST',
    path: '/v1/reservations/release',
    scope: 'hold',
    writes: true,
  },

  openSession: {
    method: 'POST',
    path: '/v1/plans/{id}/sessions',
    scope: 'hold',
    writes: true,
    ifMatch: 'may',
  },
  listSessions: {
    method: 'GET',
    path: '/v1/sessions',
    scope: 'read',
    writes: false,
  },
  readSession: {
    method: 'GET',
    path: '/v1/sessions/{id}',
    scope: 'read',
    writes: false,
  },
  readCutCards: {
    method: 'GET',
    path: '/v1/sessions/{id}/cards',
    scope: 'read',
    writes: false,
  },
  reconcile: {
    method: 'POST',
    path: '/v1/sessions/{id}/reconcile',
    scope: 'hold',
    writes: true,
  },

  offcutUses: {
    method: 'POST',
    path: '/v1/offcuts/uses',
    scope: 'read',
    writes: false,
  },
  offcutHomes: {
    method: 'POST',
    path: '/v1/offcuts/homes',
    scope: 'read',
    writes: false,
  },

  listMovements: {
    method: 'GET',
    path: '/v1/movements',
    scope: 'read',
    writes: false,
  },
  undoMovement: {
    method: 'POST',
    path: '/v1/movements/{seq}/undo',
    scope: 'hold',
    writes: true,
  },

  listSpecies: {
    method: 'GET',
    path: '/v1/species',
    scope: 'read',
    writes: false,
  },
  woodVolume: {
    method: 'POST',
    path: '/v1/wood/volume',
    scope: 'read',
    writes: false,
  },
  woodDelivery: {
    method: 'POST',
    path: '/v1/wood/delivery',
    scope: 'read',
    writes: false,
  },
  woodWeight: {
    method: 'POST',
    path: '/v1/wood/weight',
    scope: 'read',
    writes: false,
  },
  woodAllowances: {
    method: 'POST',
    path: '/v1/wood/allowances',
    scope: 'read',
    writes: false,
  },
  woodEmc: {
    method: 'POST',
    path: '/v1/wood/emc',
    scope: 'read',
    writes: false,
  },
  woodWeighing: {
    method: 'POST',
    path: '/v1/wood/moisture',
    scope: 'read',
    writes: false,
  },
  woodMeter: {
    method: 'POST',
    path: '/v1/wood/meter',
    scope: 'read',
    writes: false,
  },
  woodShrinkage: {
    method: 'POST',
    path: '/v1/wood/shrinkage',
    scope: 'read',
    writes: false,
  },
  woodMovement: {
    method: 'POST',
    path: '/v1/wood/movement',
    scope: 'read',
    writes: false,
  },
  woodDrying: {
    method: 'POST',
    path: '/v1/wood/drying',
    scope: 'read',
    writes: false,
  },
  woodWarp: {
    method: 'POST',
    path: '/v1/wood/warp',
    scope: 'read',
    writes: false,
  },
  woodGrade: {
    method: 'POST',
    path: '/v1/wood/grade',
    scope: 'read',
    writes: false,
  },
  woodGlueUp: {
    method: 'POST',
    path: '/v1/wood/glue-up',
    scope: 'read',
    writes: false,
  },
  dryingReady: {
    method: 'POST',
    path: '/v1/drying/ready',
    scope: 'read',
    writes: false,
  },
  boardsDrying: {
    method: 'POST',
    path: '/v1/drying/boards',
    scope: 'read',
    writes: false,
  },
  checkDelivery: {
    method: 'POST',
    path: '/v1/deliveries/check',
    scope: 'read',
    writes: false,
  },
  gradeBoard: {
    method: 'POST',
    path: '/v1/boards/{id}/grade',
    scope: 'read',
    writes: false,
  },
  glueUpSheet: {
    method: 'POST',
    path: '/v1/jobs/{id}/glue-up/sheet',
    scope: 'read',
    writes: false,
  },
  glueUpJob: {
    method: 'POST',
    path: '/v1/jobs/{id}/glue-up',
    scope: 'read',
    writes: false,
  },
} as const satisfies Record<string, Route>;

export type RouteName = keyof typeof routes;
