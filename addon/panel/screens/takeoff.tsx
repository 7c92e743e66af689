/** Takeoff: what the cut list needs by species and thickness, what stock covers, what to buy. */
import { Fragment } from 'preact';
import type { Takeoff, TakeoffGroup, Volume } from '../../../worker/contract/takeoff.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { Fold, Remark, Section } from '../parts/section.tsx';
import { Table, type TableRow } from '../parts/table.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useIntoSight } from '../parts/use-into-sight.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { capital, figure, m3Text, percentText } from '../words/measure.ts';
import { cutAlreadyText } from '../words/standing.ts';
import {
  type BuyingWords,
  buyingWords,
  costText,
  coverWord,
  leadText,
  shortRows,
  shortText,
} from '../words/takeoff.ts';

export function TakeoffSection() {
  const { job, cutList } = usePanel();
  const measure = useMeasure();
  const [answer, bringAnswer] = useIntoSight<HTMLDivElement>();
  const takeoff = job.takeoff.value;
  const cut = job.job.value && cutAlreadyText(job.job.value.parts);
  return (
    <Section title="Takeoff">
      <div class="row">
        <Button
          task={job.takingOff}
          onPress={async () => {
            if (await job.takeOff()) bringAnswer();
          }}
        >
          {takeoff === null ? 'Take off' : 'Take off again'}
        </Button>
        {takeoff === null ? null : (
          <Button kind="quiet" onPress={() => void cutList.writeTakeoff((nm) => measure.length(nm))}>
            Write the takeoff beside the rows
          </Button>
        )}
      </div>
      <TaskStatus task={job.takingOff} />
      {job.isTakeoffOld.value ? (
        <Remark strong>
          Boards or pieces have changed since this takeoff: it tells how things stood before. Take off again.
        </Remark>
      ) : null}
      {takeoff === null || cut === null ? null : (
        <Remark>This takeoff counts the whole cut list, but {cut} A plan cuts only what is still wanted.</Remark>
      )}
      {takeoff === null ? null : (
        <div class="answer" ref={answer}>
          <TakeoffView takeoff={takeoff} />
        </div>
      )}
    </Section>
  );
}

export function TakeoffView(props: { readonly takeoff: Takeoff }) {
  const { takeoff } = props;
  const { total } = takeoff;
  const short = new Set(takeoff.groups.flatMap((group) => shortRows(takeoff, group)));
  const warnings = takeoff.rows.filter((row) => row.warnings.length > 0 && !short.has(row));
  return (
    <>
      <Lead takeoff={takeoff} />
      {warnings.length === 0 ? null : (
        <Remark>
          <ul class="plain-list">
            {warnings.map((row) => (
              <RowWords key={row.key} label={row.label} words={row.warnings.join('; ')} />
            ))}
          </ul>
        </Remark>
      )}
      {takeoff.groups.map((group) => (
        <Group key={`${group.species} ${group.thicknessCall}`} group={group} />
      ))}
      <div class="card">
        <h4>All together</h4>
        <Volumes
          caption="All species"
          lines={[
            ['Net, finished', total.net],
            ['Rough blanks', total.rough],
            ['Gross, with waste', total.gross],
            ['To buy', total.toBuy],
          ]}
        />
      </div>
      <Fold title="What these figures assume">
        <ul class="plain-list">
          {takeoff.assumptions.map((text) => (
            <li key={text}>
              <Unbroken text={text} />
            </li>
          ))}
        </ul>
      </Fold>
    </>
  );
}

/** What to buy and what it costs, before all figures. */
function Lead(props: { readonly takeoff: Takeoff }) {
  const { takeoff } = props;
  const measure = useMeasure();
  return (
    <div class="card">
      <h4>{leadText(takeoff)}</h4>
      {takeoff.groups
        .filter((group) => group.short.m3 > 0)
        .map((group) => (
          <Fragment key={`${group.species} ${group.thicknessCall}`}>
            <Buying words={buyingWords(takeoff, group, measure)} />
            <ul class="plain-list">
              {shortRows(takeoff, group).map((row) => (
                <RowWords key={row.key} label={row.label} words={shortText(row, group)} />
              ))}
            </ul>
          </Fragment>
        ))}
      <p>
        <Unbroken text={costText(takeoff, measure)} />
      </p>
    </div>
  );
}

function Buying(props: { readonly words: BuyingWords }) {
  const { advice, beside } = props.words;
  return (
    <p>
      {advice === null ? null : <strong>{advice}</strong>}
      {advice === null || beside === null ? null : <br />}
      {beside}
    </p>
  );
}

function RowWords(props: { readonly label: string; readonly words: string }) {
  return (
    <li>
      <strong>{props.label}</strong>: <Unbroken text={props.words} />
    </li>
  );
}

function Group(props: { readonly group: TakeoffGroup }) {
  const { group } = props;
  const measure = useMeasure();
  const lines: (readonly [string, Volume])[] = [
    ['Net, finished', group.net],
    ['Rough blanks', group.rough],
    ['Gross, with waste', group.gross],
    ['In stock, fits and dry enough', group.inStock],
  ];
  if (group.inStockThicker.boardFeet > 0) lines.push(['of it thicker than called', group.inStockThicker]);
  if (group.inStockWet.boardFeet > 0) lines.push(['In stock, still wet', group.inStockWet]);
  lines.push(['Short', group.short], ['To buy', group.toBuy]);
  const short = group.short.boardFeet > 0;
  const dryNm = group.widestBlankDryNm;
  const drier =
    dryNm < group.widestBlankNm
      ? ` at the wettest allowed, ${percentText(group.widestBlankAtPercent)} (${measure.length(dryNm)} in drier boards)`
      : '';
  return (
    <div class="card">
      <div class="card-head">
        <h4>
          {capital(group.speciesName)} {group.thicknessCall}
        </h4>
        <span>{coverWord(group)}</span>
      </div>
      <Volumes caption={`${group.speciesName} ${group.thicknessCall}`} lines={lines} />
      <p class="hint">
        <Unbroken
          text={[
            `Longest blank ${measure.length(group.longestBlankNm)}`,
            group.longestBoardNm === null
              ? ', no board. '
              : `, longest board ${measure.length(group.longestBoardNm)}. `,
            `Widest blank ${measure.length(group.widestBlankNm)}${drier}`,
            group.widestBoardNm === null ? '.' : `, widest board ${measure.length(group.widestBoardNm)}.`,
          ].join('')}
        />
        {' In stock counts only boards long, wide and flat enough for a part.'}
        {group.costMinor === null ? '' : ` Gross wood at the shop’s price: about ${measure.money(group.costMinor)}.`}
        {!short && group.inStock.m3 < group.gross.m3
          ? ' Less than gross, yet every blank has a place: it comes out with less waste than reckoned.'
          : ''}
      </p>
      {group.warnings.map((warning) => (
        <Remark key={warning} strong={short}>
          <Unbroken text={warning} />
        </Remark>
      ))}
    </div>
  );
}

function Volumes(props: { readonly caption: string; readonly lines: readonly (readonly [string, Volume])[] }) {
  return (
    <Table
      caption={props.caption}
      captionHidden
      heads={['', 'bf', 'm³']}
      figures={[1, 2]}
      rows={props.lines.map(
        ([name, volume]): TableRow => ({
          key: name,
          cells: [name, figure(volume.boardFeet, 1), m3Text(volume.m3).replace(/ m³$/, '')],
          sum: name === 'To buy',
        }),
      )}
    />
  );
}
