/** Rows of the sheet whose board the yard knows with other sizes: both are shown, and the user says which holds. */

import type { ComparedSize, DifferingBoard } from '../../sheet/compare-boards.ts';
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useReveal } from '../parts/use-reveal.ts';
import { count } from '../words/measure.ts';

export function BoardsCompared() {
  const { boardRows } = usePanel();
  const compared = boardRows.compared.value;
  if (compared === null || compared.sameCount + compared.differing.length === 0) return null;
  const { sameCount, differing } = compared;
  return (
    <>
      <p class="hint">
        {sameCount === 0 ? null : <>{count(sameCount, 'row')} are as in the yard. </>}
        {differing.length === 0 ? null : <>{count(differing.length, 'row')} differ from it:</>}
      </p>
      {differing.length === 0 ? null : (
        <ul class="plain-list">
          {differing.map((board) => (
            <li key={board.tag}>
              <Differing board={board} />
            </li>
          ))}
        </ul>
      )}
      <TaskStatus task={boardRows.correcting} />
    </>
  );
}

const names: Record<ComparedSize, string> = { lengthNm: 'Length', widthNm: 'Width', thicknessNm: 'Thickness' };

function Differing(props: { readonly board: DifferingBoard }) {
  const { boardRows } = usePanel();
  const measure = useMeasure();
  const reveal = useReveal();
  const { board } = props;
  const block = boardRows.reading.block.value;
  return (
    <>
      <button
        type="button"
        class="cell-link"
        onClick={() => block !== null && reveal({ ...block.area, row: board.sheetRow, rowCount: 1 })}
      >
        Row {board.sheetRow + 1}
      </button>{' '}
      <strong>{board.tag}</strong>
      {board.gone === null ? null : <>: the yard has it as {board.gone}</>}
      {board.differences.map((one) => (
        <p key={one.size}>
          {names[one.size]}: {measure.length(one.sheetNm)}
          {one.size === 'thicknessNm' && board.thicknessCall !== null ? ` (${board.thicknessCall})` : ''} here,{' '}
          {measure.length(one.yardNm)} in the yard
        </p>
      ))}
      {board.gone === null ? (
        <div class="row">
          <ConfirmButton
            name={`Correct the yard by this row: ${board.tag}`}
            ask={`Give ${board.tag} the sizes of this row in the yard? Choose so only where the row is the newer measurement.`}
            yes="Correct the yard"
            task={boardRows.correcting}
            onPress={() => void boardRows.correctYard(board)}
          >
            Correct the yard
          </ConfirmButton>
          <Button
            name={`Put the yard’s sizes into this row: ${board.tag}`}
            task={boardRows.correcting}
            onPress={() => void boardRows.correctSheet(board, (nm) => measure.length(nm))}
          >
            Put the yard’s sizes here
          </Button>
        </div>
      ) : null}
    </>
  );
}
