/** A yard with one of everything: boards, a job cut to its plan and session, holds, keys, a feed. */
import type { Pool } from './from-schema.ts';

export interface Seeding {
  /** Sends with the owner's key; throws for anything but success. */
  readonly send: (method: string, path: string, body?: unknown) => Promise<unknown>;
  /** Stands in every name of this yard, so that another yard's eyes can be told from this one's. */
  readonly mark: string;
}

type Named = { readonly id: string };
type Items = { readonly items: readonly Named[] };

const part = (key: string, label: string) => ({
  key,
  label,
  quantity: 2,
  species: 'white oak',
  lengthNm: '30 in',
  widthNm: '3 in',
  thicknessNm: '1 in',
});

export async function seedYard({ send, mark }: Seeding): Promise<Pool> {
  const board = (tag: string) => ({
    tag,
    species: 'white oak',
    lengthNm: `8'`,
    widthNm: '8 in',
    thicknessNm: '8/4',
    place: mark,
    delivery: 'mill lot 7',
    readings: [{ moisturePercent: 8, on: '2026-11-01' }],
  });
  await send('POST', '/v1/boards', { boards: ['F-1', 'F-2', 'F-3', 'F-4', 'F-5'].map(board), allOrNothing: true });
  const job = (await send('POST', '/v1/jobs', { name: `Table ${mark}` })) as Named;
  const other = (await send('POST', '/v1/jobs', { name: `Bench ${mark}` })) as Named;
  await send('PUT', `/v1/jobs/${job.id}/cut-list`, { parts: [part('r1', `Rail ${mark}`)] });
  await send('PUT', `/v1/jobs/${other.id}/cut-list`, {
    parts: [part('r1', `Slat ${mark}`), part('r2', `Leg ${mark}`)],
  });
  const boards = (await send('GET', '/v1/boards')) as Items;
  const boardIds = boards.items.slice(0, 2).map((item) => item.id);
  const plan = (await send('POST', `/v1/jobs/${job.id}/plans`, { boardIds, effort: 'quick' })) as Named;
  await send('POST', `/v1/plans/${plan.id}/reserve`, {});
  const session = (await send('POST', `/v1/plans/${plan.id}/sessions`, {})) as Named;
  const draft = (await send('POST', `/v1/jobs/${other.id}/plans`, { effort: 'quick' })) as Named;
  await send('POST', '/v1/reservations', { jobId: other.id, boards: [{ tag: 'F-5' }] });
  const key = (await send('POST', '/v1/keys', { label: `Tablet ${mark}`, role: 'hand' })) as { readonly key: Named };
  const holds = (await send('GET', '/v1/reservations')) as Items;
  const ids = (list: Items) => list.items.map((item) => item.id);
  return {
    bd: ids(boards),
    jb: [job.id, other.id],
    pl: [plan.id, draft.id],
    rs: ids(holds),
    cs: [session.id],
    key: [key.key.id],
    seq: ['2', '3', '9'],
  };
}

/** Which kind of thing the {id} of a path names. */
export function idKind(path: string): keyof Pool {
  const before = /\/(\w[\w-]*)\/\{\w+\}/.exec(path)?.[1] ?? '';
  const kinds: Readonly<Record<string, keyof Pool>> = {
    boards: 'bd',
    jobs: 'jb',
    plans: 'pl',
    sessions: 'cs',
    keys: 'key',
    movements: 'seq',
  };
  const kind = kinds[before];
  if (!kind) throw new Error(`say in seed.ts which thing ${path} names`);
  return kind;
}
