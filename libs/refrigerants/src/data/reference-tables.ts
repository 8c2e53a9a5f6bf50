import { r134a } from './r134a.ts';
import { r22 } from './r22.ts';
import { r123 } from './r123.ts';
import { r1233zde } from './r1233zde.ts';
import { r1234zee } from './r1234zee.ts';
import { r1234yf } from './r1234yf.ts';
import { r410a } from './r410a.ts';
import { r407c } from './r407c.ts';
import { r404a } from './r404a.ts';
import { r507a } from './r507a.ts';
import { r513a } from './r513a.ts';
import { r514a } from './r514a.ts';
import { r515b } from './r515b.ts';
import { r32 } from './r32.ts';
import { r454b } from './r454b.ts';
import { r245fa } from './r245fa.ts';
import { r11 } from './r11.ts';
import { r12 } from './r12.ts';
import { r124 } from './r124.ts';
import { r290 } from './r290.ts';
import type { ReferenceTable } from '../reference-table.ts';

/** Every refrigerant whose properties the project carries. */
export const REFERENCE_TABLES: readonly ReferenceTable[] = [
  r134a,
  r22,
  r123,
  r1233zde,
  r1234zee,
  r1234yf,
  r410a,
  r407c,
  r404a,
  r507a,
  r513a,
  r514a,
  r515b,
  r32,
  r454b,
  r245fa,
  r11,
  r12,
  r124,
  r290,
];
