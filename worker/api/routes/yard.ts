/** Routes of the yard as a whole: facts, settings, offcut questions, the journal. */
import { contractVersion } from '../../contract/routes.ts';
import { homesFor, usesOf } from '../../planner/offcut.ts';
import { good, type Handler, refuse } from '../serve.ts';
import { worthIn } from '../worth.ts';
import { pageAsk } from './boards.ts';
import { noJob } from './jobs.ts';
import { priceFaults } from './price-faults.ts';
import { nameSlip, refusedAt } from './wood-call.ts';

const noYard = refuse('not-found', 'There is no such yard.');

const readYard: Handler<'readYard'> = async (call) => {
  const facts = await call.ask('yard-facts', {});
  if (!facts.ok) return facts;
  return facts.value
    ? good({
        contract: contractVersion,
        ...facts.value,
        you: { label: facts.value.you.label, scopes: [...facts.value.you.scopes] },
      })
    : noYard;
};

const changeSettings: Handler<'changeSettings'> = async (call) => {
  const facts = await call.ask('yard-facts', {});
  if (!facts.ok) return facts;
  if (!facts.value) return noYard;
  const faults = priceFaults(call.body, facts.value.settings.prices);
  if (faults.length > 0)
    return refuse('invalid-input', 'A price is for no wood or thickness; nothing was changed.', faults);
  const told = await call.tell({ do: 'change-settings', settings: call.body, ifVersion: call.version });
  if (!told.ok) return told;
  const { seq, shown } = told.value;
  return good({ settings: call.body, version: shown?.settings?.version ?? seq, seq });
};

const offcutUses: Handler<'offcutUses'> = async (call) => {
  const { boardId, size, jobIds } = call.body;
  if ((boardId === undefined) === (size === undefined)) {
    return refuse('invalid-input', 'Ask either for a board of the yard or for a size.', [
      { pointer: '/boardId', help: 'send boardId or size, one of the two' },
    ]);
  }
  const snapshot = await call.ask('snapshot', {
    jobIds: jobIds ?? null,
    boards: { which: 'named', ids: boardId === undefined ? [] : [boardId] },
  });
  if (!snapshot.ok) return snapshot;
  if (!snapshot.value) return noYard;
  const slip = size === undefined ? null : nameSlip(size.species, snapshot.value.settings);
  if (slip !== null) return refusedAt('/size/species', slip);
  const worth = await worthIn(call);
  if (!worth.ok) return worth;
  const answer = usesOf({ question: call.body, snapshot: { ...snapshot.value, worth: worth.value } });
  return answer.ok ? good(answer.answer) : { ok: false, refusal: answer.refusal };
};

const offcutHomes: Handler<'offcutHomes'> = async (call) => {
  const { jobId, partKey, size } = call.body;
  if ((jobId === undefined || partKey === undefined) === (size === undefined)) {
    return refuse('invalid-input', 'Ask either for a part of a job or for a size.', [
      { pointer: '/partKey', help: 'send jobId and partKey, or size' },
    ]);
  }
  const snapshot = await call.ask('snapshot', {
    jobIds: jobId === undefined ? [] : [jobId],
    boards: size ? { which: 'of-parts', parts: [{ ...size, lamination: null }] } : { which: 'of-jobs', alsoIds: [] },
  });
  if (!snapshot.ok) return snapshot;
  if (!snapshot.value) return noYard;
  if (jobId !== undefined && snapshot.value.jobs.length === 0) return noJob;
  const slip = size === undefined ? null : nameSlip(size.species, snapshot.value.settings);
  if (slip !== null) return refusedAt('/size/species', slip);
  const worth = await worthIn(call);
  if (!worth.ok) return worth;
  const answer = homesFor({ question: call.body, snapshot: { ...snapshot.value, worth: worth.value } });
  return answer.ok ? good(answer.answer) : { ok: false, refusal: answer.refusal };
};

const listMovements: Handler<'listMovements'> = async (call) => {
  const { boardId, jobId } = call.query;
  const page = await call.ask('movements', { boardId, jobId, page: pageAsk(call.query) });
  if (!page.ok) return page;
  return good({ items: [...(page.value?.items ?? [])], next: page.value?.next ?? null });
};

const undoMovement: Handler<'undoMovement'> = async (call) => {
  const said = call.path.seq ?? '';
  if (!/^\d{1,15}$/.test(said)) return refuse('not-found', 'A movement is named by its number in the journal.');
  const told = await call.tell({ do: 'undo', seq: Number(said) });
  if (!told.ok) return told;
  const movement = await call.ask('movement', { seq: told.value.seq });
  if (!movement.ok) return movement;
  return movement.value ? good(movement.value) : refuse('not-found', 'There is no such movement.');
};

export const yardHandlers = { readYard, changeSettings, offcutUses, offcutHomes, listMovements, undoMovement };
