import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { build, node, packages, ROOT } from './ensure.mjs';

node();
packages();
await build();
const data = process.env.BRIMLINE_DATA ?? join(ROOT, 'data');
mkdirSync(data, { recursive: true });
const server = spawn(process.execPath, ['--enable-source-maps', join(ROOT, 'dist/node/server.js')], {
  cwd: ROOT,
  stdio: 'inherit',
  env: { ...process.env, BRIMLINE_DATA: data },
});
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => server.kill(signal));
server.on('exit', (code) => process.exit(code ?? 0));
