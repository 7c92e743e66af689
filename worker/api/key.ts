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

const HEX = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, '0'));

function hex(buffer: ArrayBuffer): string {
  let text = '';
  for (const byte of new Uint8Array(buffer)) text += HEX[byte];
  return text;
}

/** The service's secrets that keys are checked with. */
export interface Peppers {
  /** Digests of keys are made with it. */
  readonly pepper: string;
  /** The one before, while keys change over; null when all have, or none must. */
  readonly previous: string | null;
  /** Yard ids bear a MAC made with it for good, so it is never changed: it shows that an id was minted here, and opens nothing. */
  readonly yardPepper: string;
}

/** How the service's secrets are called where it is configured. */
export interface PepperEnv {
  readonly KEY_PEPPER: string;
  readonly KEY_PEPPER_PREVIOUS?: string;
  readonly YARD_ID_PEPPER?: string;
}

export function peppersIn(env: PepperEnv): Peppers {
  const pepper = env.KEY_PEPPER;
  return { pepper, previous: env.KEY_PEPPER_PREVIOUS || null, yardPepper: env.YARD_ID_PEPPER || pepper };
}

const IMPORTED_MOST = 8;
/** Peppers as keys, each made once: a request needs them several times. */
const imported = new Map<string, Promise<CryptoKey>>();

function pepperKey(pepper: string): Promise<CryptoKey> {
  const known = imported.get(pepper);
  if (known) return known;
  const algorithm = { name: 'HMAC', hash: 'SHA-256' };
  const key = crypto.subtle.importKey('raw', encoder.encode(pepper), algorithm, false, ['sign']);
  if (imported.size >= IMPORTED_MOST) imported.clear();
  imported.set(pepper, key);
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

const macOf = async (stem: string, { yardPepper }: Peppers) => (await digestOf(`yard ${stem}`, yardPepper)).slice(0, 8);

export async function newYardId(peppers: Peppers): Promise<string> {
  const stem = base32(crypto.getRandomValues(new Uint8Array(12)));
  return `${stem}${await macOf(stem, peppers)}`;
}

/** Whether this service minted the id. */
export async function isOurYardId(yardId: string, peppers: Peppers): Promise<boolean> {
  if (!/^[0-9a-z]{12}[0-9a-f]{8}$/.test(yardId)) return false;
  return digestsEqual(yardId.slice(12), await macOf(yardId.slice(0, 12), peppers));
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

export function mintKey({ pepper }: Peppers): Promise<MintedKey> {
  return mintFrom(hex(crypto.getRandomValues(new Uint8Array(32)).buffer), pepper);
}

/**
 * The key that this owner's key makes under this Idempotency-Key. Sent again after a lost answer, the same request gives
 * the same secret, though no one kept it; without the owner's own secret it cannot be worked out.
 */
export function mintKeyFor(authorization: string, idempotencyKey: string, { pepper }: Peppers): Promise<MintedKey> {
  return mintFrom(`${authorization}\n${idempotencyKey}`, pepper);
}

export const keyText = (yardId: string, minted: MintedKey) => `yk_${yardId}_${minted.keyId}_${minted.secret}`;
/** What stands in the address of a feed link. */
export const feedToken = (yardId: string, minted: MintedKey) => `yf_${yardId}_${minted.keyId}_${minted.secret}`;

/** Lives this long; used once. */
export const LINK_CODE_MS = 10 * 60_000;

/** Eight characters, 40 bits, as a person types them: no I, L, O or U. */
export const linkCodeOf = (minted: MintedKey) => minted.secret.slice(0, 8);

/** "K7QM-2RX4" as "k7qm2rx4", look-alikes folded; null for what is no code. */
export function linkCodeFolded(typed: string): string | null {
  const code = typed.toLowerCase().replaceAll(/[\s-]/g, '').replaceAll('o', '0').replaceAll(/[il]/g, '1');
  return /^[0-9a-hjkmnp-tv-z]{8}$/.test(code) ? code : null;
}

/** What the yard keeps of a code: under the pepper, so that nobody who reads the table can try all codes. */
export async function linkKey(
  yardId: string,
  code: string,
  { pepper }: Peppers,
): Promise<Pick<MintedKey, 'keyId' | 'digest'>> {
  const [id, digest] = await Promise.all([
    digestOf(`link id ${yardId} ${code}`, pepper),
    digestOf(`link code ${yardId} ${code}`, pepper),
  ]);
  return { keyId: base32(bytesOf(id, 8)), digest };
}

export interface ReadKey {
  readonly yardId: string;
  readonly keyId: string;
  readonly digest: string;
  /** Under the pepper before, while keys change over. */
  readonly formerDigest?: string;
  /** A link code: short, so tried seldom. */
  readonly isLinkCode?: true;
}

const READ_KEPT = 256;
/**
 * The last keys and tokens that this instance read, by their text and the peppers they were read under: working the
 * digests out takes longer than all else before the yard is asked. They stay in its memory alone, and say nothing of
 * whether a key opens the yard: the yard is asked that every time. What names no yard of ours is not kept.
 */
const readBefore = new Map<string, ReadKey>();

/** The parts of a key or token with this beginning, or null when it has not the form or names a yard that is none of ours. */
async function readToken(text: string, beginning: string, peppers: Peppers): Promise<ReadKey | null> {
  const name = [text, beginning, peppers.yardPepper, peppers.pepper, peppers.previous ?? ''].join('\n');
  const known = readBefore.get(name);
  if (known) return known;
  const read = await readAnew(text, beginning, peppers);
  if (!read) return null;
  if (readBefore.size >= READ_KEPT) readBefore.clear();
  readBefore.set(name, read);
  return read;
}

async function readAnew(text: string, beginning: string, peppers: Peppers): Promise<ReadKey | null> {
  const match = /^(y[kf])_([0-9a-z]{20})_([0-9a-z]{8})_([0-9a-z]{32})$/.exec(text);
  const [, begins, yardId, keyId, secret] = match ?? [];
  if (begins !== beginning || !yardId || !keyId || !secret) return null;
  if (!(await isOurYardId(yardId, peppers))) return null;
  const { pepper, previous } = peppers;
  const former = previous === null ? {} : { formerDigest: await digestOf(secret, previous) };
  return { yardId, keyId, digest: await digestOf(secret, pepper), ...former };
}

export async function readKey(authorization: string | null, peppers: Peppers): Promise<ReadKey | null> {
  const said = /^Bearer +(\S+)$/i.exec(authorization ?? '')?.[1];
  if (said === undefined) return null;
  return said.startsWith('yl_') ? readLinkCode(said, peppers) : readToken(said, 'yk', peppers);
}

async function readLinkCode(text: string, peppers: Peppers): Promise<ReadKey | null> {
  const [, yardId = '', typed = ''] = /^yl_([0-9a-z]{20})_(\S{8,20})$/.exec(text) ?? [];
  const code = linkCodeFolded(typed);
  if (code === null || !(await isOurYardId(yardId, peppers))) return null;
  return { yardId, ...(await linkKey(yardId, code, peppers)), isLinkCode: true };
}

export function readFeedToken(token: string, peppers: Peppers): Promise<ReadKey | null> {
  return readToken(token, 'yf', peppers);
}
