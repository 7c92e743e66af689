/** Serves the vendor's office library and our bundle to a real Chromium under the policy of our own pages. */
import { readFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { createRequire } from 'node:module';
import { dirname, join, normalize } from 'node:path';
import { build } from 'esbuild';

const OFFICE = dirname(createRequire(import.meta.url).resolve('@microsoft/office-js/dist/office.js'));
const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; connect-src 'self'; img-src data:";
/** How Excel on the web tells the library who has opened the page. */
export const AS_EXCEL = '?_host_Info=Excel$Web$16.00$en-US$$$$0';

export interface OfficeServer {
  readonly address: string;
  stop(): Promise<void>;
}

export async function serveOffice(): Promise<OfficeServer> {
  const { outputFiles } = await build({
    entryPoints: [join(import.meta.dirname, 'office-page.ts')],
    bundle: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    logLevel: 'warning',
  });
  const script = outputFiles[0]?.text ?? '';
  const html =
    '<!doctype html><html lang="en"><title>Office</title><link rel="icon" href="data:,"><script src="/office/office.js"></script><body></body></html>';
  const server = createServer(async (request, response) => {
    const path = new URL(request.url ?? '/', 'http://here').pathname;
    const send = (type: string, body: string | Buffer) =>
      response.writeHead(200, { 'content-type': type, 'content-security-policy': POLICY }).end(body);
    if (path === '/') send('text/html', html);
    else if (path === '/page.js') send('text/javascript', script);
    else {
      const file = normalize(join(OFFICE, path.replace(/^\/office\//, '')));
      const found = file.startsWith(OFFICE) ? await readFile(file).catch(() => null) : null;
      if (found) send('text/javascript', found);
      else response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { address: addressOf(server), stop: () => stopped(server) };
}

function addressOf(server: Server): string {
  const address = server.address();
  if (typeof address !== 'object' || address === null) throw new Error('The server has no port.');
  return `http://127.0.0.1:${address.port}`;
}

const stopped = (server: Server) =>
  new Promise<void>((resolve) => {
    server.closeAllConnections();
    server.close(() => resolve());
  });
