import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build, node, packages, ROOT } from './ensure.mjs';

/** Runs one command of the command line: node apps/launch/run.mjs NAME ARGUMENT... */
const [name, ...args] = process.argv.slice(2);
node();
packages();
await build();
const { main } = await import(pathToFileURL(join(ROOT, 'dist/node', `${name}.js`)).href);
process.exitCode = await main(args);
