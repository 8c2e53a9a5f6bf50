import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readFirm, type SourceFile } from '@brimline/contracts';
import type { Firm } from '@brimline/firm';
import { refrigerantNames } from '@brimline/refrigerants';

const FOLDER = 'sample-jobs';

/** The sample files as they lie in the folder. */
export function sampleFiles(): SourceFile[] {
  const names = [
    ...readdirSync(FOLDER).filter((name) => name.endsWith('.json')),
    ...readdirSync(join(FOLDER, 'jobs')).map((name) => join('jobs', name)),
  ];
  return names.map((name) => ({ name, text: readFileSync(join(FOLDER, name), 'utf8') }));
}

export function sampleFirm(): Firm {
  const firm = readFirm(sampleFiles(), { refrigerants: refrigerantNames() });
  if (!firm.ok) throw new Error(JSON.stringify(firm.problems));
  return firm.value;
}
