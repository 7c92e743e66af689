/** A delivery as it stands in the yard: its tally against the bill, and its grades against what was paid for. */
import { beforeEach, expect, test } from 'vitest';
import { answers } from '../../worker/contract/wire.ts';
import { readGrade } from '../../worker/wood/grade.ts';
import { board, type Client, openShop } from './shop.ts';

let yard: Client;
beforeEach(async () => {
  yard = await openShop().foundYard('Juniper Bend');
  const rough = { thicknessNm: '1 in', thicknessCall: '4/4', delivery: 'March load' };
  const wane = { kind: 'wane', face: 'b', fromNm: 0, toNm: '90 in', leftNm: 0, rightNm: '4 in' };
  const knot = { kind: 'knot-sound', face: 'a', fromNm: '14 in', toNm: '16 in', leftNm: 0, rightNm: '3/4 in' };
  await yard.send('POST', '/v1/boards', {
    boards: [
      // Red-oak data of the 1998 data bank, board 0063: 5.75 × 96.5 in makes FAS with one cutting of 84 in.
      board('0063', {
        ...rough,
        widthNm: '5 3/4 in',
        lengthNm: '96 1/2 in',
        grade: 'FAS',
        defects: [{ ...knot, fromNm: '90 in', toNm: '91 in' }],
      }),
      board('BAD', { ...rough, widthNm: '8 in', lengthNm: '96 in', grade: 'FAS', defects: [wane, knot] }),
      board('BLIND', { ...rough, widthNm: '8 in', lengthNm: '96 in', grade: '#1 Com' }),
      board('ELSE', { ...rough, delivery: 'another' }),
    ],
    allOrNothing: true,
  });
});

const check = (body: object) => yard.send('POST', '/v1/deliveries/check', body);

test('the tally of its boards against the bill, with the money', async () => {
  const answer = await check({ delivery: 'march load', statedBf: 17, minorPerBoardFoot: 650 });
  expect(answers.checkDelivery.safeParse(answer.json).error).toBeUndefined();
  // Surface measures by the rule: 5.75 × 8/12 = 3.83 → 4; 8 × 8/12 = 5.33 → 5, twice.
  expect(answer.json.tally).toMatchObject({ tallyBf: 14, statedBf: 17, overstatedBf: 3, overstatedMinor: 1950 });
  expect(answer.json.tally.words).toMatch(/^17 bf are billed, 14 bf came: 3 bf too many/);
});

test('each board by the grade that its measured defects make', async () => {
  const { grades, short, gradeWords, tally } = (await check({ delivery: 'March load' })).json;
  expect(tally).toBeNull();
  const row = (tag: string) => grades.find((one: { tag: string }) => one.tag === tag);
  expect(row('0063')).toMatchObject({ paid: 'FAS', made: 'FAS', reached: true });
  expect(row('BAD')).toMatchObject({ paid: 'FAS', reached: false });
  expect(row('BLIND')).toMatchObject({ paid: '#1 Com', reached: null });
  expect(short.boards).toBe(1);
  expect(gradeWords).toBe('2 of 3 boards can be compared; 1 fall short of the grade that was paid for.');
});

test('a delivery that no board names is refused', async () => {
  expect((await check({ delivery: 'nobody' })).json.faults[0].help).toMatch(/no board in stock came/);
});

test('one board is graded by its own defects, its cuttings drawn on both faces', async () => {
  const { items } = (await yard.send('GET', '/v1/boards?q=0063')).json;
  const answer = await yard.send('POST', `/v1/boards/${items[0].id}/grade`, {});
  expect(answers.gradeBoard.safeParse(answer.json).error).toBeUndefined();
  expect(answer.json).toMatchObject({ grade: 'FAS', paid: { grade: 'FAS', reached: true } });
  expect(answer.json.poorer.drawing.description).toMatch(/makes FAS/);
});

test.each([
  ['FAS', 'FAS'],
  ['F.A.S.', 'FAS'],
  ['FAS 1F', 'F1F'],
  ['Sel & Btr', 'Selects'],
  ['select', 'Selects'],
  ['#1 Com', 'No.1C'],
  ['No. 1 Common', 'No.1C'],
  ['1C', 'No.1C'],
  ['2AC', 'No.2A'],
  ['#3A', 'No.3A'],
  ['rustic', null],
  ['', null],
])('“%s” on a bill is %s', (text, grade) => {
  expect(readGrade(text)).toBe(grade);
});

test('a thickness written as a call is kept as the call; a measured one makes none up', async () => {
  await yard.send('POST', '/v1/boards', {
    boards: [
      board('CALLED', { thicknessNm: '8/4' }),
      board('NAMED', { thicknessNm: '8/4', thicknessCall: '7/4' }),
      board('TAPED', { thicknessNm: '2 in' }),
    ],
  });
  const { items } = (await yard.send('GET', '/v1/boards?limit=50')).json;
  const row = (tag: string) => items.find((one: { tag: string }) => one.tag === tag);
  // 8/4 rough is 2 in (hardwood grading rule, from a copy of its table).
  expect(row('CALLED')).toMatchObject({ thicknessNm: 2 * 25_400_000, thicknessCall: '8/4' });
  expect(row('NAMED')).toMatchObject({ thicknessCall: '7/4' });
  expect(row('TAPED')).toMatchObject({ thicknessNm: 2 * 25_400_000, thicknessCall: null });
});

test('a thickness corrected as a call is the board’s call from then on; a plain size leaves the call', async () => {
  const yard = await openShop().foundYard('Oak yard');
  const { taken } = (await yard.send('POST', '/v1/boards', { boards: [board('C1', { thicknessNm: '2 in' })] })).json;
  const path = `/v1/boards/${taken[0].id}`;
  const correct = async (thicknessNm: unknown) => {
    const version = (await yard.send('GET', path)).headers.get('etag') ?? '';
    return (await yard.send('PATCH', path, { thicknessNm }, { 'if-match': version })).json;
  };
  expect((await yard.send('GET', path)).json.thicknessCall).toBeNull();
  expect(await correct('8/4')).toMatchObject({ thicknessNm: 50_800_000, thicknessCall: '8/4' });
  expect(await correct('1 15/16"')).toMatchObject({ thicknessNm: 49_212_500, thicknessCall: '8/4' });
  expect(await correct(44_450_000)).toMatchObject({ thicknessNm: 44_450_000, thicknessCall: '8/4' });
});
