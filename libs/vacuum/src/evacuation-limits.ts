import { formatNumber, PASCALS_PER_MICRON } from '@brimline/quantities';
import type { Drying } from './drying.ts';
import { type PumpLine, speedAtVessel } from './effective-speed.ts';

export interface EvacuationLimit {
  readonly code: 'hose' | 'valve core' | 'pump' | 'ultimate' | 'gas load' | 'water';
  readonly text: string;
}

export interface EvacuationCaution {
  readonly code: 'ice' | 'ice-below-target';
  readonly text: string;
}

export interface TimeShares {
  readonly from_Pa: number;
  readonly to_Pa: number;
  readonly dry_s: number;
  /** Dry time with the pumps bolted on. */
  readonly bare_s: number;
  /** Dry time without gas load. */
  readonly tight_s: number;
  readonly drying_s: number;
}

/** What takes the time: the cause without which it would be less than half. */
export function limitOf(lines: readonly PumpLine[], times: TimeShares): EvacuationLimit {
  const { from_Pa, to_Pa, dry_s, bare_s, tight_s, drying_s } = times;
  if (drying_s > dry_s) return { code: 'water', text: 'the water left in the system' };
  if (dry_s > 2 * tight_s) return { code: 'gas load', text: 'the gas load' };
  if (dry_s > 2 * bare_s) {
    const cleared = lines.map((line) => ({ ...line, core: null }));
    return speedAtVessel(cleared, to_Pa) > 2 * speedAtVessel(lines, to_Pa)
      ? { code: 'valve core', text: 'valve cores left in' }
      : { code: 'hose', text: 'the vacuum hose' };
  }
  return boltedSlowdown(lines, from_Pa, to_Pa) > 2
    ? { code: 'ultimate', text: "the pump's ultimate pressure" }
    : { code: 'pump', text: "the pump's speed" };
}

/** Time of bolted-on pumps over that of pumps with no ultimate pressure. */
function boltedSlowdown(lines: readonly PumpLine[], from_Pa: number, to_Pa: number): number {
  const ultimate_Pa = Math.min(...lines.map((line) => line.ultimate_Pa));
  return from_Pa > to_Pa
    ? Math.log((from_Pa - ultimate_Pa) / (to_Pa - ultimate_Pa)) / Math.log(from_Pa / to_Pa)
    : 1;
}

export function cautionsOf(drying: Drying | null, to_Pa: number): readonly EvacuationCaution[] {
  if (!drying?.freezes) return [];
  const at = `${formatNumber(drying.plateau_Pa / PASCALS_PER_MICRON, 0)} micron`;
  const heat = Number.isFinite(drying.leastHeat_W_K)
    ? `at least ${formatNumber(drying.leastHeat_W_K, 1)} W/K`
    : 'from outside';
  const ice: EvacuationCaution = {
    code: 'ice',
    text: `the water freezes and dries from ice at ${at}: bring heat to it, ${heat}, or break the vacuum with warm dry nitrogen`,
  };
  if (drying.plateau_Pa > to_Pa) return [ice];
  return [
    ice,
    {
      code: 'ice-below-target',
      text: `the gauge passes the target while ice is left at ${at}: trust the rise test, not the gauge`,
    },
  ];
}
