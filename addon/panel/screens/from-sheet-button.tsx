/** The way to the rows of the sheet, on the first screen of Stock and of Job. It names what is selected there. */
import type { ComponentChildren } from 'preact';
import { useCore } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { count } from '../words/measure.ts';

export function FromSheetButton(props: {
  readonly what: 'boards' | 'parts';
  /** What this screen is for, as long as it has nothing else to show. */
  readonly first: boolean;
  /** The words where nothing is selected that could be counted. */
  readonly children: ComponentChildren;
}) {
  const { shell, whole } = useCore();
  const selected = whole.loaded.value?.selectedRows.now.value ?? null;
  // The first screen of all also leads to the cut list and the prices; the job's own screen is for its parts only.
  const named = selected !== null && (selected.want === props.what || props.what === 'boards') ? selected : null;
  if (named === null) {
    return (
      <Button kind={props.first ? 'primary' : 'plain'} onPress={() => shell.takeFromSheet(props.what, 'table')}>
        {props.children}
      </Button>
    );
  }
  return (
    <Button
      kind="primary"
      onPress={() => shell.takeFromSheet(named.want, named.want === 'prices' ? 'table' : 'selected')}
    >
      Read {count(named.count, named.want.slice(0, -1))} from the sheet
    </Button>
  );
}
