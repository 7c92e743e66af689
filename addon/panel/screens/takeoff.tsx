/** Takeoff: what the cut list needs by species and thickness, what stock covers, what to buy. */
import type { Takeoff, TakeoffGroup, Volume } from '../../../worker/contract/takeoff.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { Fold, Remark, Section } from '../parts/section.tsx';
import { Table, type TableRow } from '../parts/table.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { capital, figure, m3Text, percentText, weightText } from '../words/measure.ts';
import { cutAlreadyText } from '../words/standing.ts';

export function TakeoffSection() {
  const { job, cutList } = usePanel();
  const measure = useMeasure();
  const takeoff = job.takeoff.value;
  const cut = job.job.value && cutAlreadyText(job.job.value.standing);
  return (
    <Section title="Takeoff">
      <div class="row">
        <Button task={job.takingOff} onPress={() => void job.takeOff()}>
          Take off
        </Button>
        {takeoff === null ? null : (
          <Button kind="quiet" onPress={() => void cutList.writeTakeoff((nm) => measure.length(nm))}>
            Write the takeoff beside the rows
          </Button>
        )}
      </div>
      <TaskStatus task={job.takingOff} />
      {takeoff === null || cut === null ? null : (
        <Remark>This takeoff counts the whole cut list, but {cut} A plan cuts only what is still wanted.</Remark>
      )}
      {takeoff === null ? null : <TakeoffView takeoff={takeoff} />}
    </Section>
  );
}

export function TakeoffView(props: { readonly takeoff: Takeoff }) {
  const { takeoff } = props;
  const measure = useMeasure();
  const { total } = takeoff;
  const warnings = takeoff.rows.filter((row) => row.warnings.length > 0);
  return (
    <>
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
        <p>
          Finished parts weigh about {weightText(total.weightKg, measure.system)}.
          {total.costMinor === null ? '' : ` Their gross wood is worth about ${measure.money(total.costMinor)}.`}
          {total.buyMinor === null || total.toBuy.boardFeet === 0
            ? ''
            : ` What is to buy costs about ${measure.money(total.buyMinor)}.`}
        </p>
      </div>
      {warnings.length === 0 ? null : (
        <Remark>
          <ul class="plain-list">
            {warnings.map((row) => (
              <li key={row.key}>
                <strong>{row.label}</strong>: <Unbroken text={row.warnings.join(' ')} />
              </li>
            ))}
          </ul>
        </Remark>
      )}
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
        <span>{short ? 'short' : 'covered'}</span>
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
        {group.costMinor === null ? '' : ` Gross wood worth about ${measure.money(group.costMinor)}.`}
        {group.buyMinor === null || !short ? '' : ` To buy: about ${measure.money(group.buyMinor)}.`}
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
