import { readFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { calculations, type WeekPlan } from '@brimline/planning';
import { sampleFirm } from '../support/sample-firm.ts';

const PAGES = 'dist/web';
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};
/** As strict as the product's own server, so that a page which needs more fails here too. */
const POLICY =
  "default-src 'self';font-src 'self' https: data:;img-src 'self' data:;object-src 'none';script-src 'self';style-src 'self' https: 'unsafe-inline'";

export interface Reply {
  readonly status: number;
  readonly body: unknown;
}

/** What the server answers to one request; undefined leaves it to the standard answers. */
export type Script = (request: {
  readonly method: string;
  readonly path: string;
}) => Reply | 'hang' | undefined;

export interface PageServer {
  readonly address: string;
  /** Method and path of every request under /api. */
  readonly asked: readonly string[];
  /** Changes what is answered from now on. */
  answer(script: Script): void;
  stop(): Promise<void>;
}

/** Serves the built pages with a given plan, the sample registers and the real calculations; a script may answer otherwise. */
export async function servePages(plan: WeekPlan): Promise<PageServer> {
  const asked: string[] = [];
  let script: Script = () => undefined;
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://pages').pathname;
    const method = request.method ?? 'GET';
    if (!path.startsWith('/api/')) return sendFile(response, path);
    asked.push(`${method} ${path}`);
    const scripted = script({ method, path });
    if (scripted === 'hang') return;
    void bodyOf(request).then((body) => {
      const reply = scripted ?? standardReply(plan, method, path, body);
      response.writeHead(reply.status, { 'content-type': 'application/json' });
      response.end(JSON.stringify(reply.body));
    });
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    asked,
    answer: (next) => {
      script = next;
    },
    stop: () => closed(server),
  };
}

function sendFile(response: ServerResponse, path: string): void {
  const name = path === '/' ? 'index.html' : normalize(path).replace(/^\/+/, '');
  try {
    const bytes = readFileSync(join(PAGES, name));
    const type = TYPES[extname(name)] ?? 'application/octet-stream';
    response.writeHead(200, { 'content-type': type, 'content-security-policy': POLICY });
    response.end(bytes);
  } catch {
    response.writeHead(404).end();
  }
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString();
}

function standardReply(plan: WeekPlan, method: string, path: string, body: string): Reply {
  if (path === '/api/plan' && method === 'GET') return { status: 200, body: plan };
  if (path === '/api/plan') return { status: 202, body: { state: 'planning', message: 'Reading' } };
  if (path === '/api/plan/state') return { status: 200, body: { state: 'ready', message: '' } };
  if (path === '/api/firm') return { status: 200, body: sampleFirm() };
  if (path === '/api/calc')
    return { status: 200, body: calculations.map(({ run: _run, ...facts }) => facts) };
  const name = /^\/api\/calc\/(.+)$/.exec(path)?.[1];
  const found = calculations.find((one) => one.name === name);
  if (!found) return { status: 404, body: { title: 'not found', detail: `${path} is not here.` } };
  try {
    return { status: 200, body: found.run(JSON.parse(body) as Record<string, unknown>) };
  } catch (error) {
    return { status: 400, body: { title: 'bad request', detail: (error as Error).message } };
  }
}

function closed(server: Server): Promise<void> {
  server.closeAllConnections();
  return new Promise((resolve) => {
    server.close(() => resolve());
  });
}
