/** Routes about drying stock: one board's forecast, and what of the yard is ready by a day. */
import type { BoardView } from '../../contract/board.ts';
import type { Answer } from '../../contract/wire.ts';
import { type DryingQuestion, type ReadyFault, readyDate } from '../../wood/drying.ts';
import type { Air } from '../../wood/moisture.ts';
import { speciesByKey } from '../../wood/species.ts';
import { type Call, good, type Handler, refuse } from '../serve.ts';
import { refusedAt, woodNamed, worked } from './wood-call.ts';
import { dryingPlot, forecastWords } from './wood-plot.ts';
import { cite } from './wood-source.ts';

/** The field that each refusal of the forecast is about. */
const FIELD: Readonly<Record<ReadyFault, string>> = {
  'humidity-out-of-range': '/air/relativeHumidityPercent',
  'temperature-out-of-range': '/air/temperatureC',
  'moisture-out-of-range': '/targetPercent',
  weight: '/readings',
  'too-few-readings': '/readings',
  'not-drying': '/readings',
  'no-start': '/stackedOn',
  'not-in-drying-table': '/species',
  'target-out-of-range': '/targetPercent',
};

const dryingSources = [cite.emc, cite.dryingLaw, cite.dryingSpread];
const tableSources = [cite.dryingDays, cite.dryingPower];

const woodDrying = worked<'woodDrying'>((body, settings) => {
  const wood = body.species === null ? good(null) : woodNamed(body.species);
  if (!wood.ok) return wood;
  const targetPercent = body.targetPercent ?? settings.targetMoisturePercent;
  const { air, readings, thicknessNm, stackedOn } = body;
  const ready = readyDate({ readings, air, targetPercent, species: wood.value, thicknessNm, stackedOn });
  if (!ready.ok) return refusedAt(FIELD[ready.why], ready.help);
  const forecast = ready.value;
  const byTable = forecast.kind === 'range' && forecast.basis === 'species-table';
  return good({
    targetPercent,
    forecast,
    plot: dryingPlot(targetPercent, readings, forecast),
    sources: [...dryingSources, ...(byTable ? tableSources : [])],
    notes: [forecastWords(forecast), 'The air is taken to stay as given; seasons and boards differ.'],
  });
});

type ReadyBody = Call<'dryingReady'>['body'];
type ReadyRow = Answer<'dryingReady'>['boards'][number];

/** The air of the longest place that a board's own begins with, or that of every other place. */
function airAt(place: string, body: ReadyBody): Air | null {
  const at = place.trim().toLowerCase();
  const named = body.airs
    .filter((row) => at.startsWith(row.place.toLowerCase()))
    .sort((a, b) => b.place.length - a.place.length)[0];
  return named?.air ?? body.otherAir ?? null;
}

function questionOf(board: BoardView, air: Air, targetPercent: number): DryingQuestion {
  return {
    readings: board.readings,
    air,
    targetPercent,
    species: speciesByKey(board.species) ?? null,
    thicknessNm: board.thicknessNm,
    stackedOn: board.readings.length === 0 ? board.receivedOn : null,
  };
}

function readyRow(board: BoardView, body: ReadyBody, targetPercent: number): ReadyRow {
  const last = [...board.readings].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0)).at(-1);
  const row = {
    boardId: board.id,
    tag: board.tag,
    species: board.species,
    thicknessNm: board.thicknessNm,
    place: board.place,
    lastPercent: last?.moisturePercent ?? null,
    lastOn: last?.on ?? null,
  };
  const air = airAt(board.place, body);
  if (!air) {
    const where = board.place === '' ? 'a board without a place' : `“${board.place}”`;
    return { ...row, stands: 'unknown', forecast: null, why: `no air was given for ${where}` };
  }
  const ready = readyDate(questionOf(board, air, targetPercent));
  if (!ready.ok) return { ...row, stands: 'unknown', forecast: null, why: ready.help };
  const assumed = last || ready.value.kind !== 'range' ? '' : ' Taken as green when received.';
  return {
    ...row,
    stands: standsBy(ready.value, body.by),
    forecast: ready.value,
    why: forecastWords(ready.value) + assumed,
  };
}

function standsBy(forecast: NonNullable<ReadyRow['forecast']>, by: string): ReadyRow['stands'] {
  if (forecast.kind !== 'range') return forecast.kind === 'ready' && forecast.on > by ? 'later' : forecast.kind;
  if (forecast.latestOn <= by) return 'surely';
  if (forecast.likelyOn <= by) return 'likely';
  return forecast.earliestOn <= by ? 'possibly' : 'later';
}

const dryingReady: Handler<'dryingReady'> = async (call) => {
  const snapshot = await call.ask('snapshot', { jobIds: [] });
  if (!snapshot.ok) return snapshot;
  if (!snapshot.value) return refuse('not-found', 'There is no such yard.');
  const { settings, boards: stock } = snapshot.value;
  const targetPercent = call.body.targetPercent ?? settings.targetMoisturePercent;
  const boards = stock.map((board) => readyRow(board, call.body, targetPercent));
  const countOf = (...stands: readonly ReadyRow['stands'][]) =>
    boards.filter((board) => stands.includes(board.stands)).length;
  const byTable = boards.some(({ forecast }) => forecast?.kind === 'range' && forecast.basis === 'species-table');
  return good({
    by: call.body.by,
    targetPercent,
    boards,
    counts: {
      ready: countOf('ready'),
      byThen: countOf('surely', 'likely', 'possibly'),
      later: countOf('later'),
      never: countOf('never'),
      unknown: countOf('unknown'),
    },
    sources: [...dryingSources, ...(byTable ? tableSources : [])],
    notes: ['Measure each board again before it is cut: a forecast is a span of days, never a promise.'],
  });
};

export const woodDryingHandlers = { woodDrying, dryingReady };
