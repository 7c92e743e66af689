/**
 * Yard ids and yard keys. A key names its yard, so there is no table of keys outside the yards: yk_<yard>_<key id>_<secret>.
 * A yard id ends in a short MAC, so that a stranger's guess never touches the namespace (any call to a new name makes an object).
 */

const alphabet = '0123456789abcdefghjkmnpqrstvwxyz';
const encoder = new TextEncoder();

function base32(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += alphabet[byte & 31];
  return text;
}

function hex(buffer: ArrayBuffer): string {
  return [...new Uint8Array(buffer)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** The pepper as a key, made once: each request needs it three times. */
let imported: { readonly pepper: string; readonly key: Promise<CryptoKey> } | null = null;

function pepperKey(pepper: string): Promise<CryptoKey> {
  if (imported?.pepper === pepper) return imported.key;
  const algorithm = { name: 'HMAC', hash: 'SHA-256' };
  const key = crypto.subtle.importKey('raw', encoder.encode(pepper), algorithm, false, ['sign']);
  imported = { pepper, key };
  return key;
}

/** HMAC-SHA-256 of the text under the pepper, hex. */
export async function digestOf(text: string, pepper: string): Promise<string> {
  return hex(await crypto.subtle.sign('HMAC', await pepperKey(pepper), encoder.encode(text)));
}

/** SHA-256 of the text, hex: the fingerprint of a request. */
export async function fingerprintOf(text: string): Promise<string> {
  return hex(await crypto.subtle.digest('SHA-256', encoder.encode(text)));
}

/** Whether two hex digests are equal, in time that does not depend on where they differ. */
export function digestsEqual(a: string, b: string): boolean {
  let difference = a.length ^ b.length;
  for (let i = 0; i < a.length; i += 1) difference |= a.charCodeAt(i) ^ b.charCodeAt(i % Math.max(1, b.length));
  return difference === 0;
}

const macOf = async (stem: string, pepper: string) => (await digestOf(`yard ${stem}`, pepper)).slice(0, 8);

export async function newYardId(pepper: string): Promise<string> {
  const stem = base32(crypto.getRandomValues(new Uint8Array(12)));
  return `${stem}${await macOf(stem, pepper)}`;
}

/** Whether this service minted the id. */
export async function isOurYardId(yardId: string, pepper: string): Promise<boolean> {
  if (!/^[0-9a-z]{12}[0-9a-f]{8}$/.test(yardId)) return false;
  return digestsEqual(yardId.slice(12), await macOf(yardId.slice(0, 12), pepper));
}

export interface MintedKey {
  readonly keyId: string;
  readonly digest: string;
  /** Shown once, never stored. */
  readonly secret: string;
}

const bytesOf = (digest: string, count: number) =>
  Uint8Array.from({ length: count }, (_, at) => Number.parseInt(digest.slice(2 * at, 2 * at + 2), 16));

/** Key id and secret out of a seed that nobody can guess: the same seed gives the same key. */
async function mintFrom(seed: string, pepper: string): Promise<MintedKey> {
  const [id, text] = await Promise.all([digestOf(`key id ${seed}`, pepper), digestOf(`key secret ${seed}`, pepper)]);
  const secret = base32(bytesOf(text, 32));
  return { keyId: base32(bytesOf(id, 8)), digest: await digestOf(secret, pepper), secret };
}

export function mintKey(pepper: string): Promise<MintedKey> {
  return mintFrom(hex(crypto.getRandomValues(new Uint8Array(32)).buffer), pepper);
}

/**
 * The key that this owner's key makes under this Idempotency-Key. Sent again after a lost answer, the same request gives
 * the same secret, though no one kept it; without the owner's own secret it cannot be worked out.
 */
export function mintKeyFor(authorization: string, idempotencyKey: string, pepper: string): Promise<MintedKey> {
  return mintFrom(`${authorization}\n${idempotencyKey}`, pepper);
}

export const keyText = (yardId: string, minted: MintedKey) => `yk_${yardId}_${minted.keyId}_${minted.secret}`;
/** What stands in the address of a feed link. */
export const feedToken = (yardId: string, minted: MintedKey) => `yf_${yardId}_${minted.keyId}_${minted.secret}`;

export interface ReadKey {
  readonly yardId: string;
  readonly keyId: string;
  readonly digest: string;
}

/** The parts of a key or token with this beginning, or null when it has not the form or names a yard that is none of ours. */
async function readToken(text: string, beginning: string, pepper: string): Promise<ReadKey | null> {
  const match = /^(y[kf])_([0-9a-z]{20})_([0-9a-z]{8})_([0-9a-z]{32})$/.exec(text);
  const [, begins, yardId, keyId, secret] = match ?? [];
  if (begins !== beginning || !yardId || !keyId || !secret) return null;
  if (!(await isOurYardId(yardId, pepper))) return null;
  return { yardId, keyId, digest: await digestOf(secret, pepper) };
}

export async function readKey(authorization: string | null, pepper: string): Promise<ReadKey | null> {
  const said = /^Bearer +(\S+)$/i.exec(authorization ?? '')?.[1];
  return said === undefined ? null : readToken(said, 'yk', pepper);
}

export function readFeedToken(token: string, pepper: string): Promise<ReadKey | null> {
  return readToken(token, 'yf', pepper);
}
