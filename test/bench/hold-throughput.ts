/**
 * `node test/bench/hold-throughput.ts [seconds a turn]`: prints each pair of turns with the work of the runtime a request,
 * and the ratios of the middle ones; see hold-turns.ts.
 */
import { measureHolds } from './hold-turns.ts';

const turnMs = Number(process.argv[2] ?? 4) * 1000;
const measured = await measureHolds(7, turnMs, (pair) => console.log(JSON.stringify(pair)));
console.log(JSON.stringify(measured));
