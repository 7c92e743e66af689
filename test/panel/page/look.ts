/** A page that holds nothing but the panel over the fake yard, for looking at it: ?state=empty, offline, slow. */
import { mountPanel } from '../../../addon/panel/main.tsx';
import { fakeHost } from '../fake-host.ts';
import { fakeYard } from '../fake-yard.ts';

const state = new URLSearchParams(location.search).get('state') ?? 'full';
const nothing = { items: [], next: null };
const yard =
  state === 'empty'
    ? fakeYard({
        listBoards: () => nothing,
        listJobs: () => nothing,
        listReservations: () => nothing,
        listMovements: () => nothing,
        listSessions: () => nothing,
      })
    : state === 'slow'
      ? fakeYard({}, 5_000)
      : state === 'slow-search'
        ? fakeYard({}, 900)
        : fakeYard();

const host = fakeHost([
  ['Boards, September'],
  [],
  ['Tag', 'Species', 'Len', 'W', 'Thk', 'MC %', 'Notes'],
  ['WO-21', 'white oak', '8\' 4 1/2"', '7 1/4', '4/4', 8.4, ''],
  ['WO-22', 'w. oak', '100.5', '6', '5/4', 9, 'straight'],
  ['WO-23', 'walnut', '2550 mm', '9 3/8', '8/4', 11, ''],
  ['WO-24', 'purplehart?', '3 5/0', '0', '4/4', 8, ''],
]);
host.selection = { sheet: 'Sheet 1', row: 3, column: 0, rowCount: 1, columnCount: 1 };

const root = document.getElementById('panel');
if (root !== null) {
  mountPanel(root, {
    host,
    api: state === 'connect' ? null : yard,
    nowMs: () => Date.UTC(2026, 10, 25, 10),
  });
}
