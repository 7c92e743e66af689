/** Where a board's wood went, in board feet, line by line; and whether the account closes, to the last nanometre. */
import { accountLines, line, openNm3, shownHundredths, type WoodAccount } from '../state/wood-account.ts';
import { capital } from '../words/measure.ts';
import { accountWords } from '../words/trade.ts';
import { Table } from './table.tsx';

export function Balance(props: { readonly account: WoodAccount; readonly of: string }) {
  const { account } = props;
  const open = openNm3(account);
  const over = account.scrapNm3 < 0n ? -account.scrapNm3 : 0n;
  const used = accountLines.filter((name) => line(account, name) !== 0n);
  if (open !== 0n || over > 0n) {
    const outOfFailed = account.failedNm3 > 0n && account.offcutsNm3 > 0n;
    const shown = shownHundredths(over > 0n ? over : open < 0n ? -open : open, []);
    return (
      <p class="fault" role="alert">
        {over > 0n || open < 0n
          ? `${feet(shown.total)} bf more is written down than ${props.of} had. Look at the counts and sizes.${outOfFailed ? ' Was an offcut kept out of a failed piece? Shorten that piece by what is kept.' : ''}`
          : `${feet(shown.total)} bf of ${props.of} is not accounted for.`}
      </p>
    );
  }
  const { total, lines } = shownHundredths(
    account.inNm3,
    used.map((name) => line(account, name)),
  );
  return (
    <Table
      caption={`Wood of ${props.of}`}
      heads={['', 'bf']}
      figures={[1]}
      rows={[
        ...used.map((name, index) => ({
          key: name,
          cells: [capital(accountWords[name]), feet(lines[index] ?? 0)],
        })),
        { key: 'in', cells: ['Went in; it closes', feet(total)], sum: true },
      ]}
    />
  );
}

function feet(hundredths: number): string {
  return (hundredths / 100).toFixed(2);
}
