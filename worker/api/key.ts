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

/** HMAC-SHA-256 of the text under the pepper, hex. */
export async function digestOf(text: string, pepper: string): Promise<string> {
  const key = await crypto.subtle.importKey('raw', encoder.encode(pepper), { name: 'HMAC', hash: 'SHA-256' }, false, [
    'sign',
  ]);
  return hex(await crypto.subtle.sign('HMAC', key, encoder.encode(text)));
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
  readonly key: string;
}

export async function mintKey(yardId: string, pepper: string): Promise<MintedKey> {
  const keyId = base32(crypto.getRandomValues(new Uint8Array(8)));
  const secret = base32(crypto.getRandomValues(new Uint8Array(32)));
  return { keyId, digest: await digestOf(secret, pepper), key: `yk_${yardId}_${keyId}_${secret}` };
}

export interface ReadKey {
  readonly yardId: string;
  readonly keyId: string;
  readonly digest: string;
}

/** The parts of a bearer key, or null when it has not the form of one or names a yard that this service never minted. */
export async function readKey(authorization: string | null, pepper: string): Promise<ReadKey | null> {
  const match = /^Bearer\s+yk_([0-9a-z]{20})_([0-9a-z]{8})_([0-9a-z]{32})$/i.exec(authorization ?? '');
  if (!match?.[1] || !match[2] || !match[3]) return null;
  if (!(await isOurYardId(match[1], pepper))) return null;
  return { yardId: match[1], keyId: match[2], digest: await digestOf(match[3], pepper) };
}
