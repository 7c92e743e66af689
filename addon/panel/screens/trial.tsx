/** Before a yard is connected: the list of the sheet as Heartside reads it. Nothing is written and nothing is sent. */
import { useMemo, useState } from 'preact/hooks';
import { readBoardRows } from '../../sheet/read-boards.ts';
import { readPartRows } from '../../sheet/read-parts.ts';
import { tableKind } from '../../sheet/table-kind.ts';
import { useCore } from '../panel.ts';
import { ChoiceField } from '../parts/field.tsx';
import { View } from '../parts/section.tsx';
import { useOnce } from '../parts/use-once.ts';
import { makeSheetReading, ROW_COUNT_MAX } from '../state/sheet-reading.ts';
import { BoardLine } from './board-intake.tsx';
import { PartLine } from './cut-list-intake.tsx';
import { SheetRows } from './sheet-rows.tsx';

export function Trial(props: { readonly onBack: () => void }) {
  const { host } = useCore();
  const [kind, setKind] = useState<'boards' | 'parts'>('boards');
  const [system, setSystem] = useState<'in' | 'mm'>('in');
  const boards = useMemo(() => makeSheetReading(host, 'boards', readBoardRows), [host]);
  const parts = useMemo(() => makeSheetReading(host, 'parts', readPartRows), [host]);
  const read = (as: 'boards' | 'parts', unit: 'in' | 'mm') => {
    const reading = as === 'boards' ? boards : parts;
    reading.setDefaults({ ...reading.defaults.value, system: unit });
    void reading.read();
  };
  useOnce(() => {
    void host
      .readSelection({ expand: 'table', rowCountMax: ROW_COUNT_MAX })
      .then(
        (around) => (tableKind(around) === 'parts' ? 'parts' : 'boards'),
        () => 'boards' as const,
      )
      .then((found) => {
        setKind(found);
        read(found, system);
      });
  });
  return (
    <View title="Your list as it is read" back="Connect" onBack={props.onBack}>
      <p class="hint">Nothing is written and nothing leaves this sheet. Connect a yard to keep what is read.</p>
      <ChoiceField
        label="It is"
        value={kind}
        options={[
          { value: 'boards', label: 'a board list' },
          { value: 'parts', label: 'a cut list' },
        ]}
        onPick={(picked) => {
          setKind(picked);
          read(picked, system);
        }}
      />
      <ChoiceField
        label="Plain numbers are"
        value={system}
        options={[
          { value: 'in', label: 'inches' },
          { value: 'mm', label: 'millimetres' },
        ]}
        onPick={(picked) => {
          setSystem(picked);
          read(kind, picked);
        }}
      />
      {kind === 'boards' ? (
        <SheetRows reading={boards} noun={['board', 'boards']} line={(draft) => <BoardLine draft={draft} />}>
          {() => null}
        </SheetRows>
      ) : (
        <SheetRows reading={parts} noun={['part', 'parts']} line={(draft) => <PartLine draft={draft} />}>
          {() => null}
        </SheetRows>
      )}
    </View>
  );
}
