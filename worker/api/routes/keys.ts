/** Routes of keys and feed links: made, renewed, taken back, listed. A secret leaves in the answer that makes it, and only there. */
import { type FeedList, type KeyView, roleScopes } from '../../contract/key.ts';
import type { KeyCommand } from '../../yard/command.ts';
import { feedToken, keyText, LINK_CODE_MS, linkCodeOf, type MintedKey } from '../key.ts';
import { type Call, good, type Handler, type Outcome, refuse } from '../serve.ts';

const DAY_MS = 86_400_000;
const expiry = (days: number | null, nowMs: number) => (days === null ? null : nowMs + days * DAY_MS);

/** What is shown of a new key, once: the key itself, or the address of the link. */
type Minting = Pick<Call<never>, 'yardId' | 'origin' | 'mint' | 'tell'>;

function secretOf(call: Minting, key: KeyView, minted: MintedKey): string {
  const { yardId, origin } = call;
  return key.feed ? `${origin()}/feeds/${feedToken(yardId, minted)}.csv` : keyText(yardId, minted);
}

/** The secret is worked out from the request, see mintKeyFor: under another pepper it would be another. */
const notAgain = refuse(
  'idempotency-key-reused',
  'The secret of this key cannot be shown again. Take the key back, and make another with a new Idempotency-Key.',
);

async function made(
  call: Minting,
  command: (minted: MintedKey) => KeyCommand,
): Promise<Outcome<{ key: KeyView; secret: string }>> {
  const minted = await call.mint();
  const told = await call.tell(command(minted));
  if (!told.ok) return told;
  const { key } = told.value;
  if (!key) throw new Error('the yard gave no key back');
  if (key.id !== minted.keyId) return notAgain;
  return good({ key, secret: secretOf(call, key, minted) });
}

const listKeys: Handler<'listKeys'> = async (call) => {
  const keys = await call.ask('keys', {});
  return keys.ok ? good({ keys: [...(keys.value ?? [])] }) : keys;
};

const makeKey: Handler<'makeKey'> = (call) => {
  const { label, role, days } = call.body;
  return made(call, ({ keyId, digest }) => ({
    do: 'make-key',
    key: { keyId, digest, label, scopes: roleScopes[role], expiresAtMs: expiry(days, call.nowMs) },
  }));
};

const jobOf = (list: FeedList, jobId: string | null) => (list === 'cut-list' ? jobId : null);

const makeFeed: Handler<'makeFeed'> = async (call) => {
  const { label, list, jobId, days } = call.body;
  if (list === 'cut-list' && jobId === null) {
    return refuse('invalid-input', 'A link to a cut list needs its job.', [
      { pointer: '/jobId', field: 'jobId', help: 'missing; it is needed' },
    ]);
  }
  return made(call, ({ keyId, digest }) => ({
    do: 'make-key',
    key: {
      keyId,
      digest,
      label,
      scopes: ['feed'],
      expiresAtMs: expiry(days, call.nowMs),
      feed: { list, jobId: jobOf(list, jobId) },
    },
  }));
};

const rotateKey: Handler<'rotateKey'> = (call) =>
  made(call, ({ keyId, digest }) => ({
    do: 'rotate-key',
    keyId: call.path.id ?? '',
    next: { keyId, digest },
    oldHours: call.body.oldHours,
  }));

const revokeKey: Handler<'revokeKey'> = async (call) => {
  const told = await call.tell({ do: 'revoke-key', keyId: call.path.id ?? '' });
  if (!told.ok) return told;
  return told.value.key ? good(told.value.key) : refuse('not-found', 'There is no such key.');
};

const makeLinkCode: Handler<'makeLinkCode'> = async (call) => {
  const { label, role } = call.body;
  const code = linkCodeOf(await call.mint());
  const { keyId, digest } = await call.linkKey(code);
  const expiresAtMs = call.nowMs + LINK_CODE_MS;
  const told = await call.tell({ do: 'make-key', key: { keyId, digest, label, scopes: ['link', role], expiresAtMs } });
  if (!told.ok) return told;
  const { key } = told.value;
  if (!key) throw new Error('the yard gave no key back');
  if (key.id !== keyId) return notAgain;
  const shown = `${code.slice(0, 4)}-${code.slice(4)}`.toUpperCase();
  const address = `${call.origin()}/yard/${call.yardId}`;
  return good({ code: shown, address, endsAtMs: key.expiresAtMs ?? expiresAtMs, key });
};

const useLinkCode: Handler<'useLinkCode'> = (call) =>
  made(call, ({ keyId, digest }) => ({ do: 'use-link', next: { keyId, digest } }));

export const keyHandlers = { listKeys, makeKey, makeFeed, rotateKey, revokeKey, makeLinkCode, useLinkCode };
