/** The price list of the sheet: what it says, what that changes, and then into the shop's prices. */
import { useEffect, useState } from 'preact/hooks';
import type { Settings } from '../../../worker/contract/settings.ts';
import type { Block } from '../../host/host.ts';
import {
  isSamePrice,
  type PriceColumns,
  type PricedBy,
  type PriceRow,
  priceColumns,
  readPriceRows,
} from '../../sheet/read-prices.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { Remark } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useReveal } from '../parts/use-reveal.ts';
import { ROW_COUNT_MAX } from '../state/sheet-reading.ts';
import { makeTask } from '../state/task.ts';
import { count, speciesText } from '../words/measure.ts';

type Price = Settings['prices'][number];

const NO_LIST =
  'No price list stands at the selection. Click a cell of a table with a species, a thickness and a price a board foot, a m³ or a m² over its columns.';

export function PricesFromSheet(props: { readonly settings: Settings }) {
  const { host, shell } = usePanel();
  const [task] = useState(makeTask);
  const [list, setList] = useState<{ readonly block: Block; readonly columns: PriceColumns } | null>(null);
  const read = () =>
    task.run('Reading the sheet', async () => {
      setList(null);
      const block = await host.readSelection({ expand: 'table', rowCountMax: ROW_COUNT_MAX });
      const columns = priceColumns(block);
      if (columns === null) return { kind: 'told', help: NO_LIST };
      setList({ block, columns });
      return null;
    });
  const asked = shell.fromSheet.value === 'prices';
  // biome-ignore lint/correctness/useExhaustiveDependencies: read once each time that it is asked for
  useEffect(() => {
    if (!asked) return;
    shell.fromSheet.value = null;
    void read();
  }, [asked]);
  return (
    <>
      <Button task={task} onPress={() => void read()}>
        Read prices from the sheet
      </Button>
      <TaskStatus task={task} />
      {list === null ? null : <PriceList {...list} settings={props.settings} onDone={() => setList(null)} />}
    </>
  );
}

const BY: readonly { readonly value: PricedBy; readonly label: string }[] = [
  { value: 'board-foot', label: 'a board foot' },
  { value: 'thousand-board-feet', label: 'a thousand board feet' },
  { value: 'm3', label: 'a m³' },
  { value: 'm2', label: 'a m² of its thickness' },
];

function PriceList(props: {
  readonly block: Block;
  readonly columns: PriceColumns;
  readonly settings: Settings;
  readonly onDone: () => void;
}) {
  const { yard } = usePanel();
  const measure = useMeasure();
  const reveal = useReveal();
  const { block, columns, settings } = props;
  const { sheet } = block.area;
  const [by, setBy] = useState<PricedBy>(columns.pricedBy ?? (settings.shown === 'in' ? 'board-foot' : 'm3'));
  const shop = { system: settings.shown, ownWoods: settings.ownWoods, currency: settings.currency };
  const { rows, faults } = readPriceRows(block, columns, by, shop);
  const otherMoney = columns.currency !== null && columns.currency !== settings.currency ? columns.currency : null;
  const changes = rows.filter((row) => before(row, settings)?.minorPerBoardFoot !== row.minorPerBoardFoot);
  const takeIn = async () => {
    const kept = settings.prices.filter((price) => !changes.some((row) => isSamePrice(row, price)));
    const taken = changes.map(({ sheetRow: _row, ...price }): Price => price);
    if (await yard.change({ ...settings, prices: [...kept, ...taken] })) props.onDone();
  };
  return (
    <div class="form">
      <ChoiceField label={`Prices on “${sheet}” are for`} value={by} options={BY} onPick={setBy} />
      {otherMoney === null ? null : (
        <Remark strong>
          This list is in {otherMoney}, the shop counts in {settings.currency}. Keep {otherMoney} as the currency below,
          or change the list, before it is taken in.
        </Remark>
      )}
      <ul class="plain-list">
        {rows.map((row) => (
          <li key={row.sheetRow}>
            {priceName(row)}: <strong>{measure.money(row.minorPerBoardFoot)}</strong>
            {by === 'board-foot' ? '' : ' a board foot'}{' '}
            <span class="hint">{differs(row, settings, measure.money)}</span>
          </li>
        ))}
        {faults.map((fault) => (
          <li key={fault.address}>
            <button
              type="button"
              class="cell-link"
              onClick={() => reveal({ sheet, row: fault.sheetRow, column: fault.column, rowCount: 1, columnCount: 1 })}
            >
              {fault.address}
            </button>{' '}
            left out: {fault.help}
          </li>
        ))}
      </ul>
      {changes.length === 0 ? (
        <p class="hint">The shop has these prices already.</p>
      ) : (
        <Button kind="primary" task={yard.changing} off={otherMoney !== null} onPress={() => void takeIn()}>
          Take in {count(changes.length, 'price')}
        </Button>
      )}
      <Button kind="quiet" onPress={props.onDone}>
        Leave the prices as they are
      </Button>
    </div>
  );
}

/** A thickness that the list does not name is left as it is: what the shop has for it may be its own. */
const before = (row: PriceRow, settings: Settings): Price | undefined =>
  settings.prices.find((price) => isSamePrice(price, row));

function differs(row: PriceRow, settings: Settings, money: (minor: number) => string): string {
  const was = before(row, settings)?.minorPerBoardFoot;
  if (was === undefined) return 'new';
  return was === row.minorPerBoardFoot ? 'as it is' : `was ${money(was)}`;
}

export const priceName = ({ species, thicknessCall }: Pick<Price, 'species' | 'thicknessCall'>): string =>
  `${speciesText(species)}${thicknessCall === null ? ', any thickness' : ` ${thicknessCall}`}`;
