/**
 * `node test/bench/large-yard.ts [boards] [movements]`: what things cost in a yard of 100,000 boards and 1,000,000 movements
 * against one of 1,000 boards and 10,000 movements, in the same runtime, turn by turn. Prints a line a measurement and
 * writes test/bench/large-yard.svg. Per item: a row of a page, a hold, a movement of the export.
 */
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BoardFilter, Questions } from '../../worker/yard/command.ts';
import { FarYard } from '../slow/far-yard.ts';
import { RawWorkerd } from '../slow/raw-workerd.ts';
import { writeLargeYard } from './large-journal.ts';
import { ratioPlot } from './ratio-plot.ts';

const INCH = 25_400_000;
const TURNS = 15;
const large = { boards: Number(process.argv[2] ?? 100_000), movements: Number(process.argv[3] ?? 1_000_000) };
const small = { boards: 1_000, movements: 10_000 };

const runtime = await RawWorkerd.with(new URL('../slow/yard-worker.ts', import.meta.url));
const yards: FarYard[] = [];
for (const size of [small, large]) {
  const before = new Set(readdirSync(runtime.files, { recursive: true, encoding: 'utf8' }));
  yards.push(await FarYard.found(runtime.url));
  await runtime.kill();
  const made = readdirSync(runtime.files, { recursive: true, encoding: 'utf8' });
  const file = made.find((name) => name.endsWith('.sqlite') && !before.has(name));
  if (!file) throw new Error('the yard has no file');
  const fromMs = performance.now();
  writeLargeYard(join(runtime.files, file), size);
  console.log(
    `${size.boards} boards, ${size.movements} movements written in ${Math.round(performance.now() - fromMs)} ms`,
  );
  await runtime.start();
}

/** How many items the work had. */
type Work = (yard: FarYard, turn: number) => Promise<number>;

const list =
  (filter: BoardFilter): Work =>
  async (yard) =>
    (await yard.ask('boards', { filter, page: { after: null, limit: 100 } })).items.length;

const jobs = new Map<FarYard, string>();
for (const yard of yards) jobs.set(yard, await yard.job('Hall table'));

const works: Readonly<Record<string, Work>> = {
  'list, a page of 100': list({}),
  'filter: species and thickness': list({ species: 'walnut', thicknessNmMin: 2 * INCH }),
  'filter: free, long and dry': list({ free: true, lengthNmMin: 140 * INCH, moisturePercentMax: 7 }),
  'filter: a word in the note': list({ q: 'curly' }),
  'filter: one tag': list({ q: 'q-77' }),
  'status of 500 tags': async (yard) => {
    const tags = Array.from({ length: 500 }, (_, at) => `Q-${at * 2}`);
    return (await yard.ask('tag-status', { tags })).boards.length;
  },
  'facts of the yard': async (yard) => ((await yard.ask('yard-facts', {})).seq > 0 ? 1 : 0),
  'hold a run': async (yard, turn) => {
    for (let no = 0; no < 20; no++) {
      const boards = [{ tag: `Q-${turn * 20 + no}`, fromNm: turn * INCH, toNm: (turn + 1) * INCH }];
      await yard.tell({ do: 'reserve', jobId: jobs.get(yard) ?? '', boards });
    }
    return 20;
  },
  'journal, a page of 100': async (yard) =>
    (await yard.ask('movements', { page: { after: null, limit: 100 } })).items.length,
  'export, a movement': async (yard, turn) => {
    const { movements } = await yard.ask('archive-head', {});
    // From the middle on, where only single corrections are.
    const afterSeq = Math.floor(movements / 2) + turn;
    const page: Questions['archive-page']['answer'] = await yard.ask('archive-page', {
      afterSeq,
      upToSeq: movements,
      chars: 300_000,
    });
    return page.lastSeq - afterSeq;
  },
  'check, a movement': async (yard, turn) => {
    const { movements } = await yard.ask('archive-head', {});
    const part = await yard.ask('doctor', { after: `movement ${Math.floor(movements / 2) + turn}` });
    if (part.findings.length > 0) throw new Error(JSON.stringify(part.findings[0]));
    return part.looked.movements;
  },
};

const middle = (list: readonly number[]) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;
const rows: { name: string; smallUs: number; largeUs: number; ratio: number }[] = [];
for (const [name, work] of Object.entries(works)) {
  const took: [number[], number[]] = [[], []];
  for (let turn = 0; turn <= TURNS; turn++) {
    for (const [which, yard] of yards.entries()) {
      const fromMs = performance.now();
      const items = await work(yard, turn);
      // The first turn warms both.
      if (turn > 0) took[which === 0 ? 0 : 1].push(((performance.now() - fromMs) * 1000) / Math.max(1, items));
    }
  }
  const [smallUs, largeUs] = [middle(took[0]), middle(took[1])];
  const row = {
    name,
    smallUs: Math.round(smallUs),
    largeUs: Math.round(largeUs),
    ratio: Math.round((largeUs / smallUs) * 100) / 100,
  };
  rows.push(row);
  console.log(JSON.stringify(row));
}
/** The yard's file over HTTP, read as it comes; the most memory that the runtime had while it was made. */
async function wholeExport(yard: FarYard): Promise<unknown> {
  const fromMs = performance.now();
  const memoryMb = [runtime.residentMb() ?? 0];
  const reader = (await yard.get('/v1/yard/archive')).body?.getReader();
  const decoder = new TextDecoder();
  let bytes = 0;
  let pieces = 0;
  let end = '';
  for (;;) {
    const { done, value } = (await reader?.read()) ?? { done: true, value: undefined };
    if (done || !value) break;
    bytes += value.byteLength;
    end = (end + decoder.decode(value, { stream: true })).slice(-200);
    pieces += 1;
    if (pieces % 200 === 0) memoryMb.push(runtime.residentMb() ?? 0);
  }
  const last = JSON.parse(end.trimEnd().split('\n').at(-1) ?? '');
  return {
    wholeExportSeconds: Math.round((performance.now() - fromMs) / 100) / 10,
    megabytes: Math.round(bytes / 1e6),
    movements: last.end.movements,
    memoryMbBefore: memoryMb[0],
    memoryMbMost: Math.max(...memoryMb),
  };
}

/** A small job over HTTP: its takeoff, and its plan. */
async function smallJob(yard: FarYard): Promise<unknown> {
  const jobId = await yard.job('Small table');
  const leg = { key: 'leg', label: 'Leg', quantity: 4, species: 'walnut', use: 'hidden', faces: 'hidden' };
  const parts = [{ ...leg, lengthNm: 28 * INCH, widthNm: 3 * INCH, thicknessNm: INCH }];
  const list = await yard.put(`/v1/jobs/${jobId}/cut-list`, { parts });
  if (!list.ok) throw new Error(await list.text());
  const times: Record<string, number> = {};
  for (const [name, path] of Object.entries({ takeoff: 'takeoff', plan: 'plans' })) {
    const fromMs = performance.now();
    const answer = await yard.post(`/v1/jobs/${jobId}/${path}`, name === 'plan' ? { effort: 'quick' } : {});
    if (answer.status >= 300) throw new Error(JSON.stringify(answer.body));
    times[`${name}Ms`] = Math.round(performance.now() - fromMs);
  }
  return { smallJob: times, memoryMb: runtime.residentMb() };
}

for (const yard of yards) {
  console.log(JSON.stringify(await smallJob(yard)));
  console.log(JSON.stringify(await wholeExport(yard)));
}
writeFileSync(
  new URL('large-yard.svg', import.meta.url),
  ratioPlot(
    rows,
    `${large.boards.toLocaleString('en')} boards and ${large.movements.toLocaleString('en')} movements against 1,000 and 10,000`,
  ),
);
await runtime.end();
