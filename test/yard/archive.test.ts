/** A yard taken out as one file and brought back: the same journal, the same state, the same tables. */
import { crc32 as zlibCrc32 } from 'node:zlib';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { crc32, crcText } from '../../worker/contract/checksum.ts';
import { stateDifference } from '../../worker/yard/memory-state.ts';
import { RandomHistory } from './random-history.ts';
import { boardOf, memoryCopy, owner, Shop } from './shop.ts';
import { fileOf, restore, tablesOf } from './yard-file.ts';

async function livedIn(seed: number, steps: number): Promise<Shop> {
  const shop = await Shop.open();
  const history = new RandomHistory(shop, seed);
  for (let step = 0; step < steps; step++) history.step();
  return shop;
}

test('the checksum is that of zlib', () => {
  expect(crcText(crc32(new TextEncoder().encode('123456789')))).toBe('cbf43926'); // the check value of CRC-32/ISO-HDLC
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), fc.nat(300), (bytes, cut) => {
      expect(crc32(bytes.slice(cut), crc32(bytes.slice(0, cut)))).toBe(zlibCrc32(bytes));
    }),
  );
});

test('out, in and out again: the same file, the same tables, the same yard, whatever happened in it', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.nat(4_294_967_295),
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 1, max: 40_000 }),
      async (seed, perPart, chars) => {
        const yard = await livedIn(seed, 120);
        const file = fileOf(yard, chars);
        const other = await Shop.open();
        const answer = restore(other, file, perPart);
        expect(answer).toEqual({ ok: true, restored: { seq: yard.seq(), movements: yard.seq(), done: true } });
        expect(fileOf(other)).toEqual(file);
        expect(other.journal()).toEqual(yard.journal());
        expect(stateDifference(memoryCopy(yard.yard), memoryCopy(other.yard))).toBeNull();
        expect(tablesOf(other)).toEqual(tablesOf(yard));
        other.expectSound();
        // It lives on: what comes next is the same in both.
        const draft = { name: 'Next', dueOn: null, note: '' };
        expect(other.tell({ do: 'open-job', draft }).seq).toBe(yard.tell({ do: 'open-job', draft }).seq);
      },
    ),
    { numRuns: 12 },
  );
}, 60_000);

test('the file says who had a key, and holds no secret', async () => {
  const yard = await livedIn(1, 20);
  yard.send({ do: 'open-job', draft: { name: 'Bench', dueOn: null, note: '' } }, 'a-key-of-a-write');
  const file = fileOf(yard);
  expect(JSON.parse(file[1] ?? '')).toMatchObject({ key: { id: 'owner', label: 'Owner' } });
  const text = file.join('\n');
  expect(text).not.toContain(owner.digest);
  expect(text).not.toContain('a-key-of-a-write');
});

test('a file of what was there when it began: later movements are not in it', async () => {
  const yard = await livedIn(2, 30);
  const { movements } = yard.ask('archive-head', {});
  yard.job('Later');
  const page = yard.ask('archive-page', { afterSeq: 0, upToSeq: movements, chars: 1e9 });
  expect(page.lastSeq).toBe(movements);
  expect(page.text).not.toContain('Later');
});

test('broken off and sent again from the start, it goes on where it stopped', async () => {
  const yard = await livedIn(3, 80);
  const file = fileOf(yard);
  const other = await Shop.open();
  const half = Math.floor(file.length / 2);
  const begun = restore(other, file.slice(0, half), 7);
  expect(begun).toMatchObject({ ok: true, restored: { done: false } });
  const write = other.send({ do: 'open-job', draft: { name: 'Too early', dueOn: null, note: '' } }, 'early-key');
  expect(write.ok ? null : write.refusal.why).toBe('yard-restoring');
  expect(restore(other, file, 9)).toMatchObject({ ok: true, restored: { done: true } });
  // Whoever lost the answer may send it once more.
  expect(restore(other, file)).toMatchObject({ ok: true, restored: { done: true, seq: yard.seq() } });
  expect(tablesOf(other)).toEqual(tablesOf(yard));
  // The write that came too early was not remembered, so it may come again.
  expect(other.send({ do: 'open-job', draft: { name: 'Too early', dueOn: null, note: '' } }, 'early-key').ok).toBe(
    true,
  );
});

test('another file may be chosen while the first is not complete', async () => {
  const [one, two] = [await livedIn(4, 60), await livedIn(5, 60)];
  const other = await Shop.open();
  restore(other, fileOf(one).slice(0, 20));
  expect(restore(other, fileOf(two))).toMatchObject({ ok: true });
  expect(tablesOf(other)).toEqual(tablesOf(two));
});

test('a yard with movements of its own is never overwritten', async () => {
  const file = fileOf(await livedIn(6, 30));
  const other = await Shop.open();
  other.takeIn(boardOf('Q-1'));
  const before = tablesOf(other);
  expect(restore(other, file)).toMatchObject({ ok: false, refusal: { why: 'yard-not-empty' } });
  expect(tablesOf(other)).toEqual(before);
  // One that only has keys of its own still counts as new.
  const keyed = await Shop.open();
  keyed.giveKey({ keyId: 'hand', digest: 'c'.repeat(64), label: 'Hand', scopes: ['read'] });
  expect(restore(keyed, file)).toMatchObject({ ok: true });
  // Nor one that was restored and used since.
  const third = await Shop.open();
  restore(third, file);
  third.takeIn(boardOf('Q-9'));
  expect(restore(third, file)).toMatchObject({ ok: false, refusal: { why: 'yard-not-empty' } });
  expect(restore(third, fileOf(await livedIn(7, 30)))).toMatchObject({ ok: false, refusal: { why: 'yard-not-empty' } });
});

test('a damaged file is refused by the line, and the yard stays closed', async () => {
  const yard = await livedIn(8, 60);
  const file = fileOf(yard);
  const at = 10;
  const line = file[at] ?? '';
  const damages: readonly [string, readonly string[], RegExp][] = [
    ['a letter changed', file.with(at, line.replace(/"by":"Owner"/, '"by":"Owned"')), /checksum differs/],
    ['a line gone', file.toSpliced(at, 1), /Line 11 .* a line is missing/],
    ['a line twice', file.toSpliced(at, 0, line), /^$/],
    ['cut off within a line', [...file.slice(0, at), line.slice(0, 40)], /Line 11 .* cut off/],
    ['no first line', file.slice(1), /first line/],
    ['a newer format', file.with(0, (file[0] ?? '').replace('"format":1', '"format":2')), /newer/],
    ['another end', file.with(-1, '{"end":{"movements":3,"crc32":"00000000"}}'), /should have/],
    ['a size changed', file.map((each) => each.replace(/"lengthNm":\d+/, '"lengthNm":7000000')), /Line|checksum/],
    ['not a movement', file.with(at, '{"movement":{"seq":9}}'), /Line 11 .* not a movement/],
    ['a line of something else', file.with(at, '"hello"'), /Line 11 .* not a movement/],
  ];
  for (const [what, lines, words] of damages) {
    const other = await Shop.open();
    const answer = restore(other, lines);
    if (what === 'a line twice') {
      expect(answer.ok, what).toBe(true);
      continue;
    }
    expect(answer.ok ? what : answer.refusal.detail, what).toMatch(words);
    expect(answer.ok ? null : answer.refusal.why).toBe('archive-broken');
    // All or nothing: the part with the bad line left nothing behind.
    expect(other.seq()).toBe(1);
  }
});

test('a file whose things break a rule of the tables or have another form is refused', async () => {
  const yard = await Shop.open();
  yard.takeIn(boardOf('Q-1'));
  const job = yard.job('Hall table');
  yard.reserve(job, 'Q-1');
  const file = fileOf(yard);
  const last = file.length - 2;
  const held = file[last] ?? '';
  const twice = held
    .replace(/"seq":\d+/, `"seq":${yard.seq() + 1}`)
    .replace(/"id":"rs_\w+"/g, '"id":"rs_zzzzzzzzzzzz"');
  const head = (file[0] ?? '').replace(/"movements":\d+/, `"movements":${yard.seq() + 1}`);
  const overlapping = [head, ...file.slice(1, last + 1), twice, file.at(-1) ?? ''];
  expect(restore(await Shop.open(), overlapping)).toMatchObject({
    ok: false,
    refusal: { why: 'archive-broken', detail: expect.stringContaining('overlap') },
  });
  const at = file.findIndex((line) => line.includes('boards-received'));
  const odd = file.with(at, (file[at] ?? '').replace('"species":"white-oak"', '"species":7'));
  expect(restore(await Shop.open(), odd)).toMatchObject({
    ok: false,
    refusal: { detail: expect.stringContaining('species') },
  });
});

test('only the owner restores', async () => {
  const file = fileOf(await livedIn(9, 10));
  const other = await Shop.open();
  const hand = { keyId: 'hand', digest: 'c'.repeat(64), scope: 'admin' as const };
  other.giveKey({ keyId: 'hand', digest: hand.digest, label: 'Hand', scopes: ['read', 'hold'] });
  expect(other.yard.core.restore(hand, 1, file)).toMatchObject({ ok: false, refusal: { why: 'not-allowed' } });
  expect(other.yard.core.restore({ ...hand, digest: 'd'.repeat(64) }, 1, file)).toMatchObject({
    ok: false,
    refusal: { why: 'wrong-key' },
  });
});
