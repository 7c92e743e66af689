/** From a command to one movement or a refusal: one exhaustive switch over what a yard can be told. Reads only. */
import { changed } from '../change.ts';
import type { Command, Occasion } from '../command.ts';
import { changedSince, type Decision, moved } from '../decision.ts';
import { type Known, YARD, yardRecord } from '../state.ts';
import { correctBoard, readMoisture, writeOffBoard } from './boards.ts';
import { setCutList } from './cut-list.ts';
import { figuresChanged } from './figures.ts';
import { changeJob, openJob } from './jobs.ts';
import { movePieces } from './pieces.ts';
import { dropPlan, keepPlan } from './plans.ts';
import { reconcile } from './reconcile.ts';
import { release } from './release.ts';
import { reserve } from './reserve.ts';
import { reservePlan } from './reserve-plan.ts';
import { openSession } from './sessions.ts';
import { takeInBoards } from './take-in-boards.ts';
import { undo } from './undo.ts';

export function decide(state: Known, command: Command, occasion: Occasion): Decision {
  switch (command.do) {
    case 'change-settings': {
      const present = yardRecord(state);
      const stale = changedSince(command.ifVersion, present.version, "The shop's figures were changed");
      if (stale) return stale;
      const changes = changed('settings', YARD, present, { settings: command.settings });
      const summary = figuresChanged(present.settings, command.settings);
      return moved({ kind: 'settings-changed', summary, changes });
    }
    case 'take-in-boards':
      return takeInBoards(state, command, occasion);
    case 'correct-board':
      return correctBoard(state, command);
    case 'read-moisture':
      return readMoisture(state, command, occasion);
    case 'write-off-board':
      return writeOffBoard(state, command);
    case 'open-job':
      return openJob(command, occasion);
    case 'change-job':
      return changeJob(state, command);
    case 'set-cut-list':
      return setCutList(state, command);
    case 'move-pieces':
      return movePieces(state, command, occasion);
    case 'keep-plan':
      return keepPlan(state, command, occasion);
    case 'drop-plan':
      return dropPlan(state, command);
    case 'reserve-plan':
      return reservePlan(state, command, occasion);
    case 'reserve':
      return reserve(state, command, occasion);
    case 'release':
      return release(state, command);
    case 'open-session':
      return openSession(state, command, occasion);
    case 'reconcile':
      return reconcile(state, command, occasion);
    case 'undo':
      return undo(state, command);
  }
}
