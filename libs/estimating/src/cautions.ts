import {
  formatNumber,
  formatQuantity,
  KILOGRAMS_PER_POUND,
  PASCALS_PER_PSI,
  toSi,
} from '@brimline/quantities';
import { bubblePressure, takeLiquidOnly } from '@brimline/refrigerants';
import { CAUTION_TEXTS, type CautionKey, cylinderFillLimit, machineryRoomVentilation } from '@brimline/rules';
import { FREEZE_MARGIN_K, freezeProtection } from '@brimline/transfer';
import type { Caution } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import type { PlanInputs } from './plan-inputs.ts';
import type { WorkPlan } from './work-plan.ts';

/** Half-ton cylinders and up need lifting gear. */
const HEAVY_CYLINDER_KG = 200;

type Raise = (
  code: string,
  key: CautionKey | null,
  phaseId: string | null,
  cause: string,
  text?: string,
) => void;

/** What can hurt people or machines on this job, where it matters and why it applies. */
export function cautionsOf(inputs: PlanInputs, plan: WorkPlan): Caution[] {
  const cautions: Caution[] = [];
  const raise: Raise = (code, key, phaseId, cause, text) => {
    const words = [
      text,
      key === null ? 'Local code and the licensed technician decide.' : CAUTION_TEXTS[key],
    ];
    cautions.push({ code, text: words.filter(Boolean).join(' '), phaseId, cause });
  };
  everyJob(inputs, plan, raise);
  freezing(inputs, plan, raise);
  special(inputs.context, plan, raise);
  lowPressure(inputs, plan, raise);
  topUp(inputs, plan, raise);
  onSite(inputs, plan, raise);
  return cautions;
}

function everyJob({ context, receivers }: PlanInputs, plan: WorkPlan, raise: Raise): void {
  const idOf = (kind: string): string | null => plan.phases.find((phase) => phase.kind === kind)?.id ?? null;
  raise('lockout', 'lockout', idOf('arrive and lock out'), 'every job');
  if (setupMoves(plan)) raise('frostbite', 'frostbite', idOf('rig up'), 'liquid refrigerant in hoses');
  const exhaust = machineryRoomVentilation({ charge_kg: context.nameplate_kg });
  raise(
    'asphyxiation',
    'asphyxiation',
    null,
    `${formatNumber(context.nameplate_kg / KILOGRAMS_PER_POUND, 0)} lb could leave`,
    `Exhaust on alarm for this charge: ${formatQuantity(exhaust.emergencyExhaust_m3_s, 'volume flow', 'cfm', 0)} (${formatNumber(exhaust.emergencyExhaust_m3_s, 1)} m³/s).`,
  );
  if (receivers) {
    raise(
      'overfill',
      'overfill',
      plan.liquidOut[0]?.phase.id ?? idOf('vapour recovery'),
      `limit ${formatNumber(receivers.fillLimit_kg / KILOGRAMS_PER_POUND, 0)} lb each, ${receivers.reason.source}`,
    );
    if (receivers.class_waterCapacity_kg > HEAVY_CYLINDER_KG)
      raise('lifting', 'lifting', null, '1,000 lb class cylinders');
  }
  if (plan.nitrogen) {
    raise('nitrogen', 'nitrogen', plan.nitrogen.raise.id, 'nitrogen pressure test');
    const psig = formatNumber(context.chiller.testPressure_Pa_gauge / PASCALS_PER_PSI, 0);
    raise('pressure-test', 'pressure test', plan.nitrogen.raise.id, `test at ${psig} psig`);
  }
}

const setupMoves = ({ setup }: WorkPlan): boolean => setup.method !== 'none';

function freezing({ context }: PlanInputs, plan: WorkPlan, raise: Raise): void {
  const { chiller, refrigerant, atmosphere_Pa } = context;
  if (chiller.evaporatorFluid === 'none') return;
  const safe_Pa = bubblePressure(refrigerant, chiller.freezingPoint_K + FREEZE_MARGIN_K);
  const gate = `${formatNumber((safe_Pa - atmosphere_Pa) / PASCALS_PER_PSI, 0)} psig`;
  const { applies, forbidden } = freezeProtection({
    fluid: chiller.evaporatorFluid,
    waterFlow: chiller.waterFlow,
    entry: 'liquid line',
  });
  const [preCharge] = plan.preCharges;
  if (preCharge) {
    raise(
      'vapour-first',
      'freezing tubes',
      preCharge.phase.id,
      `safe saturation ${gate}`,
      `Vapour only below ${gate}; needed: ${applies.join(', ')}. Forbidden: ${forbidden.join('; ')}.`,
    );
  }
  const [vapourOut] = plan.vapourOut;
  if (vapourOut && vapourOut.freezing !== 'none') {
    raise(
      'freeze-hazard',
      'freezing tubes',
      vapourOut.phase.id,
      'liquid boils below the freezing point with no flow',
      'No fluid flows here: drain the barrels before pulling vapour.',
    );
  }
}

function special(context: JobContext, plan: WorkPlan, raise: Raise): void {
  const { refrigerant } = context;
  const [out] = plan.vapourOut;
  if (out) {
    raise(
      'recovery-level',
      null,
      out.phase.id,
      out.level.citation,
      `Recover to ${out.level.text} and verify it before opening.`,
    );
  }
  if (refrigerant.safetyGroup.startsWith('A2') || refrigerant.safetyGroup === 'A3') {
    raise('flammable', 'flammable', null, `${refrigerant.name} is ${refrigerant.safetyGroup}`);
  }
  if (plan.evacuation?.iceWarning) {
    raise(
      'ice',
      null,
      plan.evacuation.phases[0]!.id,
      'the pump draws water faster than heat arrives',
      'Water will freeze inside: add heat or break with dry nitrogen.',
    );
  }
}

function lowPressure({ context, way }: PlanInputs, plan: WorkPlan, raise: Raise): void {
  if (context.pressureClass !== 'low') return;
  const cold_Pa = bubblePressure(context.refrigerant, context.ambient_K);
  const stands = formatQuantity(cold_Pa - context.atmosphere_Pa, 'gauge pressure', 'psig', 1);
  raise(
    'low-pressure',
    null,
    null,
    `low-pressure refrigerant, ${stands} at the temperature of the machine`,
    'Below atmosphere air and water leak in, not refrigerant out: weigh what is recovered, purge air, search leaks only above atmosphere. Raise pressure with warm water, never with nitrogen above 10 psig; the disc opens at 15 psig.',
  );
  if (way !== null && way.warmedTo_K !== null) {
    const phaseId = plan.phases.find(({ kind }) => kind === 'warm up')?.id ?? null;
    const lifted = bubblePressure(context.refrigerant, way.warmedTo_K) - context.atmosphere_Pa;
    raise(
      'warm-water',
      null,
      phaseId,
      `lifts the machine to ${formatQuantity(lifted, 'gauge pressure', 'psig', 1)}`,
      'Warm with water only, never with steam or flame; keep it flowing until the level is reached.',
    );
  }
}

function topUp({ context, supply, receivers, way }: PlanInputs, plan: WorkPlan, raise: Raise): void {
  const { refrigerant, topUp: facts } = context;
  const [liquidIn] = plan.liquidIn;
  if (takeLiquidOnly(refrigerant) && liquidIn) {
    raise(
      'liquid-only',
      null,
      liquidIn.phase.id,
      `zeotropic blend, glide of ${formatNumber(refrigerant.glide_K, 1)} K`,
      'Take liquid only: vapour drawn from this blend changes its composition. Turn one-port cylinders over; where vapour has to go in first, throttle the liquid so that it flashes in the line.',
    );
  }
  const isOnePort = supply?.onePort === true && receivers === null;
  if (way && liquidIn && isOnePort) {
    raise(
      'one-port',
      null,
      liquidIn.phase.id,
      'cylinders with one port',
      'One-port cylinders give liquid upside down and go direct: no push-pull.',
    );
  }
  if (!facts) return;
  const rate = formatNumber(facts.percentPerYear, 1);
  const within = formatQuantity(facts.withinRate_kg, 'mass', 'lb', 0);
  const repair = facts.exceeded
    ? `over the ${formatNumber(facts.threshold, 0)} % a year allowed: repair falls due`
    : `within the ${formatNumber(facts.threshold, 0)} % a year allowed`;
  raise(
    'leak-first',
    null,
    null,
    facts.rule,
    `Find and repair the leak. This addition makes the leak rate ${context.job.leakRecord ? '' : 'at least '}${rate} % a year, ${repair}; up to ${within} would stay within it.`,
  );
}

/** Barrels with standing water are not pulled down below this: common practice, no source. */
const COLD_ROOM_K = toSi(40, 'temperature', 'degF');

/** What the site and the stock have to see to. */
function onSite({ context, supply }: PlanInputs, plan: WorkPlan, raise: Raise): void {
  const { chiller, refrigerant, ambient_K, request } = context;
  const moves = plan.liquidOut[0] ?? plan.vapourOut[0] ?? plan.liquidIn[0];
  if (chiller.waterFlow && moves) {
    raise(
      'water-operator',
      null,
      moves.phase.id,
      'water has to flow while refrigerant moves',
      "Book the site's water operator for recovery, charging and start-up: flow is proved, not assumed.",
    );
  }
  const [pull] = plan.evacuation?.phases ?? [];
  if (pull && chiller.evaporatorFluid === 'water' && !chiller.waterFlow && ambient_K < COLD_ROOM_K) {
    raise(
      'standing-water',
      'freezing tubes',
      pull.id,
      'cold room, water stands in the barrels',
      'Drain the barrels before any vacuum.',
    );
  }
  for (const cylinder of request.cylinders.filter(({ id }) => supply?.cylinderIds.includes(id))) {
    const { net_kg } = cylinderFillLimit({ ...cylinder, refrigerant });
    if (cylinder.contents_kg <= net_kg) continue;
    const [held, limit] = [cylinder.contents_kg, net_kg].map((mass) => formatQuantity(mass, 'mass', 'lb', 0));
    raise('overfull-stock', 'overfill', null, `${cylinder.id} holds ${held}, limit ${limit}`);
  }
}
