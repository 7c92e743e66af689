/** Everything that the global functions of the Google script call. */
import './older-engine.ts';
import { formula } from './formula.ts';
import { askFormulaAccess, askFormulaUnit } from './formula-access.ts';
import { host } from './host-calls.ts';
import {
  onOpen,
  openFormulaHelp,
  openHelp,
  openSidebar,
  refreshStatus,
  restOfSidebar,
  undoLastWrite,
  useSelection,
} from './pages.ts';

export const script = {
  formula,
  askFormulaAccess,
  askFormulaUnit,
  host,
  onOpen,
  openFormulaHelp,
  openSidebar,
  refreshStatus,
  restOfSidebar,
  openHelp,
  undoLastWrite,
  useSelection,
};
