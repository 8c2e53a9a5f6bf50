import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { criticalPath } from '../bounds/critical-path.ts';
import { checkPlan } from '../check/check-plan.ts';
import { solve } from '../search/solve.ts';
import { parseProgenMax, parsePsplib } from './instance.ts';

/** A project of three activities and two dummies, written by hand in each format. */
const SINGLE = `jobs (incl. supersource/sink ):  5
  - renewable                 :  1   R
  - nonrenewable              :  0   N
****
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          3           2   3   4
   2        1          1           5
   3        1          1           5
   4        1          1           5
   5        1          0
****
REQUESTS/DURATIONS:
jobnr. mode duration  R 1
------------------------
  1      1     0       0
  2      1     4       2
  3      1     3       2
  4      1     5       1
  5      1     0       0
****
RESOURCEAVAILABILITIES:
  R 1
   3
****
`;
const LAGS = `2\t1\t0\t0
0\t1\t2\t1\t2\t[0]\t[0]
1\t1\t2\t2\t3\t[3]\t[2]
2\t1\t2\t1\t3\t[-4]\t[2]
3\t1\t0
0\t1\t0\t0
1\t1\t2\t1
2\t1\t2\t1
3\t1\t0\t0
1
`;
/** Public benchmark files are not part of the project: they are read where somebody put them. */
const FOLDER = process.env['BRIMLINE_BENCHMARK_FILES'] ?? join('..', 'shared', 'psplib');

describe('public instances', () => {
  it('of one mode are read: makespan and bounds as worked out by hand', () => {
    const { problem } = parsePsplib(SINGLE);
    const { plan } = solve(problem, { seed: 1, schedules: 20 });
    expect(checkPlan(problem, plan)).toEqual([]);
    // By hand: 2 and 3 can't overlap (4 + 3 = 7), 4 fits beside either; the longest path is 5.
    expect(plan.objective.makespan_min).toBe(7);
    expect(criticalPath(problem)).toBe(5);
    // Energy: (4x2 + 3x2 + 5x1)/3 = 6.33, rounded up.
    expect(plan.lowerBound_min).toBe(7);
  });

  it('with lags of both signs are read', () => {
    const { problem } = parseProgenMax(LAGS);
    const { plan } = solve(problem, { seed: 1, schedules: 5 });
    expect(checkPlan(problem, plan)).toEqual([]);
    // By hand: 2 starts 3 to 4 after 1 and both last 2: the end is at 5.
    expect(plan.objective.makespan_min).toBe(5);
  });

  it.skipIf(!existsSync(FOLDER))(
    `in ${FOLDER} have the published critical paths, and every plan passes the check`,
    () => {
      const best = readFileSync(join(FOLDER, 'best-known.csv'), 'utf8').split('\n').slice(1);
      // Columns cp and lower of the list beside the files, whose sources its README names.
      const published = new Map(
        best
          .filter(Boolean)
          .map((line) => line.split(','))
          .map((cells) => [cells[0]!, cells]),
      );
      for (const name of readdirSync(FOLDER).filter((one) => ['.sm', '.mm', '.sch'].includes(extname(one)))) {
        const parse = extname(name) === '.sch' ? parseProgenMax : parsePsplib;
        const { problem } = parse(readFileSync(join(FOLDER, name), 'utf8'));
        const { plan, unplaced } = solve(problem, { seed: 1, schedules: 30 });
        expect(checkPlan(problem, plan), name).toEqual([]);
        expect(criticalPath(problem), name).toBe(Number(published.get(name)![6]));
        if (unplaced.length === 0) {
          expect(plan.objective.makespan_min, name).toBeGreaterThanOrEqual(Number(published.get(name)![4]));
          expect(plan.lowerBound_min, name).toBeLessThanOrEqual(plan.objective.makespan_min);
        }
      }
    },
  );
});
