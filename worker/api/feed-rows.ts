/** The columns of each feed. Sizes are numbers in the shop's own unit, which the heading names, so that a change of unit is seen. */
import type { BoardView } from '../contract/board.ts';
import type { PartWithPieces, PieceState } from '../contract/job.ts';
import type { Settings } from '../contract/settings.ts';
import { bookWith } from '../wood/own-wood.ts';
import { latestReading } from '../wood/reading.ts';
import { boardFeet } from '../wood/volume.ts';
import type { FeedAnswer, HeldRow } from '../yard/command.ts';
import type { CsvValue } from './csv.ts';
import { statusWords } from './routes/boards.ts';

type Unit = Settings['shown'];
type Shown = Pick<Settings, 'shown' | 'ownWoods'>;
const NM_IN: Readonly<Record<Unit, number>> = { in: 25_400_000, mm: 1_000_000 };

const rounded = (value: number, decimals: number) => Number(value.toFixed(decimals));
/** 1/64 in is 0.015625: six decimals say every fraction of an inch; four say a tenth of a micrometre. */
const size = (nm: number, unit: Unit) => rounded(nm / NM_IN[unit], unit === 'in' ? 6 : 4);
const wood = (key: string, { ownWoods }: Shown) => bookWith(ownWoods).byKey(key)?.name ?? key;
const day = (atMs: number) => new Date(atMs).toISOString().slice(0, 10);

function stockHeads(unit: Unit): string[] {
  return [
    'Tag',
    'Species',
    `Length (${unit})`,
    `Width (${unit})`,
    `Thickness (${unit})`,
    'Called',
    'Board feet',
    'Grain',
    'Grade',
    'Moisture %',
    'Read on',
    'Place',
    'Status',
    'Held by',
    'Received on',
    'Note',
  ];
}

function stockRow(board: BoardView, settings: Shown): CsvValue[] {
  const { lengthNm, widthNm, thicknessNm } = board;
  const last = latestReading(board.readings);
  return [
    board.tag,
    wood(board.species, settings),
    size(lengthNm, settings.shown),
    size(widthNm, settings.shown),
    size(thicknessNm, settings.shown),
    board.thicknessCall,
    rounded(boardFeet({ lengthNm, widthNm, thicknessNm }), 3),
    board.grain,
    board.grade,
    last?.moisturePercent ?? null,
    last?.on ?? null,
    board.place,
    statusWords(board),
    [...new Set(board.held.map((held) => held.jobName))].join(', '),
    board.receivedOn,
    board.note,
  ];
}

const heldHeads = (unit: Unit) => ['Tag', 'Species', 'Job', `From (${unit})`, `To (${unit})`, 'Whole board', 'Held on'];

const heldRow = (row: HeldRow, settings: Shown): CsvValue[] => [
  row.tag,
  wood(row.species, settings),
  row.jobName,
  size(row.fromNm, settings.shown),
  size(row.toNm, settings.shown),
  row.whole ? 'yes' : 'no',
  day(row.madeAtMs),
];

const states: readonly PieceState[] = ['wanted', 'planned', 'roughed', 'passed', 'glued-up', 'milled', 'failed'];

const cutListHeads = (unit: Unit) => [
  'Key',
  'Part',
  'Quantity',
  'Species',
  `Length (${unit})`,
  `Width (${unit})`,
  `Thickness (${unit})`,
  ...states.map((state) => state[0]?.toUpperCase() + state.slice(1).replace('-', ' ')),
];

function partRow(part: PartWithPieces, settings: Shown): CsvValue[] {
  const whole = part.pieces.filter((piece) => piece.element === null);
  return [
    part.key,
    part.label,
    part.quantity,
    wood(part.species, settings),
    size(part.lengthNm, settings.shown),
    size(part.widthNm, settings.shown),
    size(part.thicknessNm, settings.shown),
    ...states.map((state) => whole.filter((piece) => piece.state === state).length),
  ];
}

export function feedHeads({ list, settings }: FeedAnswer): readonly string[] {
  const heads = { stock: stockHeads, held: heldHeads, 'cut-list': cutListHeads };
  return heads[list](settings.shown);
}

export function feedRows(answer: FeedAnswer): readonly (readonly CsvValue[])[] {
  const { settings } = answer;
  switch (answer.list) {
    case 'stock':
      return answer.page.items.map((board) => stockRow(board, settings));
    case 'held':
      return answer.page.items.map((row) => heldRow(row, settings));
    case 'cut-list':
      return answer.job.parts.map((part) => partRow(part, settings));
  }
}
