import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planOf, removeData, type RunningServer, startServer } from '../support/server.ts';

let server: RunningServer;
let plan: any;

beforeAll(async () => {
  server = await startServer();
  plan = await planOf(server.address);
});
afterAll(async () => {
  await server?.stop();
  if (server) removeData(server);
});

const ask = (path: string, init?: RequestInit): Promise<Response> => fetch(`${server.address}${path}`, init);
const post = (path: string, body: string): Promise<Response> =>
  ask(path, { method: 'POST', body, headers: { 'content-type': 'application/json' } });

describe('the server', () => {
  it('loads, estimates and schedules the sample jobs on its first run, and prints one line', () => {
    expect(plan.jobs).toHaveLength(11);
    expect(plan.refused).toHaveLength(1);
    expect(server.output().trim().split('\n')).toHaveLength(1);
  });

  it('answers health, registers, jobs and workbooks', async () => {
    expect(await (await ask('/health/live')).json()).toEqual({ status: 'alive' });
    expect(await (await ask('/health/ready')).json()).toEqual({ status: 'ready' });
    expect((await (await ask('/api/firm')).json()).sites.length).toBeGreaterThanOrEqual(8);
    expect((await (await ask('/api/jobs')).json()).jobs).toHaveLength(12);
    for (const path of [
      '/api/jobs/1101/quote.xlsx',
      '/api/jobs/1101/offer.xlsx',
      '/api/plan/timeline.xlsx',
    ]) {
      const response = await ask(path);
      expect(response.status).toBe(200);
      const bytes = new Uint8Array(await response.arrayBuffer());
      // Every .xlsx file is a zip archive: "PK".
      expect([bytes[0], bytes[1]]).toEqual([0x50, 0x4b]);
    }
  });

  it('gives the same calculations as the command line', async () => {
    const list = (await (await ask('/api/calc')).json()) as { name: string; example: object }[];
    for (const { name, example } of list) {
      const response = await post(`/api/calc/${name}`, JSON.stringify(example));
      expect(response.status, `${name}: ${await response.clone().text()}`).toBe(200);
    }
  });

  it('describes itself in OpenAPI 3.1, each path of which answers', async () => {
    const document = await (await ask('/api/openapi.json')).json();
    expect(document.openapi).toBe('3.1.0');
    for (const [path, methods] of Object.entries<any>(document.paths)) {
      if (path === '/api/plan/events') continue;
      const real = path.replace('{id}', '1101').replace('{name}', 'pump-down');
      if (methods.get) expect((await ask(real)).status, path).toBe(200);
    }
  });

  it('answers bad requests with problem documents that name the fields, never with a failure of its own', async () => {
    const bad = await post('/api/plan', '{"seed":"x","hurry":true}');
    expect(bad.status).toBe(400);
    expect(bad.headers.get('content-type')).toMatch(/application\/problem\+json/);
    const { errors } = await bad.json();
    expect(errors.map(({ field }: { field: string }) => field)).toEqual(expect.arrayContaining(['seed']));
    expect(errors.length).toBe(2);
    expect((await ask('/api/jobs/none')).status).toBe(404);
    expect((await ask('/api/nothing')).status).toBe(404);
    await fc.assert(
      fc.asyncProperty(
        fc.jsonValue(),
        fc.constantFrom(
          '/api/calc/pump-down',
          '/api/calc/transfer-time',
          '/api/calc/leak-rate',
          '/api/calc/hose-flow',
        ),
        async (body, path) => {
          const response = await post(path, JSON.stringify(body));
          expect(response.status).toBeLessThan(500);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('lets no page of another site write', async () => {
    const response = await ask('/api/plan', {
      method: 'POST',
      headers: { origin: 'http://elsewhere.example' },
    });
    expect(response.status).toBe(403);
  });

  it('plans again on request, refuses a second at the same time, and tells how far it is', async () => {
    const first = await post('/api/plan', '{"seed":2}');
    expect(first.status).toBe(202);
    expect((await post('/api/plan', '{"seed":3}')).status).toBe(409);
    const events = await ask('/api/plan/events');
    const reader = events.body!.getReader();
    const { value } = await reader.read();
    expect(new TextDecoder().decode(value)).toMatch(/"state":"planning"/);
    await reader.cancel();
    for (
      let turn = 0;
      turn < 200 && (await (await ask('/api/plan/state')).json()).state === 'planning';
      turn += 1
    ) {
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
    expect((await planOf(server.address)).seed).toBe(2);
  });

  it('keeps everything over a kill, and serves only this machine', async () => {
    const before = await (await ask('/api/plan')).text();
    await server.stop('SIGKILL');
    server = await startServer(server.data);
    expect(await (await ask('/api/plan')).text()).toBe(before);
    await expect(startServer(undefined, { HOST: '0.0.0.0' })).rejects.toThrow(/no accounts yet/);
    await expect(startServer(undefined, { PORT: 'many' })).rejects.toThrow(/PORT: many is not allowed/);
  });
});
