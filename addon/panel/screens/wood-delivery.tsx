/** A delivery that is in stock, against its bill: the tally with the money, and the grades against what was paid. */
import { useState } from 'preact/hooks';
import type { Answer } from '../../../worker/contract/wire.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { Empty, type Fact, Facts } from '../parts/section.tsx';
import { Table } from '../parts/table.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Trust } from '../parts/trust.tsx';
import { useAsked } from '../parts/use-asked.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { useReload } from '../parts/use-reload.ts';
import { count, figure, moneyText } from '../words/measure.ts';
import { readNumber } from '../words/typed.ts';

type Checked = Answer<'checkDelivery'>;

export function DeliveryForm() {
  const { drying } = usePanel();
  const measure = useMeasure();
  const check = useAsked('checkDelivery', 'Tallying the boards');
  useReload(() => drying.boards.load());
  const boards = drying.boards.items.value;
  const names = [...new Set((boards ?? []).map(({ delivery }) => delivery.trim()))].filter((name) => name !== '');
  const [picked, setPicked] = useState('');
  const [billed, setBilled] = useState('');
  const [price, setPrice] = useState('');
  const delivery = picked === '' ? (names[0] ?? '') : picked;
  const [billedBf, perBf] = [readNumber(billed), measure.readMoney(price)];
  if (boards !== null && names.length === 0) {
    return (
      <Empty title="No delivery to check">
        <p>Boards that came together have the same word in their Delivery column. Read them in with it.</p>
      </Empty>
    );
  }
  const ask = () => {
    void check.ask({
      body: {
        delivery,
        ...(billedBf === null ? {} : { statedBf: billedBf }),
        minorPerBoardFoot: perBf,
      },
    });
  };
  const answer = check.answer.value;
  return (
    <div class="form">
      <TaskStatus task={drying.boards.task} />
      <SelectField
        label="Delivery"
        value={delivery}
        options={names.map((value) => ({ value, label: value }))}
        onPick={setPicked}
      />
      <div class="pair">
        <TextField label="Billed, board feet" numeric value={billed} onInput={setBilled} />
        <TextField label="Price a board foot" numeric value={price} onInput={setPrice} onEnter={ask} />
      </div>
      <Button kind="primary" task={check.task} off={delivery === ''} onPress={ask}>
        Check it
      </Button>
      <TaskStatus task={check.task} />
      {answer === null ? null : (
        <>
          <Facts facts={tallyFacts(answer)} />
          <p>{answer.gradeWords}</p>
          <Grades answer={answer} />
          <Trust sources={answer.sources} notes={answer.notes} />
        </>
      )}
    </div>
  );
}

function tallyFacts({ boards, tally, tallyBf, short }: Checked): Fact[] {
  const facts: Fact[] = [
    { name: 'Came', value: count(boards, 'board') },
    { name: 'Tally', value: `${figure(tallyBf, 0)} bf by surface measure` },
  ];
  if (tally !== null) {
    facts.push({ name: 'Bill', value: tally.words });
    if (tally.overstatedMinor !== null) {
      const over = tally.overstatedMinor > 0;
      facts.push({
        name: over ? 'Billed too much' : 'Billed too little',
        value: moneyText(Math.abs(tally.overstatedMinor), tally.currency),
      });
    }
  }
  if (short.boards > 0) facts.push({ name: 'Short of grade', value: `${figure(short.tallyBf, 1)} bf` });
  return facts;
}

function Grades(props: { readonly answer: Checked }) {
  return (
    <Table
      caption="Grades by measured defects"
      heads={['Tag', 'Paid', 'Makes', '']}
      rows={props.answer.grades.map((row) => ({
        key: row.boardId,
        cells: [
          row.tag,
          row.paid ?? '–',
          row.made,
          row.reached === null ? 'no defects measured' : row.reached ? 'makes it' : 'short',
        ],
      }))}
    />
  );
}
