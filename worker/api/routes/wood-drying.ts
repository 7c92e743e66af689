/** Routes about drying stock: one board's forecast, and what of the yard is ready by a day. */
import type { BoardView, Reading } from '../../contract/board.ts';
import type { Settings } from '../../contract/settings.ts';
import type { StackAir } from '../../contract/stack-air.ts';
import type { Answer } from '../../contract/wire.ts';
import { dayText } from '../../wood/day.ts';
import { type DryingQuestion, type ReadyDate, type ReadyFault, readyDate } from '../../wood/drying.ts';
import { readingTrust } from '../../wood/meter.ts';
import { type Air, emcPercent } from '../../wood/moisture.ts';
import { bookWith } from '../../wood/own-wood.ts';
import { latestReading } from '../../wood/reading.ts';
import { dryFor, readyPercent } from '../../wood/ready.ts';
import type { SpeciesBook } from '../../wood/species.ts';
import { plotDrawing } from '../cards/plot-drawing.ts';
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
  const wood = body.species === null ? good(null) : woodNamed(body.species, settings);
  if (!wood.ok) return wood;
  const targetPercent = body.targetPercent ?? settings.targetMoisturePercent;
  const { air, readings, thicknessNm, stackedOn } = body;
  const ready = readyDate({ readings, air, targetPercent, species: wood.value, thicknessNm, stackedOn });
  if (!ready.ok) return refusedAt(FIELD[ready.why], ready.help);
  const forecast = ready.value;
  const byTable = forecast.kind === 'range' && forecast.basis === 'species-table';
  const plot = dryingPlot(targetPercent, readings, forecast);
  return good({
    targetPercent,
    forecast,
    plot,
    drawing: plot && plotDrawing(plot, settings),
    sources: [...dryingSources, ...(byTable ? tableSources : [])],
    notes: [forecastWords(forecast), 'The air is taken to stay as given; seasons and boards differ.'],
  });
});

type ReadyBody = Call<'dryingReady'>['body'];
type ReadyRow = Answer<'dryingReady'>['boards'][number];
type TagStatus = Answer<'boardStatus'>['rows'][number];

/** What the shop keeps of its yard for a forecast. */
interface Keeping {
  readonly book: SpeciesBook;
  readonly airs: readonly StackAir[];
}
const keepingOf = ({ ownWoods, stackAirs }: Settings): Keeping => ({ book: bookWith(ownWoods), airs: stackAirs });

/** The air of the longest place that a board's own begins with, as asked with or else as the shop keeps it. */
function airAt(place: string, body: ReadyBody, { airs }: Keeping): Air | null {
  return airOf(place, body.airs)?.air ?? body.otherAir ?? airOf(place, airs) ?? null;
}

/** The row whose place is the longest beginning of this one. */
function airOf<Row extends { readonly place: string }>(place: string, rows: readonly Row[]): Row | null {
  const at = place.trim().toLowerCase();
  const fitting = rows.filter((row) => at.startsWith(row.place.toLowerCase()));
  return fitting.sort((a, b) => b.place.length - a.place.length)[0] ?? null;
}

function questionOf(board: BoardView, air: Air, targetPercent: number, { book }: Keeping): DryingQuestion {
  return {
    readings: board.readings,
    air,
    targetPercent,
    species: book.byKey(board.species) ?? null,
    thicknessNm: board.thicknessNm,
    stackedOn: board.readings.length === 0 ? board.receivedOn : null,
  };
}

/** How a board stands to a moisture content; a last reading at or below it says enough without any air. */
function standing(board: BoardView, air: Air | null, percent: number, keeping: Keeping): Standing {
  const last = latestReading(board.readings);
  const drying = air && readyDate(questionOf(board, air, percent, keeping));
  if (drying?.ok) {
    const assumed = last || drying.value.kind !== 'range' ? '' : ' Taken as green when received.';
    return {
      forecast: drying.value,
      why: forecastWords(drying.value) + assumed,
      isReady: drying.value.kind === 'ready',
    };
  }
  if (
    !drying &&
    last &&
    readingTrust(last.moisturePercent, last.meter) !== 'qualitative-wet' &&
    last.moisturePercent <= percent
  )
    return { forecast: null, why: `Read at ${last.moisturePercent} % on ${dayText(last.on)}.`, isReady: true };
  return { forecast: null, why: drying ? drying.help : noAir(board.place), isReady: false };
}

interface Standing {
  readonly forecast: ReadyDate | null;
  readonly why: string;
  readonly isReady: boolean;
}

function readyRow(board: BoardView, body: ReadyBody, percent: number, settings: Settings): ReadyRow {
  const keeping = keepingOf(settings);
  const last = latestReading(board.readings);
  const { forecast, why, isReady } = standing(board, airAt(board.place, body, keeping), percent, keeping);
  return {
    boardId: board.id,
    tag: board.tag,
    species: board.species,
    thicknessNm: board.thicknessNm,
    place: board.place,
    lastPercent: last?.moisturePercent ?? null,
    lastOn: last?.on ?? null,
    dryFor: dryFor(last?.moisturePercent ?? null, settings.moistureMax),
    stands: forecast ? standsBy(forecast, body.by) : isReady ? 'ready' : 'unknown',
    forecast,
    why,
  };
}

const noAir = (place: string) =>
  `no air is known for ${place === '' ? 'boards without a place' : `“${place}”`}: write it down under Air of the stacks`;

function standsBy(forecast: NonNullable<ReadyRow['forecast']>, by: string): ReadyRow['stands'] {
  if (forecast.kind !== 'range') return forecast.kind === 'ready' && forecast.on > by ? 'later' : forecast.kind;
  if (forecast.latestOn <= by) return 'surely';
  if (forecast.likelyOn <= by) return 'likely';
  return forecast.earliestOn <= by ? 'possibly' : 'later';
}

/** For a row of the shop's sheet: whether a board is dry enough for seen parts, or the likely day on which it will be, ISO. */
export function readyStatus(board: BoardView, settings: Settings): Pick<TagStatus, 'ready' | 'readyOn' | 'dryFor'> {
  return {
    ...readyOf(board, settings),
    dryFor: dryFor(latestReading(board.readings)?.moisturePercent ?? null, settings.moistureMax),
  };
}

function readyOf(board: BoardView, settings: Settings): Pick<TagStatus, 'ready' | 'readyOn'> {
  const keeping = keepingOf(settings);
  const air = airOf(board.place, keeping.airs);
  const { forecast, isReady } = standing(board, air, readyPercent(settings.moistureMax), keeping);
  if (isReady) return { ready: 'ready', readyOn: null };
  if (forecast?.kind === 'range') return { ready: 'drying', readyOn: forecast.likelyOn };
  return { ready: forecast?.kind === 'never' ? 'never' : 'unknown', readyOn: null };
}

const dryingReady: Handler<'dryingReady'> = async (call) => {
  const snapshot = await call.ask('snapshot', { jobIds: [], boards: { which: 'all' } });
  if (!snapshot.ok) return snapshot;
  if (!snapshot.value) return refuse('not-found', 'There is no such yard.');
  const { settings, boards: stock } = snapshot.value;
  const targetPercent = call.body.targetPercent ?? readyPercent(settings.moistureMax);
  const boards = stock.map((board) => readyRow(board, call.body, targetPercent, settings));
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

type BoardsDrying = Answer<'boardsDrying'>;

/** Readings of several boards as if of one: the mean of each day, in the order of the days. */
export function meanByDay(boards: readonly Pick<BoardView, 'readings'>[]): BoardsDrying['readings'] {
  const days = new Map<string, number[]>();
  for (const { readings } of boards) {
    for (const { on, moisturePercent } of readings) days.set(on, [...(days.get(on) ?? []), moisturePercent]);
  }
  return [...days]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([on, percents]) => ({
      on,
      moisturePercent: percents.reduce((sum, percent) => sum + percent, 0) / percents.length,
      boards: percents.length,
    }));
}

/** Of one meter throughout, that one. */
function meterOf(boards: readonly BoardView[]): Reading['meter'] {
  const meters = new Set(boards.flatMap(({ readings }) => readings.map(({ meter }) => meter)));
  const only = [...meters][0];
  return meters.size === 1 && only ? only : 'unknown';
}

const boardsDrying: Handler<'boardsDrying'> = async (call) => {
  const snapshot = await call.ask('snapshot', { jobIds: [], boards: { which: 'named', ids: call.body.boardIds } });
  if (!snapshot.ok) return snapshot;
  if (!snapshot.value) return refuse('not-found', 'There is no such yard.');
  const { settings, boards: stock } = snapshot.value;
  const boards = stock;
  const [first] = boards;
  if (!first || boards.length < new Set(call.body.boardIds).size) {
    return refuse('not-found', 'A board of these is not in stock.');
  }
  if (boards.some(({ species }) => species !== first.species)) {
    return refusedAt('/boardIds', 'boards of one species dry alike; ask for each species on its own');
  }
  if (call.body.air === undefined && boards.some(({ place }) => place !== first.place)) {
    return refusedAt(
      '/boardIds',
      'these boards stand in several places; ask for each place on its own, or send the air',
    );
  }
  const targetPercent = call.body.targetPercent ?? settings.targetMoisturePercent;
  return good(forecastOf(boards, first, targetPercent, call.body.air ?? null, settings));
};

function forecastOf(
  boards: readonly BoardView[],
  first: BoardView,
  targetPercent: number,
  asked: Air | null,
  settings: Settings,
): BoardsDrying {
  const keeping = keepingOf(settings);
  const kept = asked ? null : airOf(first.place, keeping.airs);
  const air = asked ?? kept;
  const meter = meterOf(boards);
  const byDay = meanByDay(boards);
  const readings = byDay.map(({ on, moisturePercent }): Reading => ({ on, moisturePercent, meter }));
  // The thickest dries last.
  const thickest = boards.reduce((most, board) => (board.thicknessNm > most.thicknessNm ? board : most), first);
  const pooled = { ...thickest, readings, receivedOn: first.receivedOn };
  const ready = air ? readyDate(questionOf(pooled, air, targetPercent, keeping)) : null;
  const forecast = ready?.ok ? ready.value : null;
  const seenPercent = readyPercent(settings.moistureMax);
  const seen = standing(pooled, air, seenPercent, keeping);
  const emc = air ? emcPercent(air) : null;
  // Where the furniture's own target is never reached, the way to what seen parts ask for is still to be drawn.
  const drawn =
    forecast?.kind !== 'range' && seen.forecast?.kind === 'range'
      ? { percent: seenPercent, forecast: seen.forecast }
      : { percent: targetPercent, forecast };
  const plot = dryingPlot(
    drawn.percent,
    readings,
    drawn.forecast ?? { kind: 'none', emcPercent: emc?.ok ? emc.value : null },
  );
  const byTable = drawn.forecast?.kind === 'range' && drawn.forecast.basis === 'species-table';
  return {
    targetPercent,
    air: air && {
      place: kept?.place ?? '',
      relativeHumidityPercent: air.relativeHumidityPercent,
      temperatureC: 'temperatureC' in air ? air.temperatureC : (air.temperatureF - 32) / 1.8,
    },
    emcPercent: emc?.ok ? emc.value : null,
    forecast,
    words: forecast ? forecastWords(forecast) : ready && !ready.ok ? ready.help : noAir(first.place),
    ready: { percent: seenPercent, forecast: seen.forecast, words: seen.why },
    readings: byDay,
    drawing: plot && plotDrawing(plot, settings),
    sources: air ? [...dryingSources, ...(byTable ? tableSources : [])] : [],
    notes: [
      ...(boards.length > 1 ? ['Each dot is the mean of the boards read on that day; single boards differ.'] : []),
      ...(byTable && byDay.length === 0 ? ['Taken as green when received.'] : []),
      'The air is taken to stay as written down; measure each board again before it is cut.',
    ],
  };
}

export const woodDryingHandlers = { woodDrying, dryingReady, boardsDrying };
