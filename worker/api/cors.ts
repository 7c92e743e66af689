/**
 * Which pages of other origins may call from a browser. An origin is no proof of who calls (anybody can own a script
 * there): the key is. So no cookies and no credentials, and whoever is not named gets no header, which the browser obeys.
 */

/**
 * Google serves the sidebar of every script from an origin of its own, like n-abc123-0lu-script.googleusercontent.com.
 * Excel's pane needs no entry where it is served by this service: then it is the same origin.
 */
export const DEFAULT_ORIGINS = 'https://n-*-script.googleusercontent.com';

const METHODS = 'GET, HEAD, POST, PUT, PATCH';
const REQUEST_HEADERS = 'authorization, content-type, idempotency-key, if-match, if-none-match, shop-day';
const SHOWN_HEADERS = 'etag, retry-after, x-request-id';
const PREFLIGHT_KEPT_S = 600;

/** An entry is a whole origin; a star in its first label stands for letters, digits and hyphens, never for a dot. */
function matches(entry: string, origin: string): boolean {
  const [, scheme, host] = /^(https?):\/\/([a-z0-9.:*[\]-]+)$/.exec(entry) ?? [];
  if (scheme === undefined || host === undefined) return false;
  const [first = '', ...rest] = host.split('.');
  if (rest.join('.').includes('*') || (first.includes('*') && rest.length < 2)) return false;
  const literal = (text: string) => text.replaceAll(/[.[\]]/g, '\\$&');
  const labels = [first.split('*').map(literal).join('[a-z0-9-]+'), ...rest.map(literal)];
  return new RegExp(`^${scheme}://${labels.join('\\.')}$`).test(origin);
}

/** configured: origins with blanks or commas between them; undefined takes the default. */
export function isAllowedOrigin(origin: string, configured: string | undefined): boolean {
  const entries = (configured ?? DEFAULT_ORIGINS).split(/[\s,]+/).filter((entry) => entry !== '');
  return entries.some((entry) => matches(entry, origin));
}

/** Headers for an answer to a page of this origin; the answer differs by origin, so caches are told. */
export function corsHeaders(origin: string | undefined, configured: string | undefined): Record<string, string> {
  if (origin === undefined || !isAllowedOrigin(origin, configured)) return { vary: 'Origin' };
  return { vary: 'Origin', 'access-control-allow-origin': origin, 'access-control-expose-headers': SHOWN_HEADERS };
}

/** OPTIONS: what a browser asks before it sends a key; and what other programs ask of a feed before they fetch it. */
export function preflight(request: Request, configured: string | undefined): Response {
  const origin = request.headers.get('origin');
  const isPreflight = origin !== null && request.headers.has('access-control-request-method');
  if (!isPreflight) return new Response(null, { status: 204, headers: { allow: `${METHODS}, OPTIONS` } });
  if (!isAllowedOrigin(origin, configured)) return new Response(null, { status: 403 });
  return new Response(null, {
    status: 204,
    headers: {
      'access-control-allow-methods': METHODS,
      'access-control-allow-headers': REQUEST_HEADERS,
      'access-control-max-age': String(PREFLIGHT_KEPT_S),
    },
  });
}
