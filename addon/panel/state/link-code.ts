/** What a person enters to connect: an address with a key, or an address that names its yard with a link code of eight characters. */

export interface Entered {
  /** Where the yard answers, without a path. */
  readonly address: string;
  readonly with: { readonly key: string } | { readonly yardId: string; readonly code: string };
}

const YARD_PATH = /^(.+?)\/yard\/([0-9a-z]{20})\/?$/;
const CODE = /^[0-9a-z]{4}[\s-]?[0-9a-z]{4}$/i;

/** Address and code may be pasted together into the first field. The fault is a sentence for the person. */
export function entered(addressTyped: string, secretTyped: string): Entered | { readonly fault: string } {
  const [address = '', ...rest] = addressTyped.trim().split(/\s+/);
  const secret = secretTyped.trim() === '' ? rest.join(' ') : secretTyped.trim();
  const [, origin = '', yardId = ''] = YARD_PATH.exec(address) ?? [];
  if (CODE.test(secret)) {
    if (yardId === '') {
      return {
        fault:
          'A link code goes with its own address, which ends in /yard/ and letters. Copy both from the owner’s sidebar.',
      };
    }
    return { address: origin, with: { yardId, code: secret.replaceAll(/[\s-]/g, '') } };
  }
  if (secret === '') return { fault: 'Enter the link code, or paste the key that the yard gave you.' };
  return { address: yardId === '' ? address : origin, with: { key: secret } };
}

/** A code as the bearer of the one call that changes it for a key. */
export const codeBearer = (yardId: string, code: string) => `yl_${yardId}_${code}`;
