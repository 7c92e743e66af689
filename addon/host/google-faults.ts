/** Google's own error texts, told apart by what they hold, and said in plain words with what to do. */
import type { HostErrorCode } from './host.ts';

interface GoogleFault {
  readonly code: HostErrorCode;
  readonly help: string;
}

const FAULTS: readonly (readonly [pattern: RegExp, fault: GoogleFault])[] = [
  [
    /PERMISSION_DENIED|Authori[sz]ation is required|ScriptError: .*storage/i,
    {
      code: 'wrong-account',
      help: 'Google answered for another of your accounts. Sign out of the others, or open this sheet in a browser profile with this account alone.',
    },
  ],
  [
    /you do not have permission|not have access|permission to call/i,
    {
      code: 'not-authorised',
      help: 'Heartside may not use this file yet. Open it again from the Extensions menu and allow it.',
    },
  ],
  [
    /too many times|quota|limit exceeded|too much computer time|rate limit/i,
    {
      code: 'quota',
      help: 'Google’s daily allowance for this account is used up. It starts anew within 24 hours; the sheet itself keeps working.',
    },
  ],
  [
    /protected (?:cell|range|sheet|object)/i,
    {
      code: 'protected',
      help: 'These cells are protected. Ask the owner of the file, or write to a new sheet.',
    },
  ],
  [
    /timed out|try again later|Lock timeout|internal error/i,
    { code: 'busy-editing', help: 'Google Sheets is busy with this file. Try again in a moment.' },
  ],
  [
    /NetworkError|network|connection (?:failure|lost)|HTTP (?:0|50\d)/i,
    { code: 'offline', help: 'No connection to Google. Check the network and try again.' },
  ],
];

export function googleFault(message: string): GoogleFault {
  const known = FAULTS.find(([pattern]) => pattern.test(message));
  return (
    known?.[1] ?? {
      code: 'unknown',
      help: 'Google Sheets did not do that. Try again; if it stays so, close the sidebar and open it anew.',
    }
  );
}
