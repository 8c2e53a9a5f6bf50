import type { Estimate } from '@brimline/estimating';
import { expect } from 'vitest';

/** A gram. */
const GRAM = 1e-3;

/** Every law that must hold for any estimate. */
export function expectSound(estimate: Estimate): void {
  expectPhases(estimate);
  expectPounds(estimate);
  expectCylinders(estimate);
  expectRisk(estimate);
  expect(JSON.stringify(estimate)).not.toMatch(/NaN|Infinity|"value":null/);
}

function expectPhases({ phases, elapsed_s, attended_person_s, gear_s }: Estimate): void {
  expect(new Set(phases.map(({ id }) => id)).size).toBe(phases.length);
  const sums = { elapsed_s: 0, attended_person_s: 0, gear_s: 0 };
  for (const [index, phase] of phases.entries()) {
    expect(phase.planned_s).toBeGreaterThan(0);
    expect(phase.elapsed.low_s).toBeLessThanOrEqual(phase.elapsed.likely_s + 1e-9);
    expect(phase.elapsed.likely_s).toBeLessThanOrEqual(phase.elapsed.high_s + 1e-9);
    expect(phase.crew === 0).toBe(phase.manner === 'unattended');
    for (const { count, eligibleIds } of phase.gear) expect(eligibleIds.length).toBeGreaterThanOrEqual(count);
    if (index > 0) expect(phase.after[0]?.phaseId).toBe(phases[index - 1]!.id);
    sums.elapsed_s += phase.planned_s;
    sums.attended_person_s += phase.attended_person_s;
    sums.gear_s += phase.gear_s;
  }
  expect(elapsed_s).toBeCloseTo(sums.elapsed_s, 3);
  expect(attended_person_s).toBeCloseTo(sums.attended_person_s, 3);
  expect(gear_s).toBeCloseTo(sums.gear_s, 3);
}

function expectPounds({ account, curve, shortage }: Estimate): void {
  const total = (point: Estimate['curve']['points'][number]): number =>
    point.chiller_kg + point.transit_kg + point.cylinder_kg.reduce((sum, mass) => sum + mass, 0);
  const first = total(curve.points[0]!);
  for (const [index, point] of curve.points.entries()) {
    expect(point.pressure_Pa).toBeGreaterThan(0);
    expect(point.chiller_kg).toBeGreaterThan(-1e-6);
    expect(point.chiller_kg).toBeLessThan(Math.max(account.nameplate_kg, account.before_kg) + GRAM);
    if (index > 0) expect(point.time_s).toBeGreaterThanOrEqual(curve.points[index - 1]!.time_s - 1e-6);
    // Only what is named as lost may be missing.
    expect(first - total(point)).toBeLessThan(account.leftAsVapour_kg + GRAM);
    expect(first - total(point)).toBeGreaterThan(-GRAM);
  }
  const { before_kg, recovered_kg, leftAsVapour_kg, after_kg, nameplate_kg } = account;
  if (recovered_kg > 0) expect(Math.abs(recovered_kg + leftAsVapour_kg - before_kg)).toBeLessThan(GRAM);
  expect(Math.abs(curve.points.at(-1)!.chiller_kg - (after_kg || leftAsVapour_kg))).toBeLessThan(GRAM);
  if (after_kg > 0) {
    expect(after_kg).toBe(nameplate_kg);
    const { before_kg: short_kg, lostAsVapour_kg, heelInCylinders_kg, toBring_kg, surplus_kg } = shortage;
    const over_kg = Math.max(0, before_kg - nameplate_kg);
    expect(
      Math.abs(short_kg + lostAsVapour_kg + heelInCylinders_kg - over_kg - (toBring_kg - surplus_kg)),
    ).toBeLessThan(GRAM);
  }
}

function expectCylinders({ curve, cylinders }: Estimate): void {
  for (const point of curve.points) {
    for (const [cylinder, mass] of point.cylinder_kg.entries()) {
      expect(mass).toBeLessThanOrEqual(curve.cylinders[cylinder]!.limit_kg + 1e-6);
      expect(mass).toBeGreaterThanOrEqual(-1e-6);
    }
  }
  for (const { planned_kg, limit_kg } of cylinders?.fills ?? [])
    expect(planned_kg).toBeLessThanOrEqual(limit_kg + 1e-9);
}

function expectRisk({ risk, elapsed, attended }: Estimate): void {
  for (const { p50_s, p80_s, p90_s } of [risk.elapsed, risk.attended, risk.gear]) {
    expect(p50_s).toBeLessThanOrEqual(p80_s);
    expect(p80_s).toBeLessThanOrEqual(p90_s);
  }
  expect(elapsed).toEqual(risk.elapsed);
  expect(attended).toEqual(risk.attended);
  const shares = risk.drivers.reduce((sum, { elapsedShare }) => sum + elapsedShare, 0);
  expect(Math.abs(shares - 1)).toBeLessThan(1e-6);
}
