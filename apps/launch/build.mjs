import { build, node, packages } from './ensure.mjs';

node();
packages();
await build();
