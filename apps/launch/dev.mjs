import { spawn } from 'node:child_process';
import { watch } from 'node:fs';
import { join } from 'node:path';
import { build, node, packages, ROOT } from './ensure.mjs';

/** A server that follows the sources: builds anew and starts again after each change. */
node();
packages();
let server = null;
let queued = null;

async function restart() {
  try {
    await build();
  } catch (error) {
    process.stderr.write(`${error}\n`);
    return;
  }
  const start = () => {
    const env = { ...process.env, BRIMLINE_DATA: process.env.BRIMLINE_DATA ?? join(ROOT, 'data') };
    server = spawn(process.execPath, [join(ROOT, 'dist/node/server.js')], {
      cwd: ROOT,
      stdio: 'inherit',
      env,
    });
  };
  if (!server || server.exitCode !== null) return start();
  server.once('exit', start);
  server.kill('SIGTERM');
}

for (const folder of ['apps', 'libs']) {
  watch(join(ROOT, folder), { recursive: true }, () => {
    clearTimeout(queued);
    queued = setTimeout(restart, 200);
  });
}
await restart();
