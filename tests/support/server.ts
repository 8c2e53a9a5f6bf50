import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface RunningServer {
  readonly address: string;
  readonly data: string;
  readonly output: () => string;
  stop(signal?: NodeJS.Signals): Promise<void>;
}

/** Starts the built server on a free port with a data folder of its own. */
export async function startServer(
  data = mkdtempSync(join(tmpdir(), 'brimline-data-')),
  env: NodeJS.ProcessEnv = {},
): Promise<RunningServer> {
  const child = spawn(process.execPath, ['--enable-source-maps', 'dist/node/server.js'], {
    env: { ...process.env, PORT: '0', BRIMLINE_DATA: data, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  const address = await new Promise<string>((resolve, reject) => {
    const listen = (chunk: Buffer): void => {
      output += chunk.toString();
      const ready = /Brimline is ready at (\S+)/.exec(output);
      if (ready) resolve(ready[1]!);
    };
    child.stdout.on('data', listen);
    child.stderr.on('data', listen);
    child.on('exit', (code) => reject(new Error(`the server ended with ${code}: ${output}`)));
  });
  return { address, data, output: () => output, stop: (signal = 'SIGTERM') => ended(child, signal) };
}

function ended(child: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  return new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) return resolve();
    child.once('exit', () => resolve());
    child.kill(signal);
  });
}

/** Waits for the first plan; answers it. */
export async function planOf(address: string): Promise<any> {
  for (let turn = 0; turn < 240; turn += 1) {
    const response = await fetch(`${address}/api/plan`);
    if (response.status === 200) return response.json();
    const { state, message } = (await (await fetch(`${address}/api/plan/state`)).json()) as {
      state: string;
      message: string;
    };
    if (state === 'failed') throw new Error(message);
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
  throw new Error('no plan within a minute');
}

export function removeData(server: RunningServer): void {
  rmSync(server.data, { recursive: true, force: true });
}
