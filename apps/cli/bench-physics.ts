import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { readFirm } from '@brimline/contracts';
import { estimateJob, type EstimateRequest, STANDARD_NORMS } from '@brimline/estimating';
import {
  bubblePressure,
  bubbleTemperature,
  liquidDensity,
  refrigerant,
  refrigerantNames,
  vapourDensity,
} from '@brimline/refrigerants';
import {
  frictionFactorColebrook,
  hosePath,
  type HosePiece,
  liquidFlow,
  pushPullState,
} from '@brimline/transfer';
import { effectiveSpeed, evacuation } from '@brimline/vacuum';

/**
 * Speed of the physics in this run, on this machine: medians of several rounds. Beside three of them stands the same
 * formula done plainly, with generic halving and Colebrook's implicit factor, so that the ratio means something
 * elsewhere too.
 */
export async function main(): Promise<number> {
  const r = refrigerant('R-134a');
  const hose = { bore_m: 0.0095, length_m: 3, fittingBore_m: 0.0075, valveBore_m: 0.007, roughness_m: 1e-5 };
  const path = hosePath(hose, { coresLeftIn: 0 });
  const machines = [
    {
      vapourRate_kg_s: 0.00378,
      directLiquidRate_kg_s: 0.0567,
      ratingRefrigerant: 'R-134a',
      finalVacuum_Pa: 20_000,
      cooler_W_K: 50,
    },
  ];
  const pumps = [{ speed_m3_s: 0.0047, ultimate_Pa: 2.7, hose: { bore_m: 0.019, length_m: 3 } }];
  let t = 280;
  const next = (): number => (t = t > 310 ? 270.013 : t + 0.0137);
  row(
    'saturation pressure from temperature',
    time(200_000, () => bubblePressure(r, next())),
  );
  const inverse = time(200_000, () => bubbleTemperature(r, 3e5 + next() * 100));
  const plainInverse = time(5_000, () =>
    halving((x) => bubblePressure(r, x) - (3e5 + next() * 100), 220, 340),
  );
  row('temperature from saturation pressure', inverse, plainInverse);
  row(
    'liquid density',
    time(200_000, () => liquidDensity(r, next())),
  );
  row(
    'superheated vapour density',
    time(200_000, () => vapourDensity(r, next(), 101_325)),
  );
  const flow = time(
    5_000,
    () =>
      liquidFlow({ density_kg_m3: 1210, viscosity_Pa_s: 195e-6, pressureDifference_Pa: 1e4 + next(), path })
        .massFlow_kg_s,
  );
  row(
    'liquid flow through a hose path',
    flow,
    time(200, () => plainFlow(path, 1e4 + next())),
  );
  row(
    'push-pull balance',
    time(
      2_000,
      () =>
        pushPullState({ refrigerant: r, temperature_K: next(), machines, path, coolerBypassed: true })
          .massFlow_kg_s,
    ),
  );
  row(
    'speed of a pump through a hose',
    time(20_000, () => effectiveSpeed(pumps, 50 + next())),
  );
  row(
    'evacuation through a hose',
    time(2_000, () => {
      const result = evacuation({
        volume_m3: 1,
        pumps,
        from_Pa: 101_325,
        to_Pa: 66 + next() / 1000,
        temperature_K: 293,
      });
      return result.ok ? result.value.time_s : 0;
    }),
  );
  await benchEstimates();
  return 0;
}

async function benchEstimates(): Promise<void> {
  const requests = await sampleRequests();
  let at = 0;
  const fixed = fixedSetup(requests[0]!);
  const estimateOf = (request: EstimateRequest): number => {
    const result = estimateJob(request);
    return result.ok ? result.value.elapsed_s : 0;
  };
  const given = time(200, () => estimateOf({ ...fixed, samples: 200 }));
  const ways = waysWorkedOut(fixed);
  row('estimate with its setup given, 200 draws', given);
  row(`that for each of its ${ways} ways`, given / ways);
  const draws = (samples: number): number => time(5, () => estimateOf({ ...fixed, samples }));
  row('10,000 draws of the whole work plan', Math.max(0, draws(10_200) - draws(200)));
  const whole = time(11, () => {
    const result = estimateJob(requests[(at += 1) % requests.length]!);
    return result.ok ? result.value.elapsed_s : 0;
  });
  row('whole estimate with all its ways and 2,000 draws', whole);
  process.stdout.write(`estimates a second on one core: ${(1 / whole).toFixed(1)}\n`);
}

let sink = 0;

/** Median seconds of one call over seven rounds. */
function time(calls: number, work: () => number): number {
  const rounds = Array.from({ length: 7 }, () => {
    const start_ms = performance.now();
    for (let call = 0; call < calls; call += 1) sink += work();
    return (performance.now() - start_ms) / 1000 / calls;
  });
  return rounds.toSorted((a, b) => a - b)[3]!;
}

function row(what: string, seconds: number, plain_s?: number): void {
  const ratio =
    plain_s === undefined ? '' : `   plainly ${shown(plain_s)}, ratio ${(plain_s / seconds).toFixed(1)}`;
  process.stdout.write(`${what.padEnd(52)}${shown(seconds).padStart(12)}${ratio}\n`);
  if (!Number.isFinite(sink)) throw new Error('a calculation gave no number');
}

function shown(seconds: number): string {
  if (seconds < 1e-6) return `${(seconds * 1e9).toFixed(0)} ns`;
  return seconds < 1e-3 ? `${(seconds * 1e6).toFixed(1)} us` : `${(seconds * 1e3).toFixed(1)} ms`;
}

function halving(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let step = 0; step < 60; step += 1) {
    const middle = (a + b) / 2;
    if (f(middle) < 0) a = middle;
    else b = middle;
  }
  return a;
}

function plainFlow(path: readonly HosePiece[], difference_Pa: number): number {
  return halving((flow) => plainLoss(path, flow) - difference_Pa, 1e-6, 10);
}

function plainLoss(path: readonly HosePiece[], flow: number): number {
  return path.reduce((sum, { bore_m, length_m, roughness_m, lossCoefficient }) => {
    const area = (Math.PI / 4) * bore_m ** 2;
    const reynolds = (flow * bore_m) / (area * 195e-6);
    const factor = reynolds < 4000 ? 64 / reynolds : frictionFactorColebrook(reynolds, roughness_m / bore_m);
    return sum + (((factor * length_m) / bore_m + lossCoefficient) * (flow / area) ** 2) / (2 * 1210);
  }, 0);
}

/** Ways that an estimate works out in full: the chosen one and those set beside it. */
function waysWorkedOut(request: EstimateRequest): number {
  const result = estimateJob(request);
  return result.ok ? result.value.ways.filter(({ forbidden }) => forbidden.length === 0).length : 0;
}

/** The first sample job with everything about the setup decided: nothing is compared. */
function fixedSetup(request: EstimateRequest): EstimateRequest {
  const setup = {
    method: 'push-pull',
    machineIds: ['RM-05'],
    hoseSetId: 'TH-01',
    coresRemoved: true,
    coolerBypassed: true,
    pumpIds: ['VP-01'],
    vacuumHoseSetId: 'VH-01',
  } as const;
  return { ...request, job: { ...request.job, setup }, comparesWays: false };
}

async function sampleRequests(): Promise<EstimateRequest[]> {
  const entries = await readdir('sample-jobs', { recursive: true, withFileTypes: true });
  const names = entries.filter(
    (entry) => entry.isFile() && entry.name.endsWith('.json') && !entry.parentPath.endsWith('schema'),
  );
  const files = await Promise.all(
    names.map(async ({ parentPath, name }) => ({
      name,
      text: await readFile(join(parentPath, name), 'utf8'),
    })),
  );
  const firm = readFirm(files, { refrigerants: refrigerantNames() });
  if (!firm.ok) throw new Error('the sample jobs can not be read');
  const { jobs, chillers, sites, gear, cylinders } = firm.value;
  return jobs.map((job, index) => {
    const chiller = chillers.find(({ id }) => id === job.chillerId)!;
    const site = sites.find(({ id }) => id === chiller.siteId)!;
    return {
      job,
      chiller,
      site,
      gear,
      cylinders,
      norms: STANDARD_NORMS,
      spareCylinders: 1,
      seed: index,
      samples: 2000,
    };
  });
}
