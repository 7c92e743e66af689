/** What can be worked on now, what waits, what is wanted again; and the steps themselves. */

import { useState } from 'preact/hooks';
import type { JobWithParts, PartWithPieces, Piece, PieceStep } from '../../../worker/contract/job.ts';
import { dayTextBeside } from '../../../worker/wood/day.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { type Step, type Wait, type Work, workOf } from '../state/work.ts';
import { count, momentText } from '../words/measure.ts';
import { piecesText } from '../words/standing.ts';
import { layerWords } from '../words/trade.ts';

const doing: Record<Step, string> = {
  judge: 'rested: look at it',
  'glue-up': 'all layers passed: glue up',
  mill: 'ready to mill',
};

export function WorkSection(props: { readonly job: JobWithParts }) {
  const { shell, job: state } = usePanel();
  const today = shell.today();
  const work = workOf(props.job, today, shell.nowMs());
  return (
    <>
      <Section title="Can be worked on now">
        {work.now.length === 0 ? (
          <p class="hint">Nothing by hand just now. What is wanted or planned waits for the saw, under Cuts.</p>
        ) : (
          <ul class="plain-list">
            {work.now.map((one) => (
              <li key={`${one.part.key} ${one.step}`}>
                <WorkLine work={one} />
              </li>
            ))}
          </ul>
        )}
        <TaskStatus task={state.writing} />
      </Section>
      {work.waiting.length === 0 ? null : (
        <Section title="Waits">
          <ul class="plain-list">
            {work.waiting.map((wait) => (
              <li key={`${wait.part.key} ${wait.why} ${wait.pieces[0]?.restingUntil} ${wait.pieces[0]?.curingUntilMs}`}>
                <WaitLine wait={wait} />
              </li>
            ))}
          </ul>
        </Section>
      )}
      {work.again.length === 0 ? null : (
        <Section title="Wanted again">
          <ul class="plain-list">
            {work.again.map(({ part, pieces }) =>
              [...new Set(pieces.map((piece) => piece.element))].map((element) => (
                <li key={`${part.key} ${element}`}>
                  {pieces.filter((piece) => piece.element === element).length} × {part.label}
                  {layerWords(element, part)}
                </li>
              )),
            )}
          </ul>
        </Section>
      )}
    </>
  );
}

/** A part with what it waits for; also for other screens. */
export function WaitLine(props: { readonly wait: Wait; readonly jobName?: string }) {
  const { shell } = usePanel();
  const { part, pieces, why } = props.wait;
  const [first] = pieces;
  if (first === undefined) return null;
  const today = shell.today();
  return (
    <>
      {part.label}, {piecesText(pieces, part)}
      <br />
      <span class="hint">
        {props.jobName === undefined ? '' : `${props.jobName}: `}
        {why === 'resting' && first.restingUntil !== null
          ? `resting until ${dayTextBeside(first.restingUntil, today)}`
          : `curing until ${momentText(first.curingUntilMs ?? 0, today)}`}
      </span>
    </>
  );
}

function WorkLine(props: { readonly work: Work }) {
  const { job } = usePanel();
  const { part, step, pieces } = props.work;
  const [failing, setFailing] = useState<string | null>(null);
  const [why, setWhy] = useState('');
  const move = (which: readonly Piece[], to: PieceStep['to'], reason = '') =>
    void job.move(
      which.map((piece) => ({ partKey: part.key, no: piece.no, element: piece.element, to, why: reason })),
      `${count(which.length, 'piece')} of ${part.label}: ${to === 'glued-up' ? 'glued up' : to}.`,
    );
  return (
    <>
      <p>
        <strong>{part.label}</strong> <span class="hint">{doing[step]}</span>
      </p>
      {step === 'judge' && pieces.length > 1 ? (
        <Button task={job.writing} onPress={() => move(pieces, 'passed')}>
          All {pieces.length} passed
        </Button>
      ) : null}
      <ul class="steps">
        {pieces.map((piece) => {
          const name = pieceName(part, piece);
          const key = `${piece.no} ${piece.element}`;
          if (step !== 'judge') {
            const to = step === 'glue-up' ? 'glued-up' : 'milled';
            return (
              <li key={key} class="row spread">
                <span>{shortName(part, piece)}</span>
                <Button
                  task={job.writing}
                  name={`${step === 'glue-up' ? 'Glued up' : 'Milled'}: ${name}`}
                  onPress={() => move([piece], to)}
                >
                  {step === 'glue-up' ? 'Glued up' : 'Milled'}
                </Button>
              </li>
            );
          }
          return (
            <li key={key}>
              <div class="row spread">
                <span>{shortName(part, piece)}</span>
                <span class="row">
                  <Button task={job.writing} name={`Passed: ${name}`} onPress={() => move([piece], 'passed')}>
                    Passed
                  </Button>
                  <Button name={`Failed: ${name}`} expanded={failing === key} onPress={() => setFailing(key)}>
                    Failed
                  </Button>
                </span>
              </div>
              {failing === key ? (
                <div class="form">
                  <TextField label={`Why did ${name} fail?`} value={why} onInput={setWhy} placeholder="warped" />
                  <Button
                    task={job.writing}
                    off={why.trim() === ''}
                    onPress={() => {
                      move([piece], 'failed', why.trim());
                      setFailing(null);
                      setWhy('');
                    }}
                  >
                    Failed: want another
                  </Button>
                </div>
              ) : null}
            </li>
          );
        })}
      </ul>
      {step === 'glue-up' ? (
        <p class="hint">Clamp and cure by the glue maker’s sheet; the shop’s curing time starts now.</p>
      ) : null}
    </>
  );
}

function shortName(part: PartWithPieces, piece: Piece): string {
  return `no. ${piece.no}${layerWords(piece.element, part)}`;
}

function pieceName(part: PartWithPieces, piece: Piece): string {
  return `${part.label} ${shortName(part, piece)}`;
}
