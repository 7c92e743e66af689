/**
 * What the demo yard holds before any sheet is read, as bodies for the API in the order they are sent: the shop's
 * figures, the wall racks, older offcuts, and a job ("Garden gate") that already holds one board and a run of another.
 */

import type * as z from 'zod';
import type { boardRow } from '../worker/contract/board.ts';
import type { part } from '../worker/contract/job.ts';
import type { Body } from '../worker/contract/wire.ts';
import { wallRacks } from './racks.ts';

type BoardInput = z.input<typeof boardRow>;
type PartInput = z.input<typeof part>;

export interface DemoJob {
  readonly draft: Body<'openJob'>;
  readonly cutList: Body<'setCutList'>;
  /** Boards by tag; the job's id is known only once it is open. */
  readonly holds: Body<'reserve'>['boards'];
}

export interface DemoYard {
  readonly name: string;
  readonly settings: Body<'changeSettings'>;
  readonly takeIns: readonly Body<'takeInBoards'>[];
  readonly jobs: readonly DemoJob[];
}

const settings: Body<'changeSettings'> = {
  currency: 'USD',
  shown: 'in',
  denominator: 16,
  stackAirs: [
    { place: '', relativeHumidityPercent: 38, temperatureC: 20, on: '2026-11-16' },
    { place: 'stack', relativeHumidityPercent: 55, temperatureC: 14, on: '2026-11-16' },
  ],
  prices: [
    { species: 'white-oak', minorPerBoardFoot: 1050 },
    { species: 'white-oak', thicknessCall: '4/4', minorPerBoardFoot: 980 },
    { species: 'white-oak', thicknessCall: '5/4', minorPerBoardFoot: 1120 },
    { species: 'white-oak', thicknessCall: '8/4', minorPerBoardFoot: 1450 },
    { species: 'black-walnut', minorPerBoardFoot: 1340 },
    { species: 'black-walnut', thicknessCall: '6/4', minorPerBoardFoot: 1620 },
    { species: 'black-walnut', thicknessCall: '8/4', minorPerBoardFoot: 1890 },
    { species: 'black-cherry', minorPerBoardFoot: 860 },
    { species: 'black-cherry', thicknessCall: '5/4', minorPerBoardFoot: 990 },
    { species: 'white-ash', minorPerBoardFoot: 540 },
    { species: 'white-ash', thicknessCall: '8/4', minorPerBoardFoot: 810 },
  ],
};

/** The thickness of a rough board by its call in quarters of an inch. */
const roughThickness = (call: string): string => `${call.split('/')[0]}/4 in`;

const listed = (cell: string): string[] => (cell === '-' ? [] : cell.split(', '));

/** One line of the wall racks. The meter is always the pin meter; warp was last measured in October. */
function fromRackLine(line: string): Body<'takeInBoards'>['boards'][number] {
  const cells = line.split(' | ');
  const [tag, species, lengthNm, widthNm, thicknessCall = '', grain, place, dollars, readings, warp, defects] = cells;
  return {
    tag,
    species,
    lengthNm,
    widthNm,
    thicknessNm: roughThickness(thicknessCall),
    thicknessCall,
    grain,
    place,
    costMinor: Math.round(Number(dollars) * 100),
    readings: listed(readings ?? '-').map((reading) => {
      const [on, percent] = reading.split(' ');
      return { on, moisturePercent: Number(percent), meter: 'pin' };
    }),
    warp: fromRackWarp(listed(warp ?? '-')),
    defects: listed(defects ?? '-').map((defect) => {
      const [kind, face, along = '', , across = ''] = defect.split(' ');
      const [from, to] = along.split('-');
      const [left, right] = across.split('-');
      return {
        kind,
        face,
        fromNm: `${from} in`,
        toNm: `${to} in`,
        leftNm: `${left} in`,
        rightNm: `${right} in`,
      };
    }),
  };
}

function fromRackWarp(warps: readonly string[]) {
  if (warps.length === 0) return null;
  const deviations = warps.map((warp) => [`${warp.slice(0, warp.indexOf(' '))}Nm`, warp.slice(warp.indexOf(' ') + 1)]);
  return { ...Object.fromEntries(deviations), on: '2026-10-12' };
}

/** Long white oak that the gate holds, one board whole and one run; and one that twisted. */
const longOak: readonly BoardInput[] = [
  {
    tag: 'JB-088',
    species: 'white-oak',
    lengthNm: `9' 6"`,
    widthNm: '7"',
    thicknessNm: '8/4 in',
    thicknessCall: '8/4',
    grain: 'flat',
    place: 'rack 3',
    costMinor: 9600,
    readings: [
      { on: '2026-01-19', moisturePercent: 13.8, meter: 'pin' },
      { on: '2026-05-11', moisturePercent: 10.2, meter: 'pin' },
      { on: '2026-10-12', moisturePercent: 8.9, meter: 'pin' },
    ],
    warp: { bowNm: '1/8 in', on: '2026-10-12' },
  },
  {
    tag: 'JB-089',
    species: 'white-oak',
    lengthNm: `12' 3"`,
    widthNm: '6 1/2"',
    thicknessNm: '8/4 in',
    thicknessCall: '8/4',
    grain: 'rift',
    place: 'rack 3',
    costMinor: 12_400,
    readings: [
      { on: '2026-03-02', moisturePercent: 11.4, meter: 'pin' },
      { on: '2026-10-12', moisturePercent: 9.3, meter: 'pin' },
    ],
    defects: [
      { kind: 'check', face: 'through', fromNm: '0 in', toNm: '5 in', leftNm: '2 in', rightNm: '3 in' },
      { kind: 'knot-sound', face: 'b', fromNm: '118 in', toNm: '120 in', leftNm: '1 in', rightNm: '3 in' },
    ],
  },
  {
    tag: 'JB-090',
    species: 'white-oak',
    lengthNm: `9' 1"`,
    widthNm: '5"',
    thicknessNm: '8/4 in',
    thicknessCall: '8/4',
    grain: 'flat',
    place: 'stack C',
    costMinor: 6800,
    readings: [{ on: '2026-10-12', moisturePercent: 9.8, meter: 'pin' }],
    warp: { crookNm: '1/4 in', twistNm: '3/4 in', on: '2026-10-12' },
    note: 'twisted in the stack, good for short work',
  },
];

const offcut = (
  tag: string,
  species: string,
  size: readonly [lengthText: string, widthText: string, thicknessCall: string],
  more: Partial<BoardInput> = {},
): BoardInput => ({
  tag,
  species,
  lengthNm: size[0],
  widthNm: size[1],
  thicknessNm: roughThickness(size[2]),
  thicknessCall: size[2],
  place: 'offcut bin',
  offcut: true,
  readings: [{ on: '2026-09-28', moisturePercent: 8.4, meter: 'pin' }],
  ...more,
});

const offcuts: readonly BoardInput[] = [
  offcut('JB-031a', 'white-oak', ['31"', '5 1/4"', '4/4'], { grain: 'rift' }),
  offcut('JB-031b', 'white-oak', ['22 1/2"', '3 3/8"', '4/4']),
  offcut('JB-040a', 'white-oak', ['38"', '4 1/2"', '8/4'], {
    defects: [{ kind: 'check', face: 'through', fromNm: '35 in', toNm: '38 in', leftNm: '1 in', rightNm: '2 in' }],
  }),
  offcut('JB-052a', 'black-walnut', ['26"', '7 1/2"', '4/4'], {
    defects: [{ kind: 'knot-sound', face: 'a', fromNm: '12 in', toNm: '14 in', leftNm: '5 in', rightNm: '7 in' }],
  }),
  offcut('JB-052b', 'black-walnut', ['19 1/2"', '2 3/4"', '4/4']),
  offcut('JB-057a', 'black-cherry', ['41"', '4"', '4/4'], { warp: { cupNm: '1/16 in' } }),
  offcut('JB-057b', 'black-cherry', ['14 1/4"', '6 5/8"', '4/4']),
  offcut('JB-063a', 'white-ash', ['47"', '3 1/2"', '4/4'], {
    defects: [{ kind: 'worm', face: 'b', fromNm: '9 in', toNm: '11 in', leftNm: '0 in', rightNm: '1 in' }],
  }),
];

const gateParts: readonly PartInput[] = [
  {
    key: 'gate-stile',
    label: 'Gate stile',
    quantity: 2,
    species: 'white-oak',
    lengthNm: '72 in',
    widthNm: '3 1/2 in',
    thicknessNm: '1 3/4 in',
    use: 'critical',
    faces: 'clear-one',
  },
  {
    key: 'gate-rail',
    label: 'Gate rail',
    quantity: 3,
    species: 'white-oak',
    lengthNm: '38 in',
    widthNm: '3 1/2 in',
    thicknessNm: '1 3/4 in',
    use: 'visible',
    faces: 'sound-knots',
  },
  {
    key: 'gate-brace',
    label: 'Brace',
    quantity: 1,
    species: 'white-oak',
    lengthNm: '60 in',
    widthNm: '3 in',
    thicknessNm: '1 3/4 in',
    use: 'visible',
    faces: 'sound-knots',
  },
  {
    key: 'gate-picket',
    label: 'Picket',
    quantity: 7,
    species: 'white-oak',
    lengthNm: '56 in',
    widthNm: '3 in',
    thicknessNm: '3/4 in',
    use: 'visible',
    faces: 'sound-knots',
  },
  {
    key: 'gate-cleat',
    label: 'Picket cleat',
    quantity: 4,
    species: 'white-oak',
    lengthNm: '16 in',
    widthNm: '2 1/4 in',
    thicknessNm: '3/4 in',
    use: 'hidden',
    faces: 'sound-knots',
  },
];

export const demoYard: DemoYard = {
  name: 'Juniper Bend',
  settings,
  takeIns: [
    { boards: wallRacks.trim().split('\n').map(fromRackLine), allOrNothing: true },
    { boards: [...longOak, ...offcuts], allOrNothing: true },
  ],
  jobs: [
    {
      draft: { name: 'Garden gate', dueOn: '2027-03-31', note: 'hung in spring' },
      cutList: { parts: [...gateParts], allOrNothing: true },
      holds: [{ tag: 'JB-088' }, { tag: 'JB-089', fromNm: 0, toNm: '76 in' }],
    },
  ],
};
