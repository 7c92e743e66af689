/** Offcuts: what a piece of wood can still make, and the other way round, the best home for a part. */
import { useState } from 'preact/hooks';
import type { PartWithPieces } from '../../../worker/contract/job.ts';
import type { HomesAnswer, UsesAnswer } from '../../../worker/contract/plan.ts';
import { usePanel } from '../panel.ts';
import { Drawing } from '../parts/drawing.tsx';
import { ChoiceField, SelectField } from '../parts/field.tsx';
import { LayerWords } from '../parts/layer-words.tsx';
import { RowList } from '../parts/row-list.tsx';
import { Empty, Fold, MoreButton, Section, View } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useReload } from '../parts/use-reload.ts';
import { percentText } from '../words/measure.ts';
import { toCutOf } from '../words/standing.ts';
import { layersOfKind } from '../words/trade.ts';
import { JobPicker } from './job-picker.tsx';
import { SizeForm } from './size-form.tsx';
import { boardRow } from './stock.tsx';

export function Offcuts() {
  const { offcuts } = usePanel();
  const uses = offcuts.uses.value;
  const homes = offcuts.homes.value;
  if (uses !== null) return <Uses uses={uses} about={offcuts.about.value} onBack={() => offcuts.leave()} />;
  if (homes !== null) return <Homes homes={homes} about={offcuts.about.value} onBack={() => offcuts.leave()} />;
  return (
    <>
      <h2>Offcuts</h2>
      <ChoiceField
        label="Question"
        value={offcuts.asking.value}
        options={[
          { value: 'uses', label: 'What can this piece still make?' },
          { value: 'homes', label: 'Which board for this part?' },
        ]}
        onPick={(asking) => {
          offcuts.asking.value = asking;
        }}
      />
      <TaskStatus task={offcuts.task} />
      {offcuts.asking.value === 'uses' ? <AskUses /> : <AskHomes />}
    </>
  );
}

function AskUses() {
  const { offcuts } = usePanel();
  const measure = useMeasure();
  useReload(() => offcuts.offcuts.load());
  const items = offcuts.offcuts.items.value;
  return (
    <>
      <Fold title="A piece that is not in the stock" open={items?.length === 0}>
        <SizeForm
          asksMoisture
          act="What can it make?"
          task={offcuts.task}
          onAsk={(size) => void offcuts.askUses({ size }, `${measure.size(size)}`)}
        />
      </Fold>
      <TaskStatus task={offcuts.offcuts.task} />
      {items === null ? null : items.length === 0 ? (
        <Empty title="No offcuts yet">
          <p>
            Offcuts come in by themselves when a cutting session is written down, with the tags that you give them.
            Those that lie in the bin already are read from the sheet like boards, under Stock: say there that they are
            offcuts.
          </p>
        </Empty>
      ) : (
        <Section title="Offcuts in the stock">
          <RowList
            label="Offcuts"
            rows={items.map(boardRow)}
            onOpen={(id) => {
              const board = items.find((item) => item.id === id);
              if (board !== undefined) void offcuts.askUses({ boardId: id }, board.tag);
            }}
          />
          <MoreButton pages={offcuts.offcuts} />
        </Section>
      )}
    </>
  );
}

function AskHomes() {
  const { offcuts, job } = usePanel();
  const measure = useMeasure();
  const [picked, setPicked] = useState('');
  useReload(async () => {
    if (job.jobs.items.value === null) await job.load();
    // What was cut meanwhile is no longer asked for.
    if (job.openId.value !== null) await job.open(job.openId.value);
  });
  const parts = job.job.value?.parts ?? [];
  const choices = parts.flatMap(toCutChoices);
  return (
    <>
      <JobPicker />
      {parts.length > 0 && choices.length === 0 ? (
        <p class="hint">Everything on this cut list is cut. A piece that fails is wanted again and stands here then.</p>
      ) : null}
      {choices.length === 0 ? null : (
        <SelectField
          label="Part"
          value={picked}
          options={[
            { value: '', label: 'choose a part' },
            ...choices.map((choice) => ({ value: choice.key, label: toCutText(choice) })),
          ]}
          onPick={(key) => {
            setPicked(key);
            const choice = choices.find((one) => one.key === key);
            const jobId = job.openId.value;
            if (choice === undefined || jobId === null) return;
            const { part, element } = choice;
            void offcuts.askHomes({ jobId, partKey: part.key, element }, part.label + layersOfKind(element, 1, part));
          }}
        />
      )}
      <Fold title="A size of your own" open={choices.length === 0}>
        <SizeForm
          asksMoisture={false}
          act="Which board?"
          task={offcuts.task}
          onAsk={({ species, lengthNm, widthNm, thicknessNm }) =>
            void offcuts.askHomes(
              { size: { species, lengthNm, widthNm, thicknessNm } },
              measure.size({ lengthNm, widthNm, thicknessNm }),
            )
          }
        />
      </Fold>
    </>
  );
}

/** What of a part is still to cut: the part itself, each of its plies, or its staves, which are all alike. */
export function toCutChoices(part: PartWithPieces) {
  const pieces = toCutOf(part);
  const kinds = part.lamination?.kind === 'staves' ? pieces.slice(0, 1) : pieces;
  return [...new Set(kinds.map((piece) => piece.element))].map((element) => ({
    key: `${part.key} ${element ?? ''}`,
    part,
    element,
    toCut: part.lamination?.kind === 'staves' ? pieces.length : pieces.filter((one) => one.element === element).length,
  }));
}

/** "Table top, staves: 3 to cut" */
export const toCutText = ({ part, element, toCut }: ReturnType<typeof toCutChoices>[number]): string =>
  `${part.label}${layersOfKind(element, toCut, part)}: ${toCut} to cut`;

function Uses(props: { readonly uses: UsesAnswer; readonly about: string; readonly onBack: () => void }) {
  const { uses } = props;
  const { best } = uses;
  return (
    <View title={`${props.about} can still make`} back="Offcuts" onBack={props.onBack}>
      {uses.parts.length === 0 ? <Empty title="No open part fits it">{null}</Empty> : null}
      {best.layout === null || uses.parts.length === 1 ? null : (
        <Section title="The best mixture of them">
          <p class="hint">Together they take up {percentText(best.worthPercent)} of the piece.</p>
          <Drawing drawing={best.layout.drawing} />
        </Section>
      )}
      {uses.parts.map((one) => (
        <div class="card" key={`${one.jobId} ${one.partKey} ${one.element}`}>
          <div class="card-head">
            <h3>
              {one.count} × {one.label}
              <LayerWords of={one} />
            </h3>
            <span class="hint">
              {one.jobName}, {one.wanted} wanted
            </span>
          </div>
          <Drawing drawing={one.drawing} />
        </div>
      ))}
      <NotThese
        open={uses.parts.length === 0}
        list={uses.not.map((one) => ({ key: `${one.jobName} ${one.label}`, name: one.label, why: one.why }))}
      />
    </View>
  );
}

function Homes(props: { readonly homes: HomesAnswer; readonly about: string; readonly onBack: () => void }) {
  const { stock, shell } = usePanel();
  const measure = useMeasure();
  const { homes } = props;
  return (
    <View title={`Boards for ${props.about}`} back="Offcuts" onBack={props.onBack}>
      <p class="hint">
        Rough size in the wettest wood allowed: <Unbroken text={measure.size(homes.rough)} />.
        {homes.homes.length === 0 ? null : ' Each board says what is cut from it, as dry as it is.'}
      </p>
      {homes.homes.length === 0 ? (
        <Empty title="No free board can give it">
          <p>Why stands below, nearest first.</p>
        </Empty>
      ) : null}
      {homes.homes.map((home) => (
        <div class="card" key={home.boardId}>
          <div class="card-head">
            <h3>
              <button
                type="button"
                class="cell-link"
                onClick={() => {
                  shell.tab.value = 'Stock';
                  void stock.open(home.boardId);
                }}
              >
                {home.tag}
              </button>
            </h3>
            <span class="hint">{[home.isOffcut ? 'offcut' : '', home.place].filter(Boolean).join(', ')}</span>
          </div>
          <p>
            <Unbroken
              text={`Cut ${measure.length(home.needs.widthNm)} wide and ${measure.length(home.needs.lengthNm)} long; ${home.why}.`}
            />
          </p>
          <Drawing drawing={home.drawing} />
        </div>
      ))}
      <NotThese
        open={homes.homes.length === 0}
        list={homes.not.map((one) => ({ key: one.tag, name: one.tag, why: one.why }))}
      />
    </View>
  );
}

function NotThese(props: {
  /** Nothing else is there to read. */
  readonly open: boolean;
  readonly list: readonly { readonly key: string; readonly name: string; readonly why: string }[];
}) {
  if (props.list.length === 0) return null;
  return (
    <Fold title="Not these, and why" open={props.open}>
      <ul class="plain-list">
        {props.list.map((one) => (
          <li key={one.key}>
            <strong>{one.name}</strong>: <Unbroken text={one.why} />
          </li>
        ))}
      </ul>
    </Fold>
  );
}
