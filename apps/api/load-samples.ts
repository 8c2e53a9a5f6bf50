import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { formatProblem, readFirm, type SourceFile } from '@brimline/contracts';
import type { FirmRepository } from '@brimline/persistence';
import { refrigerantNames } from '@brimline/planning';

/** Loads the sample jobs into an empty store; true when it did. */
export async function loadSamples(firms: FirmRepository, folder: string): Promise<boolean> {
  if ((await firms.load()) !== null) return false;
  const firm = readFirm(await sourcesIn(folder), { refrigerants: refrigerantNames() });
  if (!firm.ok)
    throw new Error(`the sample jobs can't be read:\n${firm.problems.map(formatProblem).join('\n')}`);
  await firms.save(firm.value);
  return true;
}

async function sourcesIn(folder: string): Promise<SourceFile[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = entries
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json') && !entry.parentPath.endsWith('schema'))
    .map((entry) => join(entry.parentPath, entry.name))
    .toSorted();
  return Promise.all(files.map(async (name) => ({ name, text: await readFile(name, 'utf8') })));
}
